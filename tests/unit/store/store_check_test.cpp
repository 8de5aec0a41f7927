// The list of our own tables, held against everything that makes a table.
#include "app/store/store_check.hpp"
#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

namespace qb {

namespace {

std::string text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

// What stands in the first brackets at each place that fits.
void add_all(const std::string& text, const char* pattern, std::set<std::string>& out) {
  const std::regex fits(pattern);
  for (std::sregex_iterator at(text.begin(), text.end(), fits), end; at != end; ++at)
    out.insert((*at)[1]);
}

// The tables that the sources make in a laboratory's store: by SQL of their own, or by a name from
// which receiving's SQL is made.
std::set<std::string> made_tables() {
  std::set<std::string> out;
  for (const auto& file : std::filesystem::directory_iterator(repository() + "/app/store")) {
    if (file.path().filename() == "journal_file.cpp") continue; // the patient's own file
    const std::string text = text_of(file.path());
    add_all(text, R"re(CREATE TABLE (?:IF NOT EXISTS )?([a-z_]+)\()re", out);
    add_all(text, R"re(constexpr const char\* name = "([a-z_]+)";)re", out);
  }
  return out;
}

} // namespace

TEST_CASE("every table that a store of ours can have is on the list, and no other") {
  // An earlier version's, and SQLite's own.
  std::set<std::string> made{"signature", "sqlite_sequence", "sqlite_stat1"};
  made.merge(made_tables());
  const std::set<std::string> listed(std::begin(tables_of_ours), std::end(tables_of_ours));
  CHECK(listed == made);
  CHECK(made.count("bench_signature") == 1);
  CHECK(made.count("own_handed") == 1);
}

} // namespace qb
