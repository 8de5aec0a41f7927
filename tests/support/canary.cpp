// Two tests of which one must fail, run through the same machinery as all others.
// If tests/run does not see exactly this failure, it would not see a real one either.
#include <catch2/catch.hpp>

TEST_CASE("the canary's first test passes") {
  CHECK(1 + 1 == 2);
}

TEST_CASE("the canary's second test fails, and must be seen to fail") {
  CHECK(1 + 1 == 3);
}
