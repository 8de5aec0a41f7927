// Logs' texts in the store: rules that many hold are there once, and every text comes back.
#include "app/store/lab_store.hpp"
#include "app/store/statement.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace qb {

namespace {

namespace fs = std::filesystem;

class store_folder {
public:
  store_folder() : path_(fs::temp_directory_path() / ("qb-packed-" + std::to_string(::getpid()))) {
    fs::remove_all(path_);
    fs::create_directories(path_);
    std::ofstream{store()};
  }
  ~store_folder() {
    std::error_code none;
    fs::remove_all(path_, none);
  }
  store_folder(const store_folder&) = delete;
  store_folder& operator=(const store_folder&) = delete;
  [[nodiscard]] std::string store() const { return (path_ / "lab.db").string(); }
  // The first column of what SQL answers, as one line.
  [[nodiscard]] std::string ask(const std::string& sql) const {
    auto db = store::database::open(store(), lab_file_rules).value();
    std::string out;
    statement all = db.prepare(sql);
    REQUIRE(all.each_row([&] { out += all.text(0) + ";"; }));
    return out;
  }
  void run(const std::string& sql) const {
    REQUIRE(store::database::open(store(), lab_file_rules).value().run(sql));
  }

private:
  fs::path path_;
};

const std::string rules(20000, 'r');
const std::string other_rules(3000, 'o');

std::string body_of(int n, const std::string& with = rules) {
  return "{\"profile\":" + other_rules + ",\"test\":" + std::to_string(n) +
         ",\"protocol\":" + with + "}";
}

log_row row(int n, const std::string& body, const std::vector<std::string_view>& shared) {
  return {"test-" + std::to_string(n),
          40,
          "head",
          "FV-1",
          "p",
          "",
          false,
          true,
          10,
          10,
          body,
          false,
          shared};
}

result<bool> keep(const log_row*) {
  return true;
}

std::string text_of(const lab_store& store, int n) {
  return store.versions_of("test-" + std::to_string(n)).value().front().body;
}

} // namespace

TEST_CASE("rules that many logs hold are in the store once, and each text comes back as it was") {
  const store_folder at;
  auto store = lab_store::open(at.store()).value();
  for (int n = 1; n <= 50; ++n)
    CHECK(store.put(row(n, body_of(n), {other_rules, rules}), keep).value());
  CHECK(store.put(row(51, body_of(51, rules + "x"), {}), keep).value()); // what nobody names
  CHECK(at.ask("SELECT count(*) FROM frozen_rules") == "2;");
  CHECK(at.ask("SELECT max(length(body)) < 200 FROM log_packed") == "1;");
  CHECK(at.ask("SELECT DISTINCT body FROM log") == ";");
  for (int n = 1; n <= 50; ++n)
    CHECK(text_of(store, n) == body_of(n));
  CHECK(text_of(lab_store::open(at.store()).value(), 51) == body_of(51, rules + "x"));
}

TEST_CASE("a text that cannot be packed is kept as it is") {
  const store_folder at;
  auto store = lab_store::open(at.store()).value();
  const std::string text = "no JSON holds \x1a, this does";
  CHECK(store.put(row(1, text, {"no"}), keep).value());
  CHECK(text_of(store, 1) == text);
  CHECK(at.ask("SELECT count(*) FROM log_packed") == "0;");
}

TEST_CASE("a packed text that is damaged is empty, and the others come back") {
  for (const char* damage :
       {"UPDATE log_packed SET body = x'0011' WHERE test_id = 'test-1'",
        "UPDATE log_packed SET body = substr(body, 1, 40) WHERE test_id = 'test-1'",
        "DELETE FROM log_packed WHERE test_id = 'test-1'",
        "DELETE FROM frozen_rules WHERE length(body) > 5000;"
        "DELETE FROM frozen_rules_again WHERE length(body) > 5000"}) {
    CAPTURE(damage);
    const store_folder at;
    CHECK(lab_store::open(at.store())->put(row(1, body_of(1), {rules}), keep).value());
    CHECK(lab_store::open(at.store())->put(row(2, body_of(2), {other_rules}), keep).value());
    at.run(damage);
    const auto store = lab_store::open(at.store()).value();
    CHECK(text_of(store, 1).empty());
    CHECK(text_of(store, 2) == body_of(2));
  }
}

TEST_CASE("what a group took back leaves no text, and no rules that are thought to be there") {
  const store_folder at;
  auto store = lab_store::open(at.store()).value();
  {
    lab_store::group taken_back(store);
    REQUIRE(taken_back.begun());
    CHECK(store.put(row(1, body_of(1), {rules}), keep).value());
    CHECK(text_of(store, 1) == body_of(1));
  }
  CHECK(at.ask("SELECT count(*) FROM log_packed") == "0;");
  lab_store::group kept(store);
  REQUIRE(kept.begun());
  CHECK(store.put(row(2, body_of(2), {rules}), keep).value());
  const auto refuses = [](const log_row*) -> result<bool> {
    return tl::unexpected(refusal{refusal_kind::malformed, "", "", "a", "b"});
  };
  CHECK_FALSE(store.put(row(3, body_of(3), {rules}), refuses).has_value());
  CHECK(kept.keep().has_value());
  CHECK(text_of(lab_store::open(at.store()).value(), 2) == body_of(2));
  CHECK(at.ask("SELECT count(*) FROM log") == "1;");
}

TEST_CASE("a store of before keeps its texts where they are, and is copied before the next log") {
  const store_folder at;
  at.run("CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
         "CREATE TABLE log(test_id TEXT NOT NULL, events INTEGER NOT NULL, head TEXT NOT NULL,"
         " kit_number TEXT NOT NULL, protocol TEXT NOT NULL, started TEXT NOT NULL,"
         " rehearsal INTEGER NOT NULL, matches INTEGER NOT NULL, filled INTEGER NOT NULL,"
         " tubes INTEGER NOT NULL, body TEXT NOT NULL, PRIMARY KEY(test_id, events)) STRICT;"
         "INSERT INTO meta VALUES('format','quarterbreath-lab-store'),('version','1');"
         "INSERT INTO log VALUES('test-1', 40, 'h', 'FV-1', 'p', '', 0, 1, 10, 10, 'as it was')");
  auto store = lab_store::open(at.store()).value();
  CHECK(text_of(store, 1) == "as it was");
  CHECK_FALSE(fs::exists(at.store() + ".before-1"));
  CHECK(store.put(row(2, body_of(2), {rules}), keep).value());
  CHECK(text_of(store, 1) == "as it was");
  CHECK(text_of(store, 2) == body_of(2));
  CHECK(at.ask("SELECT value FROM meta WHERE key='version'") == "2;");
  CHECK(fs::exists(at.store() + ".before-1"));
  const auto before = lab_store::open(at.store() + ".before-1").value();
  CHECK(before.list()->size() == 1);
  CHECK(store.put(row(3, body_of(3), {rules}), keep).value());
  CHECK_FALSE(fs::exists(at.store() + ".before-2"));
}

TEST_CASE("the only thing that is here of a test is its one version, with nothing beside it") {
  const store_folder at;
  auto store = lab_store::open(at.store()).value();
  CHECK_FALSE(store.only_version("test-1")->has_value());
  CHECK(store.put(row(1, body_of(1), {rules}), keep).value());
  CHECK(store.only_version("test-1").value()->body == body_of(1));
  SECTION("another version") {
    log_row grown = row(1, body_of(1) + " ", {rules});
    grown.events = 41;
    CHECK(store.put(grown, keep).value());
  }
  SECTION("a version set aside") {
    CHECK(store.set_aside(row(1, "other", {}), "digest").has_value());
  }
  SECTION("a signature") {
    CHECK(store.keep_signature({"test-1", 0, "digest", "", "signed"}).has_value());
  }
  SECTION("a choice") {
    CHECK(store.choose_version({"test-1", "digest", "", "R. Ashdown", "why", ""}).has_value());
  }
  SECTION("a code") {
    CHECK(store.put_code(row(1, "00", {}), keep).value());
  }
  CHECK_FALSE(store.only_version("test-1")->has_value());
}

} // namespace qb
