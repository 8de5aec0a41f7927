// Receiving's tables on a real file, beside the logs.
#include "app/store/laboratory_store.hpp"
#include "app/store/receiving_store.hpp"

#include "app/store/lab_store.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sqlite3.h>
#include <unistd.h>

namespace qb {

namespace {

namespace fs = std::filesystem;

// A laboratory's store of its own, gone with the test.
class store_file {
public:
  store_file() : path_(fs::temp_directory_path() / ("qb-receiving-" + std::to_string(::getpid()))) {
    remove();
    std::ofstream{path_};
    REQUIRE(lab_store::open(path()));
  }
  ~store_file() { remove(); }
  store_file(const store_file&) = delete;
  store_file& operator=(const store_file&) = delete;
  [[nodiscard]] std::string path() const { return path_.string(); }
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

reading_row gas_row(const char* kit, std::int64_t sample, const char* h2) {
  reading_row r;
  r.kit = kit;
  r.sample = sample;
  r.h2 = h2;
  r.measured_at = "2027-04-09T10:30";
  return r;
}

} // namespace

TEST_CASE("a store without receiving's tables answers nothing, and stays as it was") {
  const store_file file;
  const std::string before = file.bytes();
  const auto store = receiving_store::open(file.path());
  REQUIRE(store);
  CHECK(store->find("FV-1")->arrivals.empty());
  CHECK(store->forgotten()->empty());
  CHECK(file.bytes() == before);
}

TEST_CASE("every field of every row comes back from another connection as it was put") {
  const store_file file;
  auto store = receiving_store::open(file.path());
  REQUIRE(store);
  arrival_row box{0, "FV-1", "at", "by", "yes", "p", "tested", "posted", "no", "not-told"};
  box.lot = "L7", box.expires = "last", box.stored = "cool";
  REQUIRE(store->put_box(box, {{0, "FV-1", 0, 4, false, "bad", "08:15", "A9"}}));
  REQUIRE(store->put(paper_row{0, "FV-1", "p", "day", "times", true, "s", "e", "w", "by", "at"}));
  REQUIRE(store->put(scan_row{0, "FV-1", 2, "A9", "by", "at"}));
  reading_row gases{0, "FV-1", 3, "1", "2", "3", "m", "raw", "at", "file"};
  gases.run = "R", gases.analyser = "A", gases.calibration = "C", gases.control = "passed";
  gases.taken_by = "who";
  REQUIRE(store->put({gases}));
  REQUIRE(store->put(choice_row{0, "FV-1", 3, 1, "by", "why", "at"}));
  REQUIRE(store->put(override_row{0, "FV-1", "lid-bad", 4, "by", "why", "at", true}));
  REQUIRE(store->put(conclusion_row{0, "FV-1", "words", "by", "at"}));

  const auto again = receiving_store::open(file.path());
  const auto rows = again->find("FV-1");
  REQUIRE(rows);
  const arrival_row& a = rows->arrivals.at(0);
  CHECK(a.at + a.by + a.identifiers + a.protocol + a.tested + a.posted + a.completed + a.stopped ==
        "atbyyesptestedpostednonot-told");
  CHECK(a.lot + a.expires + a.stored == "L7lastcool");
  const tube_row& t = rows->tubes.at(0);
  CHECK((t.box == a.entry && t.sample == 4 && !t.present));
  CHECK(t.lid + t.label + t.maker_code == "bad08:15A9");
  const scan_row& s = rows->scans.at(0);
  CHECK((s.boxes == 2 && s.code + s.by + s.at == "A9byat"));
  const paper_row& p = rows->papers.at(0);
  CHECK(p.past_midnight);
  CHECK(p.protocol + p.day + p.times + p.drink_start + p.drink_end + p.written + p.by + p.at ==
        "pdaytimessewbyat");
  const reading_row& r = rows->readings.at(0);
  CHECK(r.h2 + r.ch4 + r.co2 + r.measured_at + r.raw + r.at + r.file == "123mrawatfile");
  CHECK(r.run + r.analyser + r.calibration + r.control + r.taken_by == "RACpassedwho");
  CHECK(rows->choices.at(0).reading == 1);
  CHECK(rows->choices.at(0).reason == "why");
  CHECK(rows->overrides.at(0).withdrawn);
  CHECK(rows->overrides.at(0).sample == 4);
  CHECK(rows->conclusions.at(0).words == "words");
  CHECK(again->find("FV-2")->tubes.empty());
  CHECK(again->find("")->tubes.size() == 1);
}

TEST_CASE("columns of later versions come back, and a store without them opens and is written on") {
  const store_file file;
  {
    auto store = receiving_store::open(file.path());
    REQUIRE(store->put(arrival_row{0, "FV-1", "at", "by", "no", "p", "", "", "no", "no", "told"}));
    REQUIRE(store->put(conclusion_row{0, "FV-1", "words", "by", "at", "seen"}));
    CHECK(store->find("FV-1")->arrivals.at(0).entered == "told");
    CHECK(store->find("FV-1")->conclusions.at(0).seen == "seen");
  }
  // As an earlier version made it.
  sqlite3* raw = nullptr;
  REQUIRE(sqlite3_open(file.path().c_str(), &raw) == SQLITE_OK);
  for (const char* sql : {"ALTER TABLE bench_arrival DROP COLUMN entered",
                          "ALTER TABLE bench_conclusion DROP COLUMN seen",
                          "ALTER TABLE bench_paper DROP COLUMN scores", "DROP TABLE bench_scan"})
    REQUIRE(sqlite3_exec(raw, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(raw);

  const std::string before = file.bytes();
  auto old = receiving_store::open(file.path());
  REQUIRE(old);
  const auto rows = old->find("FV-1");
  REQUIRE(rows);
  CHECK(rows->conclusions.at(0).words == "words");
  CHECK(rows->conclusions.at(0).seen.empty());
  CHECK(rows->arrivals.at(0).entered.empty());
  CHECK(file.bytes() == before); // reading changes nothing
  CHECK_FALSE(std::filesystem::exists(file.path() + ".before-1"));
  REQUIRE(old->put(conclusion_row{0, "FV-1", "again", "by", "at", "seen again"}));
  CHECK(old->find("FV-1")->conclusions.at(0).words == "words");
  CHECK(old->find("FV-1")->conclusions.at(1).seen == "seen again");
  // The file as it was before it got columns is kept beside it, once.
  const auto copy = receiving_store::open(file.path() + ".before-1");
  REQUIRE(copy);
  CHECK(copy->find("FV-1")->conclusions.size() == 1);
  REQUIRE(old->put(conclusion_row{0, "FV-1", "third", "by", "at"}));
  CHECK_FALSE(std::filesystem::exists(file.path() + ".before-2"));
  std::filesystem::remove(file.path() + ".before-1");
}

TEST_CASE("the same reading is there once, another of the same tube beside it") {
  const store_file file;
  auto store = receiving_store::open(file.path());
  const auto first = store->put({gas_row("FV-1", 1, "4"), gas_row("FV-1", 2, "6")});
  REQUIRE(first);
  CHECK(first->fresh == 2);
  const auto second = store->put({gas_row("FV-1", 1, "5"), gas_row("FV-1", 2, "6")});
  CHECK(second->fresh == 1);
  CHECK(second->known == 1);
  CHECK(store->find("FV-1")->readings.size() == 3);
}

TEST_CASE("what rests on an older look is refused, and nothing of it is kept") {
  const store_file file;
  auto a = receiving_store::open(file.path());
  auto b = receiving_store::open(file.path());
  const seen_kit looked{"FV-1", a->state_of("FV-1").value()};
  REQUIRE(b->put(arrival_row{0, "FV-2", "at", "b", "no", "p", "", "", "no", "no"}));
  REQUIRE(a->put(scan_row{0, "FV-1", 0, "A9", "a", "at"}, looked)); // another kit is no matter
  CHECK(a->put(choice_row{0, "FV-1", 3, 1, "a", "why", "at"}, looked).error().where == more_came);
  const seen_kit again{"FV-1", a->state_of("FV-1").value()};
  auto logs = lab_store::open(file.path());
  log_row log;
  log.test_id = "test-1";
  log.kit_number = "FV-1";
  REQUIRE(logs->put(log, [](const log_row*) -> result<bool> { return true; }));
  CHECK(a->put(choice_row{0, "FV-1", 3, 1, "a", "why", "at"}, again).error().where == more_came);
  CHECK(a->put({gas_row("FV-1", 1, "4")}, {again}).error().kind == refusal_kind::not_now);
  CHECK((a->find("FV-1")->choices.empty() && a->find("FV-1")->readings.empty()));
  CHECK(
      a->put(choice_row{0, "FV-1", 3, 1, "a", "why", "at"}, {"FV-1", a->state_of("FV-1").value()}));
}

TEST_CASE("what goes out with a conclusion and its signature are kept with it or not at all") {
  const store_file file;
  auto store = receiving_store::open(file.path());
  const std::string bytes{"%PDF\0\xff\n", 8};
  const conclusion_row c{0, "FV-1", "words", "by", "at", "", "test-1", "final", "1"};
  const with_conclusion with{{{0, "FV-1", "test-1", 1, "pdf", {bytes}}},
                             {{0, "FV-1", "test-1", 1, "body", "lines", "RW"}}};
  const seen_kit seen{"FV-1", store->state_of("FV-1").value()};
  REQUIRE(store->put_issued(c, with, seen));
  CHECK_FALSE(store->put_issued(c, with, seen)); // more came: neither words, bytes nor signature
  CHECK(store->signatures_of("test-1", 1)->size() == 1);
  CHECK(store->signatures_of("test-1", 1)->front().body == "body");
  CHECK(store->signatures_of("test-2", 1)->empty());
  CHECK(store->issued_of("test-1", 1)->at(0).body.value == bytes);
  CHECK(store->issued_of("test-1", 2)->empty());
  CHECK(store->find("FV-1")->conclusions.at(0).number == "1");
}

TEST_CASE("what is forgotten is in no table and in no byte of the file; counts add up") {
  const store_file file;
  auto logs = lab_store::open(file.path());
  const auto always = [](const log_row*) -> result<bool> { return true; };
  log_row log;
  log.test_id = "test-1";
  log.kit_number = "FV-1";
  log.body = "Odile Marchbank";
  REQUIRE(logs->put(log, always));
  log.kit_number = "FV-OLD"; // an earlier version, under a number that was put right
  log.events = 1;
  log.body = "Odile Marchbank before";
  log.test_id = "test-1";
  REQUIRE(logs->put(log, always));
  REQUIRE(logs->put_code(log, always));
  REQUIRE(logs->keep_signature({"test-1", 0, "d", "", "signed by Marchbank's device"}));
  log.test_id = "test-2";
  log.kit_number = "FV-2";
  log.body = "another";
  REQUIRE(logs->put(log, always));
  auto store = receiving_store::open(file.path());
  const auto gone = store->put(conclusion_row{0, "FV-1", "Marchbank: as it stands", "by", "at"});
  REQUIRE(gone);
  REQUIRE(store->put(conclusion_row{0, "FV-2", "kept", "by", "at"}));
  const conclusion_row signed_one{0, "FV-1", "Marchbank too", "by", "at", "", "test-1"};
  const auto again = store->put_issued(
      signed_one, {{}, {{0, "FV-1", "test-1", 1, "of Marchbank", "lines", "RW"}}}, {});
  REQUIRE(again);
  auto laboratory = laboratory_store::open(file.path());
  REQUIRE(laboratory->put(
      std::vector<handed_row>{{"FV-OLD", "test-1", "report", "Marchbank's", "b", "a"},
                              {"FV-2", "test-2", "report", "of", "b", "a"}}));
  REQUIRE(laboratory->put(
      std::vector<requested_row>{{"FV-1", "Odile Marchbank", "", "", "", "f", "b", ""},
                                 {"FV-2", "another", "", "", "", "f", "b", ""}}));

  const forgotten_row counts{"lactulose-10g", 1, 9, 8, 7, 0, 1, 1};
  REQUIRE(store->forget({"test-1",
                         "FV-1",
                         {{"bench_conclusion", *gone}, {"bench_conclusion", *again}},
                         "chance",
                         "at",
                         true},
                        {counts}));
  CHECK(laboratory->handed("report")->size() == 1);
  CHECK(laboratory->requests("")->size() == 1);
  CHECK(store->signatures_of("test-1", 1)->empty());
  CHECK(file.bytes().find("Marchbank") == std::string::npos);
  CHECK(logs->list()->size() == 1);
  CHECK(logs->list_codes()->empty());
  CHECK(store->find("")->conclusions.size() == 1);
  CHECK(file.bytes().find("test-1") == std::string::npos);
  CHECK((logs->was_forgotten("test-1").value() && !logs->was_forgotten("test-2").value()));
  log.test_id = "test-1";
  CHECK(logs->put(log, always).error().found == "a test that was forgotten");
  CHECK(logs->put_code(log, always).error().found == "a test that was forgotten");
  REQUIRE(store->forget({"test-3", "FV-3", {}, "other chance", "at"}, {counts}));
  CHECK(logs->was_forgotten("test-1").value()); // the store keeps its first key
  const auto left = store->forgotten();
  REQUIRE(left->size() == 1);
  CHECK(left->front().tests == 2);
  CHECK(left->front().due == 18);
  CHECK(left->front().missed == 2);
}

TEST_CASE("a file of another kind is refused, and one that is not there is missing") {
  const store_file file;
  std::ofstream(file.path(), std::ios::binary) << "something else, and more of it than a header";
  CHECK_FALSE(receiving_store::open(file.path()));
  CHECK(receiving_store::open(file.path() + "-absent").error().kind == refusal_kind::missing);
}

} // namespace qb
