// Refusals in words, and the exit status they give.
// One function words them all, so one test holds the shape of every message.
#include "core/base/result.hpp"

#include <catch2/catch.hpp>

using namespace qb;

TEST_CASE("a refusal names file, place, finding and expectation, and leaves out what is empty") {
  CHECK(sentence({refusal_kind::malformed, "log.json", "line 3", "a text", "a number"}) ==
        "log.json: line 3: found a text, expected a number");
  CHECK(sentence({refusal_kind::missing, "", "zone", "", "this field"}) ==
        "zone: expected this field");
  CHECK(sentence({refusal_kind::malformed, "a.json", "", "another kind of file", ""}) ==
        "a.json: found another kind of file");
  CHECK(sentence({}).empty());
}

TEST_CASE("a file's name is filled in once and not replaced") {
  const refusal no{refusal_kind::malformed, "", "line 1", "x", "y"};
  CHECK(in_file(no, "a.json").file == "a.json");
  CHECK(in_file(in_file(no, "a.json"), "b.json").file == "a.json");
}

TEST_CASE("only a failure of the machine gives status 1; all other refusals give 2") {
  CHECK(exit_status({refusal_kind::machine, "", "", "", ""}) == 1);
  for (const auto kind :
       {refusal_kind::malformed, refusal_kind::out_of_range, refusal_kind::missing,
        refusal_kind::ambiguous, refusal_kind::newer, refusal_kind::not_now})
    CHECK(exit_status({kind, "", "", "", ""}) == 2);
}
