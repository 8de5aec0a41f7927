// Logs of any events, and logs in which anything was changed, with or without a chain that was made
// anew for it: what is read at once is what everybody reads, and an honest log is read at once.
#include "tests/property/world.hpp"
#include "tests/support/read_both_ways.hpp"
#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <map>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

std::string file_of(const std::string& path) {
  std::ifstream file(repository() + "/" + path, std::ios::binary);
  REQUIRE(file.good());
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string played_log() {
  patient p;
  p.through_the_tubes();
  return write_log(p.e.events(), "quarterbreath 0.1.0", "2026f");
}

const std::vector<std::string>& honest_logs() {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> out{played_log()};
    for (const char* name : {"drank-first", "late-and-missed", "moved", "put-right"})
      out.push_back(file_of(std::string("tests/fixtures/logs/version-2/") + name + ".log.json"));
    return out;
  }();
  return all;
}

// One reader for all: what it remembers of one log must not turn the next.
sound_log_reader& the_reader() {
  static sound_log_reader reader(digest_of_all);
  return reader;
}

void collect(json::value& v, std::vector<json::value*>& out) {
  out.push_back(&v);
  if (v.items() != nullptr)
    for (json::value& one : *v.items())
      collect(one, out);
  if (v.members() != nullptr)
    for (json::member& m : *v.members())
      collect(m.second, out);
}

int below(std::size_t n) {
  return *rc::gen::inRange(0, static_cast<int>(n));
}

json::value any_value() {
  switch (below(10)) {
  case 0: return nullptr;
  case 1: return true;
  case 2: return false;
  case 3:
    return std::int64_t{*rc::gen::element<std::int64_t>(-1, 0, 1, 2, 11, 400, json::most_whole)};
  case 4: return json::array{};
  case 5: return json::object{};
  case 6: return json::array{json::value(1)};
  case 7: return std::string(401, 'x');
  case 8: return json::object{{"id", "pain"}, {"score", 3}};
  default:
    return *rc::gen::element<std::string>("", "a", "two\nlines", "\x7f", "caf\xC3\xA9", "\"\\/",
                                          "tube-closed", "2027-04-06T06:30:00.000Z", "\x01",
                                          "2027-04-06T06:30:00Z", "Europe/London", "plan");
  }
}

// One thing of the log is another, or gone, or there twice.
void change(json::value& log) {
  std::vector<json::value*> all;
  collect(log, all);
  // Half of the changes hit what an event says, not its rules, which are most of the text.
  json::value* at = all[static_cast<std::size_t>(below(all.size()))];
  if (below(2) == 0 && log.find("events") != nullptr && log.find("events")->items() != nullptr) {
    json::array& events = *log.members()->at(1).second.items();
    if (!events.empty()) {
      all.clear();
      collect(events[static_cast<std::size_t>(below(events.size()))], all);
      at = all[static_cast<std::size_t>(below(all.size()))];
    }
  }
  json::object* members = at->members();
  json::array* items = at->items();
  if (members != nullptr && !members->empty() && below(3) > 0) {
    const auto which = members->begin() + below(members->size());
    switch (below(3)) {
    case 0: members->erase(which); return;
    case 1: which->first += "x"; return;
    default: members->emplace_back("aa", any_value()); return;
    }
  }
  if (items != nullptr && !items->empty() && below(3) > 0) {
    const auto which = items->begin() + below(items->size());
    if (below(2) == 0) {
      items->erase(which);
    } else {
      items->insert(which, json::value(*which));
    }
    return;
  }
  *at = any_value();
}

// The chain made anew, so that it is the fields that are asked.
void chain(json::value& log) {
  std::string head = chain_start();
  for (json::member& m : *log.members()) {
    if (m.first != "events" || m.second.items() == nullptr) continue;
    for (json::value& e : *m.second.items()) {
      json::object* body = e.members();
      if (body == nullptr) continue;
      body->erase(std::remove_if(body->begin(), body->end(),
                                 [](const json::member& one) { return one.first == "hash"; }),
                  body->end());
      head = chain_next(head, json::canonical(e));
      body->emplace_back("hash", head);
    }
  }
  for (json::member& m : *log.members())
    if (m.first == "head") m.second = head;
}

std::map<read_how, int>& seen() {
  static std::map<read_how, int> counts;
  return counts;
}

void hold(const std::string& text) {
  const read_how how = read_both_ways(the_reader(), text);
  ++seen()[how];
  RC_ASSERT(how != read_how::at_once_otherwise);
}

} // namespace

TEST_CASE("honest logs are read at once, whatever was read before") {
  sound_log_reader reader(digest_of_all);
  for (int round = 0; round < 2; ++round)
    for (const std::string& text : honest_logs())
      CHECK(read_both_ways(reader, text) == read_how::at_once_the_same);
}

TEST_CASE("a log of any events is read at once wherever it can be read at all") {
  int sound = 0;
  CHECK(rc::check([&] {
    patient p;
    *rc::gen::arbitrary<bool>() ? p.open_and_plan() : p.through_the_drink();
    std::vector<event> events = p.e.events();
    const int more = below(30);
    for (int i = 0; i < more; ++i) {
      const deed d{0, 1 + below(10), below(10000)};
      event e = events.back();
      ++e.seq;
      e.at.wall += std::chrono::seconds{below(4000)};
      e.what = anything_about(d, e.at.wall);
      events.push_back(e);
    }
    const std::string text = write_log(events, "quarterbreath 0.1.0", "");
    const auto log = read_log(text);
    const read_how how = read_both_ways(the_reader(), text);
    RC_ASSERT(how == (log && log->mismatches.empty() ? read_how::at_once_the_same
                                                     : read_how::not_at_once));
    sound += how == read_how::at_once_the_same ? 1 : 0;
  }));
  CHECK(sound > 0);
}

TEST_CASE("a log in which anything was changed is not read at once otherwise than by everybody") {
  seen().clear();
  CHECK(rc::check([] {
    const auto& honest = honest_logs();
    json::value log = json::parse(honest[static_cast<std::size_t>(below(honest.size()))]).value();
    for (int i = 0; i < 12; ++i) {
      json::value next = log;
      change(next);
      if (next.members() == nullptr) continue;
      if (below(4) > 0) chain(next);
      const std::string text = json::canonical(next);
      hold(text);
      // With head and summary as they follow, where it can be read: an honest log again.
      const auto read = read_log(text);
      if (!read) continue;
      const std::string again = write_log(read->events, read->program, read->tzdata);
      RC_ASSERT(read_both_ways(the_reader(), again) == read_how::at_once_the_same);
      hold(json::one_line(next));
      if (below(4) == 0) log = next;
    }
  }));
  CHECK(seen()[read_how::not_at_once] > 0);
}

TEST_CASE("a text in which any bytes were changed is not read at once otherwise") {
  CHECK(rc::check([] {
    const auto& honest = honest_logs();
    const std::string& text = honest[static_cast<std::size_t>(below(honest.size()))];
    for (int i = 0; i < 25; ++i) {
      std::string next = text;
      const auto at = static_cast<std::size_t>(below(next.size()));
      switch (below(7)) {
      case 0: next[at] = static_cast<char>(below(256)); break;
      case 1: next.insert(at, 1, static_cast<char>(below(256))); break;
      case 2: next.erase(at, static_cast<std::size_t>(1 + below(40))); break;
      case 3: next.insert(at, next.substr(at, static_cast<std::size_t>(1 + below(60)))); break;
      case 4:
        next.insert(at, *rc::gen::element<std::string>(" ", "\\", "\\u0041", "0", "-", "e1", ",",
                                                       "{", "]", "\"", "null"));
        break;
      case 5: next += *rc::gen::element<std::string>("\n", " ", "{}", "x"); break;
      default: next.resize(at); break;
      }
      hold(next);
    }
  }));
}
