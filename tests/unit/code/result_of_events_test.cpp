// From a played test to its result by code, and held against the log again.
#include "core/code/code_text.hpp"
#include "core/code/result_of_events.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::code;
using namespace qb::test;

namespace {

std::vector<event> half_a_test() {
  patient p;
  p.through_the_drink();
  for (int n = 2; n <= 4; ++n)
    p.sample(n);
  return p.e.events();
}

} // namespace

TEST_CASE("before tube 1 there is no result by code") {
  patient p;
  p.open_and_plan();
  CHECK(codes_of(p.e.events()).error().kind == refusal_kind::not_now);
}

TEST_CASE("a result by code has the times, how they are known, and nobody's name") {
  const auto events = half_a_test();
  const packed_result r = packed_of(events).value();
  const state s = fold_events(events);
  CHECK(r.samples.size() == 10);
  CHECK(r.symptoms == s.test->symptoms.size());
  for (int n = 1; n <= 4; ++n) {
    const packed_sample& t = r.samples[static_cast<std::size_t>(n - 1)];
    const taken_breath& taken = *s.of(sample_number(n)).taken;
    CHECK(t.taken == taken.how);
    CHECK(r.zero + t.closed == std::chrono::floor<std::chrono::seconds>(taken.closed));
  }
  CHECK_FALSE(r.samples[4].taken.has_value());
  const std::string bytes = pack(r);
  for (const std::string& secret : {s.person->name, s.person->doctor})
    CHECK(bytes.find(secret) == std::string::npos);
  CHECK(bytes.find(s.person->kit_number) != std::string::npos);
}

TEST_CASE("a code agrees with its log, and with the log when it has grown") {
  auto events = half_a_test();
  const packed_result r = packed_of(events).value();
  CHECK(compare_with_log(r, events).differences.empty());
  event more = events.back();
  ++more.seq;
  more.what = reported_comment{"later"};
  events.push_back(more);
  CHECK(compare_with_log(r, events).differences.empty());
  CHECK_FALSE(packed_of(events).value().head_tail == r.head_tail);
}

TEST_CASE("a log that ends before the code was made says nothing against it") {
  auto events = half_a_test();
  const packed_result r = packed_of(events).value();
  events.pop_back();
  const auto c = compare_with_log(r, events);
  CHECK(c.log_is_older);
  CHECK(c.differences.empty());
}

TEST_CASE("a log whose one event differs does not agree, and the field is named") {
  auto events = half_a_test();
  const packed_result r = packed_of(events).value();
  for (event& e : events) {
    if (const auto* closed = std::get_if<tube_closed>(&e.what);
        closed != nullptr && closed->sample == sample_number(3))
      e.at.wall += 100s;
  }
  const auto c = compare_with_log(r, events);
  REQUIRE_FALSE(c.differences.empty());
  CHECK(c.differences.front() == "the record's hash: another in the log than in the code");
  std::string all;
  for (const std::string& one : c.differences)
    all += one + "\n";
  CHECK(all.find("tube 3 closed") != std::string::npos);
}

TEST_CASE("the codes are of the packed result and its seal") {
  const auto events = half_a_test();
  std::string seen;
  const auto sign = [&](std::string_view packed) -> std::optional<packed_seal> {
    seen = packed;
    packed_seal s;
    s.signature.fill(7);
    return s;
  };
  const auto texts = codes_of(events, sign).value();
  const auto read = read_codes(texts.front());
  REQUIRE(read.contents.size() == 1);
  const packed_result r = unpack(read.contents.front()).value();
  CHECK(r.seal->signature[0] == 7);
  CHECK(pack(r) == seen);
  const auto plain = read_codes(codes_of(events).value().front());
  CHECK_FALSE(unpack(plain.contents.front()).value().seal.has_value());
}

TEST_CASE("scores after the tubes are in the code as given, and a code made before is no other") {
  patient p;
  p.scores_after = true;
  p.through_the_tubes();
  const packed_result early = packed_of(p.e.events()).value();
  CHECK(early.after.empty());
  p.clock.pass(*p.now().to_due + 90s);
  REQUIRE(p.tell(reported_symptoms_after{score_time::after_last, {{"nausea", 3}}, "a walk"}));
  const std::int64_t told = p.keeper.kept.back().seq;
  p.clock.pass(*p.now().to_due);
  REQUIRE(p.tell(reported_symptoms_after{score_time::later, {{"bloating", 2}}, ""}));
  REQUIRE(p.tell(corrected{told, right_score{"nausea", 4}, "a slip"}));
  const packed_result r = packed_of(p.e.events()).value();
  REQUIRE(r.after.size() == 2);
  CHECK(r.after[0].corrected);
  CHECK_FALSE(r.after[1].corrected);
  CHECK(r.after[0].elapsed == 150min + 90s);
  const std::size_t nausea = p.current().test->symptoms.size() - 1;
  CHECK(r.after[0].scores.at(nausea) == 4);
  CHECK(compare_with_log(early, p.e.events()).differences.empty());
  CHECK(compare_with_log(r, p.e.events()).differences.empty());
  packed_result other = r;
  other.after[1].elapsed += 60s;
  other.after[0].scores[nausea] = 5;
  CHECK(differences(other, r).size() == 2);
  other = r;
  other.after.pop_back();
  CHECK(differences(other, r) ==
        std::vector<std::string>{"scores after the tubes: 1 in the code, 2 in the log"});
}
