// The keeper on a real disk: what an engine confirms is there after opening again, and a journal
// that somebody changed is refused by the number of its event.
#include "app/store/journal_keeper.hpp"

#include "core/record/codec.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <sqlite3.h>
#include <sys/stat.h>

using namespace qb;
using namespace qb::test;

namespace {

const std::vector<event>& some_events() {
  static const std::vector<event> events = [] {
    patient p;
    p.through_the_drink();
    p.score(1);
    p.sample(2);
    return p.e.events();
  }();
  return events;
}

void fill(const std::string& path) {
  auto j = open_journal(path);
  REQUIRE(j.has_value());
  for (const event& e : some_events())
    REQUIRE(j->keeper.append({e}).has_value());
}

// As `fill` does, by a program from before rows were sealed.
void fill_unsealed(const std::string& path) {
  fill(path + ".sealed");
  const auto j = open_journal(path + ".sealed");
  write_unsealed_journal(path, j->keeper.journal().read_all().value());
}

std::string said_after(const std::string& path, const char* sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  REQUIRE(sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(db);
  const auto j = open_journal(path);
  return j ? "" : sentence(j.error());
}

std::string text_of(const event& e) {
  return json::canonical(encode_event(e));
}

} // namespace

TEST_CASE("a journal belongs to its owner alone") {
  const own_folder folder;
  fill(folder.file("a.journal"));
  for (const char* name : {"a.journal", "a.journal-journal"}) {
    struct stat info {};
    REQUIRE(::stat(folder.file(name).c_str(), &info) == 0);
    CHECK((info.st_mode & 0777U) == 0600U);
  }
}

TEST_CASE("what an engine confirmed is the same after opening again") {
  const own_folder folder;
  const std::string path = folder.file("a.journal");
  fill(path);
  const auto j = open_journal(path);
  REQUIRE(j.has_value());
  REQUIRE(j->events.size() == some_events().size());
  for (std::size_t i = 0; i < j->events.size(); ++i)
    CHECK(text_of(j->events[i]) == text_of(some_events()[i]));
  CHECK(j->keeper.durable() == static_cast<std::int64_t>(some_events().size()));
  CHECK_FALSE(j->keeper.failure().has_value());
}

TEST_CASE("an engine goes on where the last one was, on the same chain") {
  const own_folder folder;
  const std::string path = folder.file("a.journal");
  clock_double clock(utc("2027-03-08T10:00:00Z"));
  for (int n = 1; n <= 3; ++n) {
    auto j = open_journal(path);
    REQUIRE(j.has_value());
    engine e(j->keeper, std::move(j->events));
    CHECK(e.current().seq == n - 1);
    const payload wanted = n == 1 ? payload(opened{"x", "y", false, fenwick_text()})
                                  : payload(reported_comment{"opened again"});
    REQUIRE(e.submit(command{wanted}, clock.look()).has_value());
    CHECK(e.current().seq == n);
  }
  CHECK(open_journal(path)->events.size() == 3);
}

TEST_CASE("a row that could not be read back is refused before it is written") {
  // Whatever let it through, it must not lock the person out of the whole test.
  const own_folder folder;
  const std::string path = folder.file("a.journal");
  auto j = open_journal(path);
  REQUIRE(j.has_value());
  clock_double clock(utc("2027-03-08T10:00:00Z"));
  const auto no = j->keeper.append({event{1, clock.look(), reported_comment{"two\nlines"}}});
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found == "a control character");
  CHECK_FALSE(j->keeper.failure().has_value());
  CHECK(j->keeper.durable() == 0);
  CHECK(j->keeper.append({event{1, clock.look(), reported_comment{"one line"}}}).has_value());
}

TEST_CASE("an edited, missing or added event is refused by its number") {
  const own_folder folder;
  const auto fresh = [&](const char* name) {
    fill_unsealed(folder.file(name));
    return folder.file(name);
  };
  const std::string edited =
      said_after(fresh("a"), "UPDATE event SET body=replace(body,'true','false') WHERE seq=7");
  CHECK(edited.find("event 7: found a hash that does not fit") != std::string::npos);
  CHECK(said_after(fresh("b"), "DELETE FROM event WHERE seq=5").find("event 6: found a hash") !=
        std::string::npos);
  CHECK(said_after(fresh("c"), "UPDATE event SET body='hello' WHERE seq=2") != "");
  CHECK(said_after(fresh("d"), "UPDATE event SET hash='00' WHERE seq=3").find("event 3") !=
        std::string::npos);
  // A row cut off at the end leaves a whole shorter record: only the exported log's head can tell.
  CHECK(said_after(fresh("e"), "DELETE FROM event WHERE seq=(SELECT max(seq) FROM event)") == "");
}

TEST_CASE("no name from a damaged journal is in the message") {
  const own_folder folder;
  const std::string path = folder.file("a.journal");
  fill_unsealed(path);
  const std::string said = said_after(
      path, "UPDATE event SET body=replace(body,'1957-02-11','Maren Oakhollow') WHERE seq=2");
  CHECK(said.find("event 2.data.birth_date") != std::string::npos);
  CHECK(said.find("Oakhollow") == std::string::npos);
}
