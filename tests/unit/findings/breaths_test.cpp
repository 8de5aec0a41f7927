// Breaths too short, and tubes closed in another order than their numbers.
#include "core/findings/breaths.hpp"

#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

// Moves the closing of that tube: its reading, on both clocks.
std::vector<event> with_closing(sample_number n, duration by) {
  std::vector<event> events = make_events();
  for (event& e : events) {
    const auto* closed = std::get_if<tube_closed>(&e.what);
    if (closed == nullptr || closed->sample != n) continue;
    e.at.wall += by;
    *e.at.boot += by;
  }
  return events;
}

} // namespace

TEST_CASE("a guided breath shorter than the protocol's least is found with its two events") {
  // Made logs close ten seconds after the press: five to get ready, five of breath; three are
  // asked.
  const std::vector<event> events =
      with_closing(sample_number(5), -std::chrono::milliseconds{2500});
  const auto found = short_breath_findings(events, fold_events(events));
  REQUIRE(found.size() == 1);
  CHECK(found[0].rule == "breath-short");
  CHECK(found[0].sample == sample_number(5));
  CHECK(found[0].figures == std::vector<std::int64_t>{5, 2});
  REQUIRE(found[0].events.size() == 2);
  CHECK(found[0].events[1] == found[0].events[0] + 1);
  CHECK(found[0].words == "breath of tube 5 lasted 2 s of at least 3 s");
  const std::vector<event> just = with_closing(sample_number(5), -std::chrono::seconds{2});
  CHECK(short_breath_findings(just, fold_events(just)).empty());
  CHECK(short_breath_findings(make_events(), fold_events(make_events())).empty());
}

TEST_CASE("a tube whose told time lies before a lower number's is out of order, said once") {
  std::vector<event> events = make_events();
  event told = events.back();
  told.seq += 1;
  told.at.wall += std::chrono::minutes{1};
  *told.at.boot += std::chrono::minutes{1};
  // Tube 6 was really closed two minutes before tube 5.
  told.what =
      reported_breath{sample_number(6), made_start() + std::chrono::minutes{58}, how_known::told};
  events.push_back(told);
  std::vector<finding> found;
  order_findings(fold_events(events), found);
  REQUIRE(found.size() == 1);
  CHECK(found[0].rule == "sample-out-of-order");
  CHECK(found[0].sample == sample_number(6));
  CHECK(found[0].figures == std::vector<std::int64_t>{5, 6});
  CHECK(found[0].words == "tube 6 closed 2 min 12 s before tube 5");
  std::vector<finding> none;
  order_findings(fold_events(make_events()), none);
  CHECK(none.empty());
}
