// The rules that many tests froze are kept twice: damage to either copy costs no test, is found by
// the check, and damage to both costs those tests alone.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"
#include "app/store/store_check.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <unistd.h>

namespace qb {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t page = 4096;
constexpr int tests = 12;
const std::string rules(20000, 'r');

std::string body_of(int n) {
  return n == tests ? std::string("{\"froze\":\"nothing\"}")
                    : "{\"test\":" + std::to_string(n) + ",\"protocol\":" + rules + "}";
}

// A store in which all tests but the last froze the same rules, and its bytes.
class store_of_tests {
public:
  store_of_tests() : path_(fs::temp_directory_path() / ("qb-twice-" + std::to_string(::getpid()))) {
    fs::remove(path_);
    std::ofstream{path_};
    auto store = lab_store::open(path_.string()).value();
    for (int n = 1; n <= tests; ++n) {
      const log_row row{name(n), 40, "head", "FV-1",     "p",   "",     false,
                        true,    10, 10,     body_of(n), false, {rules}};
      REQUIRE(store.put(row, [](const log_row*) -> result<bool> { return true; }).value());
    }
    bytes_ = read();
  }
  ~store_of_tests() {
    std::error_code none;
    fs::remove(path_, none);
  }
  store_of_tests(const store_of_tests&) = delete;
  store_of_tests& operator=(const store_of_tests&) = delete;

  [[nodiscard]] const std::string& bytes() const { return bytes_; }
  void write(const std::string& bytes) const {
    std::ofstream(path_, std::ios::binary)
        .write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  }
  // The pages of a table or an index, counted from 0, by SQLite's own table of them.
  [[nodiscard]] std::vector<std::size_t> pages_of(const std::string& name) const {
    auto db = store::database::open(path_.string(), lab_file_rules).value();
    statement ask = db.prepare("SELECT pageno FROM dbstat WHERE name = ?1 ORDER BY pageno");
    ask.bind(1, name);
    std::vector<std::size_t> out;
    REQUIRE(ask.each_row([&] { out.push_back(static_cast<std::size_t>(ask.integer(0)) - 1); }));
    return out;
  }
  // How many tests come back as they were put.
  [[nodiscard]] int whole() const {
    const auto store = lab_store::open(path_.string());
    int out = 0;
    for (int n = 1; n <= tests; ++n) {
      const auto rows = store ? store->versions_of(name(n)) : result<std::vector<log_row>>();
      out += rows && !rows->empty() && rows->front().body == body_of(n) ? 1 : 0;
    }
    return out;
  }
  // What the check says of rules, as one text.
  [[nodiscard]] std::string said_of_rules() const {
    const auto state = state_of_store(path_.string());
    std::string out;
    for (const std::string& line : state.value().damage)
      if (line.rfind("rules ", 0) == 0) out += line + "\n";
    return out;
  }
  void run(const std::string& sql) const {
    REQUIRE(store::database::open(path_.string(), lab_file_rules).value().run(sql));
  }
  [[nodiscard]] std::string path() const { return path_.string(); }

private:
  static std::string name(int n) { return "test-" + std::to_string(n); }
  [[nodiscard]] std::string read() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }
  fs::path path_;
  std::string bytes_;
};

constexpr const char* one_is_damaged =
    "rules 1 that tests froze: one of two copies is damaged; the other is used, and no test is "
    "lost\n";
constexpr const char* both_are_damaged =
    "rules 1 that tests froze: no copy is whole, and those tests cannot be read\n";

} // namespace

TEST_CASE("one turned byte anywhere in either copy of shared rules costs no test and is found") {
  const store_of_tests at;
  CHECK(at.said_of_rules().empty());
  std::size_t copies = 0;
  for (const char* table : {"frozen_rules", "frozen_rules_again"})
    for (const std::size_t p : at.pages_of(table)) {
      std::string damaged = at.bytes();
      const std::size_t text = damaged.find("rrrrrrrr", p * page);
      REQUIRE(text < (p + 1) * page);
      damaged[text + 3] ^= 1;
      at.write(damaged);
      CAPTURE(table, p);
      CHECK(at.whole() == tests);
      CHECK(at.said_of_rules() == one_is_damaged);
      ++copies;
    }
  CHECK(copies >= 2 * rules.size() / page);
}

TEST_CASE("a page of either copy that is gone, or of their index, costs no test") {
  const store_of_tests at;
  for (const char* name : {"frozen_rules", "frozen_rules_again", "sqlite_autoindex_frozen_rules_1"})
    for (const std::size_t p : at.pages_of(name)) {
      std::string damaged = at.bytes();
      damaged.replace(p * page, page, std::string(page, '\x7f'));
      at.write(damaged);
      CAPTURE(name, p);
      CHECK(at.whole() == tests);
      CHECK_FALSE(state_of_store(at.path()).value().damage.empty());
    }
}

TEST_CASE("with both copies damaged the tests that froze them are lost, and no other") {
  const store_of_tests at;
  std::string damaged = at.bytes();
  for (const char* table : {"frozen_rules", "frozen_rules_again"})
    damaged[damaged.find("rrrrrrrr", at.pages_of(table).back() * page)] ^= 1;
  at.write(damaged);
  CHECK(at.whole() == 1);
  CHECK(at.said_of_rules() == both_are_damaged);
}

TEST_CASE("a store without second copies is read, is not damaged, and has them after an import") {
  const store_of_tests at;
  at.run("DROP TABLE frozen_rules_again");
  CHECK(at.whole() == tests);
  CHECK(at.said_of_rules().empty());
  CHECK(lab_store::open(at.path())->grow().has_value());
  CHECK_FALSE(at.pages_of("frozen_rules_again").empty());
  at.run("DELETE FROM frozen_rules");
  CHECK(at.whole() == tests);
  CHECK(at.said_of_rules() == one_is_damaged);
}

} // namespace qb
