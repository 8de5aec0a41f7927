// A damaged record in the whole program without its window: there is a screen every time, the next
// due time is right whenever the plan can be read, and nothing leads on towards the sugar by it.
#include "app/handover/erase_test.hpp"
#include "app/machine/files.hpp"
#include "app/patient/shell/opening.hpp"
#include "app/store/journal_key.hpp"
#include "app/store/running_index.hpp"
#include "app/store/statement.hpp"
#include "core/record/codec.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/unit/shell/shell_stage.hpp"

#include <cstdlib>
#include <filesystem>
#include <random>
#include <set>
#include <sqlite3.h>
#include <sys/stat.h>

using namespace qb;
using namespace qb::test;

namespace {

constexpr const char* tubes_waited_for = "Tube 5";

// A test with four tubes closed, waiting for the fifth; or one that is about to be drunk.
patient in_the_test() {
  patient p;
  p.through_the_drink();
  for (int n = 2; n <= 4; ++n)
    p.sample(n);
  p.clock.pass(std::chrono::minutes{2});
  return p;
}

patient before_the_drink() {
  patient p;
  p.through_tube_1();
  p.label(1);
  return p;
}

std::string beginning_of_row(const std::string& journal, std::int64_t seq) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(journal.c_str(), &db) == SQLITE_OK);
  std::string out;
  {
    statement ask(db, "SELECT sealed FROM event WHERE seq=?1");
    ask.bind(1, seq);
    REQUIRE(ask.step() == SQLITE_ROW);
    out = ask.bytes(0).substr(0, 60);
  }
  sqlite3_close(db);
  return out;
}

class damaged_device : public shell_stage {
public:
  explicit damaged_device(const patient& p) : shell_stage("2027-04-06T06:00:00Z") {
    keep(p, "one");
    clock_ = p.clock;
    due = due_on_wall(p.current(), sample_number(5), p.clock.look());
    // Once as it runs, so that what is written beside the journal is there.
    REQUIRE_FALSE(start());
    pass(std::chrono::seconds{1});
    kill();
    for (const auto& file : std::filesystem::directory_iterator(tests()))
      kept_[file.path().filename().string()] = read_file(file.path().string()).value();
    m.clock = clock_;
  }
  [[nodiscard]] std::string tests() const { return tests_folder(options.data, false); }
  [[nodiscard]] std::string path(const std::string& name) const { return tests() + "/" + name; }
  [[nodiscard]] const std::string& journal_bytes() const { return kept_.at("one.journal"); }

  // The device as it was, with that journal.
  void put(const std::string& journal) {
    kill();
    for (const auto& file : std::filesystem::directory_iterator(tests()))
      std::filesystem::remove_all(file.path());
    for (const auto& [name, bytes] : kept_)
      REQUIRE(write_file(path(name), name == "one.journal" ? journal : bytes));
    m.clock = clock_;
  }
  void forget_key_rows() { std::filesystem::remove(path("one.plan")); }
  // As it was, with every row of those kinds damaged.
  void lose(const std::set<std::string>& kinds) {
    put(journal_bytes());
    put(without(kinds));
  }
  // The journal as it is now, with three bytes wrong in every row of those kinds.
  [[nodiscard]] std::string without(const std::set<std::string>& kinds) {
    kill();
    std::string bytes = read_file(path("one.journal")).value();
    int damaged = 0;
    for (const event& e : journal_of("one")) {
      if (kinds.count(*encode_event(e).find("kind")->text()) == 0) continue;
      const std::size_t at = bytes.find(beginning_of_row(path("one.journal"), e.seq));
      REQUIRE(at != std::string::npos);
      constexpr std::size_t first_word = 40; // behind mark, numbers and nonce
      for (std::size_t i = 0; i < 3; ++i)
        bytes[at + first_word + i] = static_cast<char>(~bytes[at + first_word + i]);
      ++damaged;
    }
    REQUIRE(damaged > 0);
    return bytes;
  }
  // A copy of the key as it is now, with other bytes.
  void put_key(int copy, const std::string& bytes) {
    REQUIRE(write_file(path("one.key-" + std::to_string(copy)), bytes));
  }
  [[nodiscard]] std::string key_text() const { return kept_.at("one.key-1"); }
  [[nodiscard]] state kept_state() {
    kill();
    return fold_events(journal_of("one"));
  }

  instant due;

private:
  std::map<std::string, std::string> kept_;
  clock_double clock_{instant{}};
};

std::string flipped(std::string bytes, std::size_t at, unsigned by) {
  bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ by);
  return bytes;
}

bool is_deep() {
  const char* tier = std::getenv("QB_DEEP");
  return tier != nullptr && std::string(tier) == "1";
}

// The version of that journal set to another, as a newer program would write it.
void set_version(const std::string& path, const std::string& version) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  const std::string sql = "UPDATE meta SET value='" + version + "' WHERE key='version'";
  REQUIRE(sqlite3_exec(db, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(db);
}

// Whether any leaf of the page shown says that.
bool shows(shell_stage& s, const std::string& text) {
  while (s.h.find("page-back") != nullptr)
    REQUIRE(s.press("page-back"));
  while (!s.says(text) && s.h.find("page-more") != nullptr)
    REQUIRE(s.press("page-more"));
  return s.says(text);
}

} // namespace

TEST_CASE("with any one byte of the journal wrong there is a screen, and the next tube is due when "
          "it was") {
  damaged_device d(in_the_test());
  std::mt19937 any(20270406);
  constexpr int tried = 1000;
  int on_paper = 0;
  int salvaged = 0;
  for (int i = 0; i < tried; ++i) {
    const std::size_t at = any() % d.journal_bytes().size();
    const unsigned by = 1 + static_cast<unsigned>(any() % 255);
    INFO("byte " << at << " by " << by);
    d.put(flipped(d.journal_bytes(), at, by));
    REQUIRE_FALSE(d.start());
    REQUIRE_FALSE(d.screen().empty());
    if (d.screen() == "on-paper") {
      ++on_paper;
      CHECK(d.says(tubes_waited_for));
      CHECK(d.says(clock_text(zone_named("Europe/London").civil_at(d.due))));
      continue;
    }
    salvaged += d.screen() == "salvaged" ? 1 : 0;
    const clock_reading now = d.m.clock.look();
    const state s = d.kept_state();
    const now_answer a = what_now(s, now);
    REQUIRE(a.sample == sample_number(5));
    CHECK(due_on_wall(s, sample_number(5), now) == d.due);
    CHECK(s.lost.empty()); // one byte costs no entry: its hash puts it right, or the copy has it
  }
  INFO(salvaged << " salvaged, " << on_paper << " on paper");
  CHECK(salvaged > tried / 4);
  CHECK(on_paper < tried / 50);
}

TEST_CASE("wherever a byte of the journal is wrong, opening it gives the next due time: every byte "
          "in the deep tier, every hundredth in the ordinary") {
  damaged_device d(in_the_test());
  const clock_reading now = d.m.clock.look();
  const std::size_t step = is_deep() ? 1 : 101;
  for (std::size_t at = 0; at < d.journal_bytes().size(); at += step) {
    const unsigned by = 1 + static_cast<unsigned>(at * 7919 % 255);
    INFO("byte " << at << " by " << by);
    d.put(flipped(d.journal_bytes(), at, by));
    const auto opened = open_whatever(d.path("one.journal"), {}, at_once());
    REQUIRE(opened);
    const state& s = opened->running ? opened->running->session().current() : opened->shown;
    REQUIRE(what_now(s, now).sample == sample_number(5));
    REQUIRE(due_on_wall(s, sample_number(5), now) == d.due);
  }
}

TEST_CASE("pages of the journal gone: after the drink the test goes on with what is left") {
  damaged_device d(in_the_test());
  constexpr std::size_t page = 4096;
  for (std::size_t at = 0; at + page <= d.journal_bytes().size(); at += page) {
    std::string journal = d.journal_bytes();
    journal.replace(at, page, std::string(page, '\0'));
    d.put(journal);
    INFO("page at " << at);
    REQUIRE_FALSE(d.start());
    CHECK(d.screen() == "salvaged");
    const state s = d.kept_state();
    CHECK(s.drink_start);
    CHECK_FALSE(s.unwell);
    CHECK(due_on_wall(s, sample_number(5), d.m.clock.look()) == d.due);
  }
}

TEST_CASE("the damaged file stays beside the new one, unchanged, and the laboratory is told") {
  damaged_device d(in_the_test());
  d.lose({"label-written"});
  const std::string damaged = read_file(d.path("one.journal")).value();
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "salvaged");
  CHECK(shows(d, "one.damaged-1"));
  CHECK(shows(d, "Your test goes on"));
  CHECK(shows(d, tubes_waited_for));
  CHECK(read_file(d.path("one.damaged-1")).value() == damaged);
  REQUIRE(d.press("go-on"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "label"); // what is lost is asked where it is asked anyway
  const state s = d.kept_state();
  REQUIRE(s.salvaged.size() == 1);
  CHECK(s.salvaged[0].what.lost == 4);
  // Damaged once more, the first one is not overwritten.
  REQUIRE(write_file(d.path("one.journal"), d.without({"symptoms"})));
  REQUIRE_FALSE(d.start());
  CHECK(read_file(d.path("one.damaged-1")).value() == damaged);
  CHECK(shows(d, "one.damaged-2"));
}

TEST_CASE("before the drink the sugar stays closed, and everything is asked once more") {
  damaged_device d(before_the_drink());
  d.lose({"checklist", "caution"});
  REQUIRE_FALSE(d.start());
  REQUIRE(d.screen() == "salvaged");
  CHECK(d.says("Keep the test sugar closed"));
  CHECK(d.h.find("drank-first") != nullptr);
  REQUIRE(d.press("go-on"));
  d.pass(std::chrono::seconds{1});
  REQUIRE(d.screen() == "who-kit-code"); // a code that forbids may be lost
  REQUIRE(d.press("no-code"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "who-check");
  const state s = d.kept_state();
  const clock_reading now = d.m.clock.look();
  CHECK_FALSE(decide(s, command{drink_started{}}, now));
  CHECK_FALSE(decide(s, command{sugar_set_aside{}}, now));
}

TEST_CASE("where nothing but the plan is known nobody drinks: the times, and whom to call") {
  damaged_device d(before_the_drink());
  d.put(std::string(d.journal_bytes().size(), '\x5A'));
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "on-paper");
  CHECK(d.says("Do not drink it"));
  CHECK(shows(d, fenwick().telephone));
  CHECK(shows(d, "Tube 10"));
  CHECK(read_file(d.path("one.journal")).value() == std::string(d.journal_bytes().size(), '\x5A'));
}

TEST_CASE("where nothing at all is known there is a page, whom to call, and a new test") {
  damaged_device d(in_the_test());
  d.put("");
  d.forget_key_rows();
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "on-paper");
  CHECK(d.says("Do not drink it"));
  CHECK(shows(d, d.options.profile.empty() ? "" : fenwick().telephone));
  REQUIRE(d.press("begin-anew"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "agree");
}

TEST_CASE("feeling unwell is heard on that page too, and there is a way back to it") {
  damaged_device d(in_the_test());
  d.put("");
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "salvaged"); // drunk, and the rows kept twice have the times: it goes on
  d.put("");
  d.forget_key_rows();
  REQUIRE_FALSE(d.start());
  REQUIRE(d.screen() == "on-paper");
  REQUIRE(d.press("unwell"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "unwell");
  REQUIRE(d.press("unwell-over"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "on-paper");
}

TEST_CASE("a damaged copy of the key stops nothing and is mended") {
  damaged_device d(in_the_test());
  for (const int copy : {1, 2}) {
    for (std::size_t at = 0; at < d.key_text().size(); at += 7) {
      INFO("copy " << copy << ", byte " << at);
      d.put(d.journal_bytes());
      d.put_key(copy, flipped(d.key_text(), at, 0x40));
      REQUIRE_FALSE(d.start());
      CHECK(d.screen() == "return");
      CHECK(read_file(d.path("one.key-" + std::to_string(copy))).value() == d.key_text());
    }
  }
}

TEST_CASE("with both copies of the key lost the planned times are told, and nobody drinks by it") {
  damaged_device d(before_the_drink());
  d.put(d.journal_bytes());
  d.put_key(1, "");
  d.put_key(2, flipped(d.key_text(), 40, 1));
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "on-paper");
  CHECK(d.says("Do not drink it"));
  CHECK(shows(d, fenwick().telephone));
  CHECK(shows(d, "Tube 10"));
  CHECK(read_file(d.path("one.journal")).value() == d.journal_bytes());
  d.put_key(2, d.key_text()); // as somebody puts it back from elsewhere
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "return");
}

TEST_CASE(
    "with both copies of the key lost after the drink the test goes on, the journal set aside") {
  damaged_device d(in_the_test());
  d.put(d.journal_bytes());
  d.put_key(1, "");
  d.put_key(2, "");
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "salvaged");
  CHECK(read_file(d.path("one.damaged-1")).value() == d.journal_bytes());
  const state s = d.kept_state();
  CHECK(s.drink_start);
  CHECK(due_on_wall(s, sample_number(5), d.m.clock.look()) == d.due);
}

TEST_CASE("a damaged key goes with its journal, and mended by hand it opens all of it") {
  damaged_device d(in_the_test());
  d.put(d.journal_bytes());
  const std::string damaged = flipped(d.key_text(), 40, 1);
  d.put_key(1, damaged);
  d.put_key(2, "");
  REQUIRE_FALSE(d.start());
  REQUIRE(d.screen() == "salvaged");
  CHECK(read_file(d.path("one.damaged-1.key-1")).value() == damaged);
  CHECK(read_file(d.path("one.damaged-1.key-2")).value().empty());
  const std::string fresh = read_file(d.path("one.key-1")).value();
  CHECK(fresh == read_file(d.path("one.key-2")).value());
  CHECK(fresh != d.key_text());
  const std::size_t known = d.kept_state().samples.size();
  std::filesystem::copy_file(d.path("one.damaged-1"), d.path("two.journal"));
  REQUIRE(write_file(d.path("two.key-1"), d.key_text()));
  const state s = fold_events(d.journal_of("two"));
  CHECK(s.samples.size() == known);
  CHECK(s.salvaged.empty());
  CHECK(s.samples[3].taken);
}

TEST_CASE("a key set aside by an earlier salvage is not written over") {
  damaged_device d(in_the_test());
  d.put(d.journal_bytes());
  REQUIRE(write_file(d.path("one.damaged-1.key-2"), "of an earlier one"));
  d.put_key(1, "");
  d.put_key(2, "");
  REQUIRE_FALSE(d.start());
  REQUIRE(d.screen() == "salvaged");
  CHECK(read_file(d.path("one.damaged-1.key-2")).value() == "of an earlier one");
  CHECK(read_file(d.path("one.damaged-2")).value() == d.journal_bytes());
}

TEST_CASE("a key that cannot be read now: the times stand on the page, and nothing is replaced") {
  damaged_device d(in_the_test());
  d.put(d.journal_bytes());
  for (const char* copy : {"one.key-1", "one.key-2"}) {
    std::filesystem::remove(d.path(copy));
    REQUIRE(make_folder(d.path(copy)));
  }
  REQUIRE_FALSE(d.start());
  REQUIRE(d.screen() == "on-paper");
  CHECK(d.says("cannot be read"));
  CHECK(d.says(tubes_waited_for));
  CHECK(d.says(clock_text(zone_named("Europe/London").civil_at(d.due))));
  CHECK(read_file(d.path("one.journal")).value() == d.journal_bytes());
  CHECK_FALSE(std::filesystem::exists(d.path("one.damaged-1")));
  std::filesystem::remove(d.path("one.key-1"));
  d.put_key(1, d.key_text());
  REQUIRE(d.press("try-again"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "return");
  CHECK(std::filesystem::is_directory(d.path("one.key-2")));
  d.kill();
  CHECK(d.kept_state().salvaged.empty());
}

TEST_CASE("of what is kept twice no name, date of birth, kit number or answer is there") {
  damaged_device d(in_the_test());
  const std::string twice = read_file(d.path("one.plan")).value();
  const reported_person who = invented_person();
  for (const std::string& told :
       {who.name, who.doctor, who.kit_number, std::string("1957-02-11"),
        std::string("\"kind\":\"caution\""), std::string("\"kind\":\"person\"")})
    CHECK(twice.find(told) == std::string::npos);
  CHECK(twice.find("Europe/London") != std::string::npos);
}

TEST_CASE("a journal of a newer version is shown and not written to") {
  damaged_device d(in_the_test());
  set_version(d.path("one.journal"), "3");
  const std::string before = read_file(d.path("one.journal")).value();
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "on-paper");
  CHECK(d.says("newer version"));
  CHECK(d.says(tubes_waited_for));
  CHECK(d.says(clock_text(zone_named("Europe/London").civil_at(d.due))));
  CHECK_FALSE(d.says("Do not drink"));
  d.pass(std::chrono::minutes{20});
  d.kill();
  CHECK(read_file(d.path("one.journal")).value() == before);
}

TEST_CASE("a damaged journal on a disk that takes no new one: the times stand on the page") {
  lossy_disk disk(0);
  damaged_device d(in_the_test());
  d.lose({"label-written"});
  disk.fills_up();
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "on-paper");
  CHECK(d.says(tubes_waited_for));
  disk.space_returns();
  REQUIRE(d.press("try-again"));
  d.pass(std::chrono::seconds{1});
  CHECK(d.screen() == "salvaged");
}

TEST_CASE("files of that ending that are no test neither hide the running one nor hang the start") {
  damaged_device d(in_the_test());
  d.put(d.journal_bytes());
  std::filesystem::remove(running_index_path(d.tests()));
  REQUIRE(write_file(d.path("empty.journal"), ""));
  REQUIRE(write_file(d.path("foreign.journal"), "a shopping list"));
  REQUIRE(::mkfifo(d.path("pipe.journal").c_str(), 0600) == 0);
  REQUIRE(make_folder(d.path("folder.journal")));
  REQUIRE_FALSE(d.start());
  CHECK(d.screen() == "return");
  CHECK(d.says(invented_person().kit_number));
}

TEST_CASE("erasing takes what was set aside and what was kept twice along") {
  damaged_device d(in_the_test());
  d.lose({"label-written"});
  REQUIRE_FALSE(d.start());
  d.pass(std::chrono::seconds{1});
  d.kill();
  REQUIRE(std::filesystem::exists(d.path("one.damaged-1")));
  REQUIRE(std::filesystem::exists(d.path("one.plan")));
  REQUIRE(handover::erase_closed_test(d.m.files(), d.options.data, d.path("one.journal")));
  for (const auto& file : std::filesystem::directory_iterator(d.tests()))
    CHECK(file.path().filename() == "running");
}
