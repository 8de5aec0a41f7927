// The question about a number that no issued kit has.
#include "core/laboratory/kit_register.hpp"

#include "core/protocol/kit_alphabet.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using Catch::Contains;

namespace {

std::vector<issued_kit> issued(const std::vector<std::string>& numbers) {
  std::vector<issued_kit> out;
  for (const std::string& n : numbers)
    out.push_back({n, "lactulose-10g", "L7", {}, "R. Ashdown", ""});
  return out;
}

std::string asked(const std::vector<issued_kit>& all, const std::string& number) {
  const auto no = asked_of_kit(all, number, "--not-issued");
  return no ? sentence(*no) : "";
}

} // namespace

TEST_CASE("a kit that was issued is not asked about, nor any where no register is kept") {
  CHECK(asked(issued({"FV-2C7H"}), "FV-2C7H").empty());
  CHECK(asked({}, "FV-2C7H").empty());
  CHECK(asked({}, "anything").empty());
}

TEST_CASE("a number with two characters swapped is told the kit it may have meant") {
  CHECK_THAT(asked(issued({"FV-2071", "FV-9999"}), "FV-2017"),
             Contains("no kit FV-2017 was issued") && Contains("nearest issued: FV-2071") &&
                 Contains("--not-issued"));
  CHECK_FALSE(Catch::Contains("FV-9999").match(asked(issued({"FV-2071", "FV-9999"}), "FV-2017")));
}

TEST_CASE("every single slip of an issued number is asked about, and that kit is named") {
  const std::string good = "FV-2C7H";
  const auto all = issued({good, "FV-ZZZZ"});
  for (std::size_t at = 0; at < good.size(); ++at) {
    std::vector<std::string> slips{good.substr(0, at) + good.substr(at + 1), good};
    slips.back()[at] = 'X';
    if (at + 1 < good.size() && good[at] != good[at + 1]) {
      slips.push_back(good);
      std::swap(slips.back()[at], slips.back()[at + 1]);
    }
    for (const std::string& one : slips) {
      INFO(one);
      CHECK_THAT(asked(all, one), Contains("nearest issued: " + good));
    }
  }
}

TEST_CASE("a number that no code of this laboratory gives is told so, one that could be is not") {
  const auto all = issued({"FV-2C7H"});
  const auto could_not = Contains("nor could it be");
  for (const char* number : {"FV-2017", "FV-2C7", "XX-2C7H", "12345", "FV-2C7O"})
    CHECK_THAT(asked(all, number), could_not);
  CHECK_FALSE(could_not.match(asked(all, "FV-2C7J")));
}

TEST_CASE("what is far from every issued kit is told none") {
  CHECK(nearest_issued(issued({"FV-2C7H"}), "QM-ACDE").empty());
  CHECK(nearest_issued(issued({"FV-2222", "FV-2223", "FV-2224", "FV-2226"}), "FV-2229").size() ==
        3);
}

TEST_CASE("without a register a number is told of that is a slip from one that waits for its box") {
  const auto told = [](const std::vector<std::string>& waiting, const std::string& number) {
    return told_beside(waiting, number).value_or("");
  };
  CHECK_THAT(told({"FV-2071", "FV-9999"}, "FV-2017"), Contains("nothing is here of kit FV-2017") &&
                                                          Contains("one slip away is FV-2071") &&
                                                          !Contains("FV-9999"));
  CHECK_THAT(told({"FV-2071", "FV-2018"}, "FV-2017"), Contains("FV-2071, FV-2018"));
  CHECK(told({"FV-2071"}, "FV-2071").empty()); // it is that one
  CHECK(told({"FV-2071"}, "FV-2117").empty()); // two slips
  CHECK(told({}, "FV-2017").empty());
}
