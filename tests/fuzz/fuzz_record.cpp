// A log that is well formed and says anything: the tree of a good one, changed value by value and
// event by event, and chained anew, so that what is behind the form is reached too.
// Whatever it says, its report, its sheet, its table and its code are made, and are not endless.
#include "core/code/result_of_events.hpp"
#include "core/findings/bounded.hpp"
#include "core/record/codec.hpp"
#include "core/record/log.hpp"
#include "core/report/report.hpp"
#include "core/sheet/sheet.hpp"

#include "tests/fuzz/fuzz.hpp"

#include <algorithm>
#include <cstring>
#include <random>

using namespace qb;

namespace {

using dice = std::minstd_rand;

std::size_t below(dice& d, std::size_t count) {
  return count == 0 ? 0 : d() % count;
}

void add_places(json::value& v, std::vector<json::value*>& out) {
  out.push_back(&v);
  if (auto* items = v.items())
    for (json::value& one : *items)
      add_places(one, out);
  if (auto* all = v.members())
    for (auto& one : *all)
      add_places(one.second, out);
}

json::value edge_number(dice& d) {
  constexpr std::int64_t edges[] = {0,  1,    -1,    2,     3,     10,     11,
                                    59, 60,   100,   -3600, 86400, 100000, std::int64_t{1} << 31,
                                    63, 1000, 20000, -1000, 65536, 255,    json::most_whole};
  return edges[below(d, std::size(edges))];
}

json::value edge_text(dice& d, const std::string& was) {
  const std::string edges[] = {"",
                               "yes",
                               "no",
                               std::string(200, 'x'),
                               "\xE2\x80\xAE"
                               "abc",
                               "1970-01-01T00:00:00Z",
                               "9999-12-31T23:59:59Z",
                               "2027-03-28T01:00:00.250Z",
                               "Europe/London",
                               was + was,
                               was.substr(0, was.size() / 2)};
  return edges[below(d, std::size(edges))];
}

// One place of the tree becomes another value of its kind, or a copy of another place.
void change_a_place(json::value& tree, dice& d) {
  std::vector<json::value*> places;
  add_places(tree, places);
  json::value& one = *places[below(d, places.size())];
  const json::value& other = *places[below(d, places.size())];
  if (one.integer() != nullptr && below(d, 3) != 0) {
    const std::int64_t by = static_cast<std::int64_t>(below(d, 7)) - 3;
    one = below(d, 2) == 0 ? edge_number(d) : json::value(*one.integer() + by);
  } else if (one.text() != nullptr && below(d, 3) != 0) {
    one = edge_text(d, *one.text());
  } else if (one.boolean() != nullptr) {
    one = json::value(!*one.boolean());
  } else if (one.items() == nullptr && one.members() == nullptr && other.items() == nullptr &&
             other.members() == nullptr) {
    one = json::value(other);
  }
}

// An event goes, comes twice, comes earlier, or takes the clocks of another.
void change_an_event(json::array& events, dice& d) {
  if (events.size() < 3) return;
  const std::size_t at = 1 + below(d, events.size() - 1);
  const std::size_t other = 1 + below(d, events.size() - 1);
  const auto place = [&](std::size_t n) { return events.begin() + static_cast<std::ptrdiff_t>(n); };
  switch (below(d, 5)) {
  case 0: events.erase(place(at)); break;
  case 1: events.insert(place(other), json::value(events[at])); break;
  case 2: std::swap(events[at], events[other]); break;
  case 3: {
    json::object* one = events[at].members();
    const json::value* clocks = events[other].find("at");
    if (one == nullptr || clocks == nullptr) return;
    for (auto& [key, value] : *one)
      if (key == "at") value = json::value(*clocks);
    break;
  }
  default: change_a_place(events[at], d);
  }
}

// Numbers and hashes as a program of ours would have written them.
void chain(json::value& log) {
  json::array* events = nullptr;
  for (auto& [key, value] : *log.members())
    if (key == "events") events = value.items();
  if (events == nullptr) return;
  std::string head = chain_start();
  std::int64_t seq = 0;
  for (json::value& one : *events) {
    json::object* all = one.members();
    if (all == nullptr) return;
    all->erase(
        std::remove_if(all->begin(), all->end(),
                       [](const json::member& m) { return m.first == "hash" || m.first == "seq"; }),
        all->end());
    one.set("seq", ++seq);
    head = chain_next(head, json::canonical(one));
    one.set("hash", head);
  }
  for (auto& [key, value] : *log.members())
    if (key == "head") value = head;
}

} // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t most, unsigned int seed) {
  dice d(seed);
  auto tree = json::parse(test::text_of(data, size));
  if (!tree || tree->members() == nullptr) return size;
  for (std::size_t n = 1 + below(d, 6); n > 0; --n) {
    json::array* events = nullptr;
    for (auto& [key, value] : *tree->members())
      if (key == "events") events = value.items();
    if (events != nullptr && below(d, 8) != 0)
      change_an_event(*events, d);
    else
      change_a_place(*tree, d);
  }
  if (below(d, 10) != 0) chain(*tree);
  const std::string text = json::canonical(*tree);
  if (text.size() > most) return size;
  std::memcpy(data, text.data(), text.size());
  return text.size();
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto log = read_log(test::text_of(data, size));
  if (!log) return 0;
  const zone london = zone::fixed("Europe/London", std::chrono::hours{1});
  const report r = report_of(*log, [&](const std::string&) { return result<zone>(london); });
  test::promised(r.findings.size() <= 100 * most_of_a_rule);
  const state s = fold_events(log->events);
  const clock_reading& last = log->events.back().at;
  if (s.test && s.person) {
    (void)sheet_of(s, last, london);
    (void)sheet_csv(s, last);
  }
  (void)code::codes_of(log->events);
  return 0;
}
