// Rows read from a journal's bytes by our own reader, held against what SQLite reads from the same
// file; then with the parts of its pages damaged that SQLite cannot do without.
#include "app/store/found_rows.hpp"

#include "app/machine/files.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/journal_key.hpp"
#include "app/store/sealed_rows.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

struct kept_journal {
  std::string bytes;
  std::optional<journal_secret> key;
  std::vector<event_row> rows; // as SQLite reads them
};

// A journal as it is in the middle of a test, written as a test writes it: entry by entry.
const kept_journal& journal() {
  static const kept_journal all = [] {
    const own_folder folder;
    const std::string path = folder.file("a.journal");
    patient p;
    p.through_the_drink();
    for (int n = 2; n <= 4; ++n)
      p.sample(n);
    auto open = open_journal(path);
    REQUIRE(open);
    for (const event& e : p.e.events()) {
      REQUIRE(open->keeper.append({e}));
      REQUIRE(open->keeper.journal().keep_draft("who.name", "Maren " + std::to_string(e.seq)));
    }
    kept_journal out;
    out.rows = open->keeper.journal().read_all().value();
    open = tl::unexpected(refusal{});
    out.bytes = read_file(path).value();
    out.key = find_journal_key(path).key;
    return out;
  }();
  return all;
}

// The same rows as programs wrote them before they were sealed.
const std::string& unsealed() {
  static const std::string bytes = [] {
    const own_folder folder;
    write_unsealed_journal(folder.file("a.journal"), journal().rows);
    return read_file(folder.file("a.journal")).value();
  }();
  return bytes;
}

std::size_t found_of(const std::string& bytes) {
  const auto found = rows_in_bytes(bytes, journal().key);
  return static_cast<std::size_t>(
      std::count_if(journal().rows.begin(), journal().rows.end(), [&](const event_row& row) {
        return std::any_of(found.begin(), found.end(), [&](const found_row& x) {
          return x.body == row.body && x.hash == row.hash;
        });
      }));
}

} // namespace

TEST_CASE("our own reader finds in the bytes what SQLite reads, rows over many pages as well") {
  CHECK(journal().rows.size() > 40);
  CHECK(found_of(journal().bytes) == journal().rows.size());
  const bool spills = std::any_of(journal().rows.begin(), journal().rows.end(),
                                  [](const event_row& row) { return row.body.size() > 8000; });
  CHECK(spills);
  CHECK(found_of(unsealed()) == journal().rows.size());
  std::set<std::int64_t> numbers; // sealed, and no key
  for (const found_row& row : rows_in_bytes(journal().bytes, std::nullopt)) {
    CHECK(row.body.empty());
    numbers.insert(row.number);
  }
  CHECK(numbers.size() == journal().rows.size());
}

TEST_CASE("what is found is opened by the key, at its own number") {
  const auto found = rows_in_bytes(journal().bytes, journal().key);
  CHECK(static_cast<std::size_t>(std::count_if(found.begin(), found.end(), [](const found_row& x) {
          return x.sealed;
        })) >= journal().rows.size());
  journal_secret other = *journal().key;
  other.bytes[0] ^= 1U;
  for (const found_row& row : rows_in_bytes(journal().bytes, other))
    CHECK_FALSE(row.sealed);
}

TEST_CASE("without the file's head and the heads of all pages it still finds all but a few") {
  constexpr std::size_t page = 4096;
  for (std::string bytes : {journal().bytes, unsealed()}) {
    bytes.replace(0, 100, std::string(100, '\xFF'));
    for (std::size_t at = page; at + page <= bytes.size(); at += page) {
      if (bytes[at] != '\x0D') continue; // of leaves: an overflow page's head is its next page
      bytes.replace(at, 8, std::string(8, '\xFF'));
    }
    CHECK(found_of(bytes) == journal().rows.size());
  }
}

TEST_CASE("a page that is gone costs its own rows, and no others") {
  constexpr std::size_t page = 4096;
  std::size_t whole = 0;
  for (std::size_t at = 0; at + page <= journal().bytes.size(); at += page) {
    std::string bytes = journal().bytes;
    bytes.replace(at, page, std::string(page, '\0'));
    INFO("page at " << at);
    CHECK(found_of(bytes) + 16 > journal().rows.size());
    whole += found_of(bytes) == journal().rows.size() ? 1 : 0;
  }
  CHECK(whole > 0); // not every page holds rows
}

TEST_CASE("bytes of another kind hold no rows, and are read in no time") {
  for (const std::string& bytes :
       {std::string(), std::string("{\"at\":{"), std::string("QbR1"), std::string(300000, '\x01')})
    CHECK(rows_in_bytes(bytes, journal().key).empty());
  // A file that begins in the middle of a page: rows are still found by their text.
  CHECK(found_of(journal().bytes.substr(journal().bytes.size() / 2 + 13)) > 0);
}

TEST_CASE("a file made of nothing but beginnings of long rows is held within four times its size") {
  std::string bytes;
  while (bytes.size() < 1U << 17U)
    bytes += std::string(sealed_mark) + std::string("\0\0\0\x07\0\0\x80\0", 8);
  const auto found = rows_in_bytes(bytes, journal().key);
  std::size_t held = 0;
  for (const found_row& row : found)
    held += row.body.size();
  CHECK_FALSE(found.empty());
  CHECK(held <= 5 * bytes.size());
}
