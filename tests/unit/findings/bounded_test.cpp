// A record of any length: its findings are told in a bounded number, and what is beyond is counted.
#include "core/findings/bounded.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

std::vector<finding> of_rule(const std::string& rule, std::size_t count) {
  std::vector<finding> out;
  for (std::size_t i = 0; i < count; ++i)
    out.push_back({rule, consequence::note, {}, {static_cast<std::int64_t>(i) + 1}, {}, "x"});
  return out;
}

} // namespace

TEST_CASE("findings up to the bound are told as they are") {
  const auto told = bounded_findings(of_rule("comment", most_of_a_rule));
  REQUIRE(told.size() == most_of_a_rule);
  CHECK(told.back().events == std::vector<std::int64_t>{100});
}

TEST_CASE("those beyond the bound are one finding, as weighty as the weightiest of them") {
  auto all = of_rule("comment", 19'900);
  all.push_back({"unwell-told", consequence::review, {}, {20'000}, {}, "felt unwell"});
  all[500].weight = consequence::review;
  const auto told = bounded_findings(all);
  REQUIRE(told.size() == most_of_a_rule + 2);
  const finding& more = told[most_of_a_rule];
  CHECK(more.rule == "comment");
  CHECK(more.weight == consequence::review);
  CHECK(more.words == "19800 more of the kind before, which stand in the record");
  CHECK(more.figures == std::vector<std::int64_t>{19'800});
  CHECK(more.events == std::vector<std::int64_t>{101, 19'900});
  CHECK(told.back().rule == "unwell-told");
}

TEST_CASE("a sentence without end is cut between two letters, and says that there is more") {
  std::vector<finding> one = of_rule("drunk-against", 1);
  one.front().words = std::string(most_finding_words - 1, 'a') + "\xC5\xBC\xC5\xBC";
  one.front().events.assign(19'900, 7);
  const auto told = bounded_findings(one);
  CHECK(told.front().words ==
        std::string(most_finding_words - 1, 'a') + " (and more, which stands in the record)");
  CHECK(told.front().events.size() == most_finding_events);
}
