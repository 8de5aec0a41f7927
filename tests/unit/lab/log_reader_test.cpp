// The laboratory's reader says of every text what everybody's says.
#include "app/lab/intake/log_reader.hpp"
#include "tests/support/read_both_ways.hpp"
#include "tests/support/repository.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace qb::lab {

TEST_CASE(
    "the laboratory reads every kind of log as everybody does, and refuses in the same words") {
  log_reader reader;
  std::vector<std::string> texts{make_log(),
                                 make_log({"t", "FV-1", true, std::chrono::seconds{0}}),
                                 changed(make_log(), "a little wind", "no wind"),
                                 changed(make_log(), "\"events\"", "\"event\""),
                                 make_log() + "\n",
                                 make_log().substr(1),
                                 "",
                                 "{}",
                                 "no log"};
  const std::filesystem::path logs = repository() + "/tests/fixtures/logs";
  for (const auto& one : std::filesystem::recursive_directory_iterator(logs)) {
    if (!one.is_regular_file()) continue;
    std::ifstream file(one.path(), std::ios::binary);
    texts.emplace_back(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
  }
  REQUIRE(texts.size() > 12);
  for (int round = 0; round < 2; ++round) {
    for (const std::string& text : texts) {
      CAPTURE(text.substr(0, 40));
      const auto ours = reader.read(text);
      const auto all = read_log(text);
      REQUIRE(ours.has_value() == all.has_value());
      if (!all) {
        CHECK(sentence(ours.error()) == sentence(all.error()));
        continue;
      }
      CHECK(ours->log.mismatches.size() == all->mismatches.size());
      if (all->mismatches.empty()) CHECK(test::same_log(*ours, *all));
    }
  }
}

} // namespace qb::lab
