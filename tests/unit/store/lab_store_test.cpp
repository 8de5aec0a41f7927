// The laboratory's store on a real file.
#include "app/store/lab_store.hpp"

#include "app/store/journal_file.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <unistd.h>

namespace qb {

namespace {

namespace fs = std::filesystem;

// An empty file of its own, gone with the test.
class store_file {
public:
  store_file() : path_((fs::temp_directory_path() / ("qb-store-" + std::to_string(::getpid())))) {
    remove();
    std::ofstream{path_};
  }
  ~store_file() { remove(); }
  store_file(const store_file&) = delete;
  store_file& operator=(const store_file&) = delete;
  [[nodiscard]] std::string path() const { return path_.string(); }
  void write(const std::string& bytes) const { std::ofstream(path_, std::ios::binary) << bytes; }
  [[nodiscard]] std::string bytes() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

private:
  void remove() const {
    std::error_code none;
    fs::remove(path_, none);
    fs::remove(path_.string() + "-journal", none);
  }
  fs::path path_;
};

log_row row(const std::string& test, std::int64_t events, const std::string& kit = "FV-1") {
  return {test,
          events,
          "head",
          kit,
          "lactulose-10g",
          "2027-04-06T06:30:00Z",
          false,
          true,
          10,
          10,
          "body " + std::to_string(events)};
}

result<bool> keep(const log_row*) {
  return true;
}

} // namespace

TEST_CASE("a row comes back as it was put, also through another connection") {
  const store_file file;
  auto store = lab_store::open(file.path());
  REQUIRE(store.has_value());
  log_row one = row("t1", 40);
  one.rehearsal = true;
  one.matches = false;
  CHECK(store->put(one, keep).value());
  const auto other = lab_store::open(file.path());
  REQUIRE(other.has_value());
  const auto found = other->find(which_tests::of_kit_number, "FV-1");
  REQUIRE(found.has_value());
  REQUIRE(found->size() == 1);
  const log_row& back = found->front();
  CHECK(back.test_id == "t1");
  CHECK(back.events == 40);
  CHECK(back.rehearsal);
  CHECK_FALSE(back.matches);
  CHECK(back.body == "body 40");
  CHECK(other->list().value().front().body.empty());
  CHECK(other->find(which_tests::of_kit_number, "FV-2").value().empty());
}

TEST_CASE("of a log that grew the version with the most events counts") {
  const store_file file;
  auto store = lab_store::open(file.path()).value();
  CHECK(store.put(row("t1", 9), keep).value());
  std::int64_t seen = 0;
  const auto look = [&](const log_row* kept) -> result<bool> {
    seen = kept == nullptr ? -1 : kept->events;
    return true;
  };
  CHECK(store.put(row("t1", 40), look).value());
  CHECK(seen == 9);
  CHECK(store.put(row("t2", 5, "FV-0"), look).value());
  CHECK(seen == -1);
  const auto all = store.list().value();
  REQUIRE(all.size() == 2);
  CHECK(all[0].kit_number == "FV-0"); // ordered by kit
  CHECK(all[1].events == 40);
  CHECK(store.find(which_tests::of_test_id, "t1").value().front().body == "body 40");
}

TEST_CASE("what the judge does not want or refuses is not stored") {
  const store_file file;
  auto store = lab_store::open(file.path()).value();
  const auto no = [](const log_row*) -> result<bool> { return false; };
  CHECK_FALSE(store.put(row("t1", 9), no).value());
  const auto refuse = [](const log_row*) -> result<bool> {
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "event 3", "", ""});
  };
  const auto refused = store.put(row("t1", 9), refuse);
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().where == "event 3");
  CHECK(store.list().value().empty());
  CHECK(store.put(row("t1", 9), keep).value()); // and the store goes on working
}

TEST_CASE("the same version put twice is refused and the first stays") {
  const store_file file;
  auto store = lab_store::open(file.path()).value();
  CHECK(store.put(row("t1", 9), keep).value());
  const auto again = store.put(row("t1", 9, "FV-9"), keep);
  REQUIRE_FALSE(again.has_value());
  CHECK(exit_status(again.error()) == 1);
  CHECK(store.list().value().front().kit_number == "FV-1");
}

TEST_CASE("a file of another kind is refused and left as it is") {
  const store_file file;
  file.write("Dear laboratory, here is my shopping list. Milk, bread, and a new kettle.\n");
  const std::string before = file.bytes();
  auto text = lab_store::open(file.path());
  REQUIRE_FALSE(text.has_value());
  CHECK(text.error().found == "another kind of file");
  CHECK(exit_status(text.error()) == 2);
  CHECK(file.bytes() == before);
}

TEST_CASE("a patient's journal is not taken for a store") {
  const store_file file;
  { REQUIRE(journal_file::open(file.path()).has_value()); }
  const std::string before = file.bytes();
  const auto store = lab_store::open(file.path());
  REQUIRE_FALSE(store.has_value());
  CHECK(store.error().found == "another kind of file");
  CHECK(file.bytes() == before);
}

TEST_CASE("a file that is not there is missing, not made") {
  const auto store = lab_store::open("/nowhere/at/all/store.db");
  REQUIRE_FALSE(store.has_value());
  CHECK(store.error().kind == refusal_kind::missing);
}

TEST_CASE("a damaged page costs the tests on it, and the list names all of them") {
  const store_file file;
  std::mt19937 random(7);
  constexpr int tests = 60;
  {
    auto store = lab_store::open(file.path());
    REQUIRE(store);
    for (int n = 0; n < tests; ++n) {
      log_row one = row("test-" + std::to_string(n), 1, "FV-" + std::to_string(n));
      one.body.clear(); // a few on a page, however they are packed
      while (one.body.size() < 1800)
        one.body += "0123456789abcdef"[random() % 16];
      REQUIRE(store->put(one, keep));
    }
  }
  const std::string whole = file.bytes();
  constexpr std::size_t page = 4096;
  int not_listed = 0;
  int pages_of_tests = 0;
  for (std::size_t at = page; at < whole.size(); at += page) {
    std::string damaged = whole;
    damaged[at] = '\x7f'; // no kind of page (SQLite's file format, 1.6)
    file.write(damaged);
    const auto store = lab_store::open(file.path());
    const auto listed =
        store ? store->list() : result<std::vector<log_row>>(std::vector<log_row>());
    if (!store || !listed) {
      ++not_listed;
      continue;
    }
    CHECK(listed->size() == tests);
    int unread = 0;
    for (const log_row& one : *listed) {
      const auto found = store->find(which_tests::of_kit_number, one.kit_number);
      unread += found && !found->empty() && !found->front().body.empty() ? 0 : 1;
    }
    pages_of_tests += unread > 0 && unread <= 5 ? 1 : 0;
    not_listed += unread > 5 ? 1 : 0;
  }
  CHECK(pages_of_tests > 10);
  // The tables of what the file is and of what it packs with, their indexes, and the page above
  // those of the tests.
  CHECK(not_listed <= 5);
  CHECK(pages_of_tests + not_listed < 40);
}

} // namespace qb
