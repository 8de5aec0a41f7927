// The grid against the bounds of its samples: no breath may be two samples.
#include "core/protocol/grid.hpp"

#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

TEST_CASE("every shipped test fits the shipped laboratory's bounds, and so does the long one") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    CHECK(grid_fits(shipped(id), fenwick()).has_value());
  }
  const auto own = read_protocol(source_file("demo-data/protocols/fenwick-vale-long.json"));
  REQUIRE(own.has_value());
  CHECK(grid_fits(*own, fenwick()).has_value());
}

TEST_CASE("two samples nearer than last call and early together are refused in a clear sentence") {
  protocol p = lactulose();
  const std::chrono::seconds together = fenwick().bounds.last_call + fenwick().bounds.early;
  p.offsets[1] = std::chrono::floor<std::chrono::minutes>(together);
  const auto no = grid_fits(p, fenwick());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::out_of_range);
  CHECK(sentence(no.error())
            .find("two samples " + std::to_string(p.offsets[1].count() * 60) + " s apart") !=
        std::string::npos);
  CHECK(sentence(no.error())
            .find("'fenwick-vale' together, " + std::to_string(together.count()) + " s") !=
        std::string::npos);
  SECTION("one minute more is enough") {
    p.offsets[1] += std::chrono::minutes{1};
    CHECK(grid_fits(p, fenwick()).has_value());
  }
  SECTION("or bounds of its own") {
    p.bounds = fenwick().bounds;
    p.bounds->last_call = std::chrono::seconds{30};
    p.bounds->early = std::chrono::seconds{30};
    CHECK(grid_fits(p, fenwick()).has_value());
  }
}

TEST_CASE("a grid of one sample has no gap, and tubes after the last stay empty") {
  CHECK_FALSE(shortest_gap({std::chrono::minutes{0}}).has_value());
  CHECK(shortest_gap({0min, 30min, 40min, 90min}) == std::chrono::seconds{600});
  CHECK(spare_tubes(lactulose()).empty());
  CHECK(spare_tubes(shipped("lactose-25g")) == std::vector<int>{8, 9, 10});
}
