// The timing log: replayable, and an edit shows where it was made.
// A laboratory judges tubes by it, so every way of tampering has its sign.
#include "core/record/codec.hpp"
#include "core/record/log.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

using namespace qb;
using namespace qb::test;

namespace {

const std::vector<event>& whole_test() {
  static const std::vector<event> events = [] {
    patient p;
    p.through_the_drink();
    p.score(1);
    for (int n = 2; n <= 10; ++n)
      p.sample(n);
    return p.e.events();
  }();
  return events;
}

const std::string& whole_log() {
  static const std::string text = write_log(whole_test(), "quarterbreath 0.1.0", "");
  return text;
}

// The log with a piece replaced, all or the first; the piece must be there.
std::string edited(const std::string& what, const std::string& by, std::size_t nth = 1) {
  std::string text = whole_log();
  std::size_t at = text.find(what);
  for (std::size_t i = 1; i < nth && at != std::string::npos; ++i)
    at = text.find(what, at + 1);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), by);
}

std::string file_of(const std::string& path) {
  std::ifstream file(repository() + "/" + path, std::ios::binary);
  REQUIRE(file.good());
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string said(const std::string& text) {
  const auto read = read_log(text);
  return read ? "" : sentence(read.error());
}

bool has(const read_log_result& log, mismatch::kind what) {
  for (const mismatch& m : log.mismatches) {
    if (m.what == what) return true;
  }
  return false;
}

} // namespace

TEST_CASE("a log is read back with every event, and matches itself") {
  const auto log = read_log(whole_log());
  REQUIRE(log.has_value());
  CHECK(log->mismatches.empty());
  CHECK(log->events.size() == whole_test().size());
  CHECK(log->program == "quarterbreath 0.1.0");
  CHECK_FALSE(log->rehearsal);
  CHECK(write_log(log->events, log->program, log->tzdata) == whole_log());
}

TEST_CASE("the file is in its own canonical form") {
  CHECK(json::canonical(json::parse(whole_log()).value()) == whole_log());
}

TEST_CASE("a changed time of a tube shows at its event, and in the summary") {
  // The closing of tube 2: find its event by its kind.
  std::int64_t seq = 0;
  for (const event& e : whole_test()) {
    if (const auto* t = std::get_if<tube_closed>(&e.what);
        t != nullptr && t->sample == sample_number(2))
      seq = e.seq;
  }
  REQUIRE(seq > 0);
  json::value v = json::parse(whole_log()).value();
  for (json::member& m : *v.members()) {
    if (m.first != "events") continue;
    for (json::member& field : *(*m.second.items())[static_cast<std::size_t>(seq - 1)].members()) {
      if (field.first != "at") continue;
      for (json::member& one : *field.second.members()) {
        if (one.first == "wall") one.second = json::value("2027-04-06T06:45:59Z");
      }
    }
  }
  const auto log = read_log(json::canonical(v));
  REQUIRE(log.has_value());
  REQUIRE(has(*log, mismatch::kind::event_hash));
  CHECK(log->mismatches.front().seq == seq);
  CHECK(has(*log, mismatch::kind::summary));
  CHECK_FALSE(has(*log, mismatch::kind::head));
}

TEST_CASE("an edit of any event shows at that event and nowhere else") {
  const json::value whole = json::parse(whole_log()).value();
  const std::size_t count = whole_test().size();
  for (std::size_t i = 0; i < count; ++i) {
    json::value v = whole;
    for (json::member& m : *v.members()) {
      if (m.first != "events") continue;
      for (json::member& field : *(*m.second.items())[i].members()) {
        if (field.first != "at") continue;
        for (json::member& one : *field.second.members()) {
          if (one.first == "synchronised") one.second = json::value(false);
        }
      }
    }
    const auto log = read_log(json::canonical(v));
    REQUIRE(log.has_value());
    REQUIRE(log->mismatches.size() == 1);
    CHECK(log->mismatches[0].what == mismatch::kind::event_hash);
    CHECK(log->mismatches[0].seq == static_cast<std::int64_t>(i) + 1);
  }
}

TEST_CASE("an edit with its own hash made to fit shows at the next event") {
  std::vector<event> events = whole_test();
  events[4].at.synchronised = false;
  // The forger recomputes one hash and leaves the rest.
  const json::value forged = json::parse(write_log(events, "quarterbreath 0.1.0", "")).value();
  json::value v = json::parse(whole_log()).value();
  for (json::member& m : *v.members()) {
    if (m.first == "events") (*m.second.items())[4] = (*forged.find("events")->items())[4];
  }
  const auto log = read_log(json::canonical(v));
  REQUIRE(log.has_value());
  REQUIRE(has(*log, mismatch::kind::event_hash));
  CHECK(log->mismatches.front().seq == 6);
}

TEST_CASE("events cut off at the end show in the head") {
  json::value v = json::parse(whole_log()).value();
  for (json::member& m : *v.members()) {
    if (m.first == "events") m.second.items()->pop_back();
  }
  const auto log = read_log(json::canonical(v));
  REQUIRE(log.has_value());
  CHECK(has(*log, mismatch::kind::head));
  CHECK_FALSE(has(*log, mismatch::kind::event_hash));
}

TEST_CASE("events taken out of the middle are refused by number") {
  json::value v = json::parse(whole_log()).value();
  for (json::member& m : *v.members()) {
    if (m.first == "events") m.second.items()->erase(m.second.items()->begin() + 3);
  }
  CHECK(said(json::canonical(v)) == "events[3].seq: found 5, expected 4");
}

TEST_CASE("a changed summary and a changed heading each show") {
  const auto log = read_log(edited("\"late_ms\":10000", "\"late_ms\":9000"));
  REQUIRE(log.has_value());
  REQUIRE(log->mismatches.size() == 1);
  CHECK(log->mismatches[0].what == mismatch::kind::summary);
  // The heading's word on rehearsal stands last before the summary.
  const std::string heading = "\"program\":\"quarterbreath 0.1.0\",\"rehearsal\":false,\"rules\"";
  const auto practice =
      read_log(edited(heading, "\"program\":\"quarterbreath 0.1.0\",\"rehearsal\":true,\"rules\""));
  REQUIRE(practice.has_value());
  REQUIRE(practice->mismatches.size() == 1);
  CHECK(practice->mismatches[0].what == mismatch::kind::rehearsal);
  CHECK(practice->rehearsal);
}

TEST_CASE(
    "the head names zone, rules with their hashes, person and answers, and must fit the events") {
  const json::value log =
      json::parse(write_log(whole_test(), "quarterbreath 0.1.0", "2026f")).value();
  CHECK(*log.find("tzdata")->text() == "2026f");
  CHECK(*log.find("zone")->text() == "Europe/London");
  CHECK(log.find("person")->find("laboratory") == nullptr);
  CHECK(*log.find("person")->find("kit_number")->text() ==
        *log.find("summary")->find("kit_number")->text());
  // The frozen protocol's hash is that of the shipped file's canonical form.
  const std::string file = file_of("assets/protocols/lactulose-10g.json");
  CHECK(*log.find("rules")->find("protocol")->find("sha256")->text() ==
        sha256_hex(json::canonical(json::parse(file).value())));
  const auto moved = read_log(edited("\"version\":3,\"zone\":\"Europe/London\"",
                                     "\"version\":3,\"zone\":\"Europe/Berlin\""));
  REQUIRE(moved.has_value());
  CHECK(has(*moved, mismatch::kind::header));
  CHECK_FALSE(has(*moved, mismatch::kind::rehearsal));
}

TEST_CASE("logs of version 1 are read and match themselves") {
  for (const char* name : {"clean", "power-cut", "repeat-and-clock", "unwell"}) {
    CAPTURE(name);
    const auto log =
        read_log(file_of(std::string("tests/fixtures/logs/version-1/") + name + ".log.json"));
    REQUIRE(log.has_value());
    CHECK(log->version == 1);
    CHECK(log->tzdata.empty());
    CHECK(log->mismatches.empty());
    // Lifted: the same events written today are read as the same events.
    const auto lifted = read_log(write_log(log->events, log->program, log->tzdata));
    REQUIRE(lifted.has_value());
    CHECK(lifted->version == log_version);
    CHECK(lifted->mismatches.empty());
    CHECK(lifted->head == log->head);
  }
}

TEST_CASE("logs of version 2, kept as they were written, are read and match themselves") {
  for (const char* name : {"drank-first", "late-and-missed", "moved", "put-right"}) {
    CAPTURE(name);
    const auto log =
        read_log(file_of(std::string("tests/fixtures/logs/version-2/") + name + ".log.json"));
    REQUIRE(log.has_value());
    CHECK(log->version == 2);
    CHECK(log->mismatches.empty());
  }
}

TEST_CASE("a newer log is refused in one line, whatever else is in it") {
  CHECK(said(edited("\"version\":3,\"zone\"", "\"version\":4,\"zone\"")) ==
        "version: found version 4, expected version 3 or older");
  CHECK(said("{\"format\":\"quarterbreath-log\",\"version\":7,\"new_things\":[]}") ==
        "version: found version 7, expected version 3 or older");
}

TEST_CASE("what is no log is refused with the place") {
  CHECK(said("hello").find("found text that is not JSON") != std::string::npos);
  CHECK(said("{}").find("format: found nothing, expected this field") != std::string::npos);
  CHECK(said("[]").find("found a list, expected an object") != std::string::npos);
  CHECK(said(edited("\"quarterbreath-log\"", "\"quarterbreath-protocol\""))
            .find("format: found \"quarterbreath-protocol\"") != std::string::npos);
  CHECK(said(edited("\"kind\":\"opened\"", "\"kind\":\"resumed\"")).find("events[0].data") !=
        std::string::npos);
  CHECK(said(edited("\"hash\":\"", "\"hash\":\"0")).find("no hash of 64 hexadecimal digits") !=
        std::string::npos);
  CHECK(said(edited("\"head\":\"", "\"head\":\"0")).find("head: found another text") !=
        std::string::npos);
  CHECK(said(whole_log() + "x") != "");
  CHECK(said(whole_log().substr(0, whole_log().size() / 2)) != "");
}

TEST_CASE("a log must begin with the opening of its test") {
  // Written from its second event on, with numbers from 1.
  std::vector<event> rest(whole_test().begin() + 1, whole_test().end());
  for (std::size_t i = 0; i < rest.size(); ++i)
    rest[i].seq = static_cast<std::int64_t>(i) + 1;
  CHECK(said(write_log(rest, "x", "")) == "events[0].kind: found \"person\", expected \"opened\"");
}

TEST_CASE("the summary says what the events add up to") {
  const json::value summary = *json::parse(whole_log()).value().find("summary");
  CHECK(*summary.find("kit_number")->text() == "FV-2071");
  CHECK(*summary.find("protocol")->text() == "lactulose-10g");
  CHECK(*summary.find("planned_start")->text() == "2027-04-06T06:30:00Z");
  CHECK(*summary.find("anchor")->text() == "2027-04-06T06:30:00Z");
  CHECK(summary.find("ended_early")->is_null());
  const json::array& samples = *summary.find("samples")->items();
  REQUIRE(samples.size() == 10);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    CHECK(*samples[i].find("number")->integer() == static_cast<std::int64_t>(i) + 1);
    CHECK(*samples[i].find("late_ms")->integer() == (i == 0 ? 0 : 10000));
    CHECK(*samples[i].find("how")->text() == "observed");
    CHECK(*samples[i].find("closings")->integer() == 1);
    CHECK(samples[i].find("scores")->items()->size() == 3);
  }
}
