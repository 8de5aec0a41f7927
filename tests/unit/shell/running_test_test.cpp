// A running test whose disk refuses what was typed, or a fact: both are told as refused, and after
// opening again both are written and nothing is lost.
#include "app/patient/shell/running_test.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using drafts = std::map<std::string, std::string>;

namespace {

std::unique_ptr<running_test> begun(const std::string& path, const clock_reading& at) {
  auto t = running_test::open(path, test::at_once());
  REQUIRE(t.has_value());
  const opened agreed{"test-0001", "quarterbreath 0.1.0", false, test::fenwick_text()};
  REQUIRE((*t)->session().submit(command{agreed}, at).has_value());
  REQUIRE((*t)->save_drafts({{"who.name", "Maren"}}).has_value());
  return std::move(*t);
}

std::unique_ptr<running_test> opened_again(std::unique_ptr<running_test> t) {
  const std::string path = t->path();
  t.reset(); // the lock must be let go first
  auto again = running_test::open(path, test::at_once());
  REQUIRE(again.has_value());
  return std::move(*again);
}

} // namespace

TEST_CASE("a draft that the disk refused stops the journal, and opening again brings both back") {
  const test::own_folder folder;
  const test::clock_double clock(test::utc("2027-03-08T09:00:00Z"));
  lossy_disk disk(0);
  auto t = begun(folder.file("a.journal"), clock.look());
  disk.fills_up();
  REQUIRE_FALSE(t->save_drafts({{"who.name", "Maren Oakhollow"}}).has_value());
  disk.space_returns();
  // Room alone is not enough: what the file holds was not read again.
  const auto no = t->session().submit(command{resumed{}}, clock.look());
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().kind == refusal_kind::machine); // the shell keeps it for later, by this
  CHECK(t->session().failure().has_value());
  CHECK(t->session().events().size() == 1);
  t = opened_again(std::move(t));
  CHECK(t->drafts() == drafts{{"who.name", "Maren"}});
  CHECK(t->save_drafts({{"who.name", "Maren Oakhollow"}}).has_value());
  CHECK(t->session().submit(command{resumed{}}, clock.look()).has_value());
  t = opened_again(std::move(t));
  CHECK(t->drafts() == drafts{{"who.name", "Maren Oakhollow"}});
  CHECK(t->session().events().size() == 2);
}

TEST_CASE("after a fact that the disk refused no draft is written either") {
  const test::own_folder folder;
  const test::clock_double clock(test::utc("2027-03-08T09:00:00Z"));
  lossy_disk disk(0);
  auto t = begun(folder.file("a.journal"), clock.look());
  disk.fills_up();
  REQUIRE_FALSE(t->session().submit(command{resumed{}}, clock.look()).has_value());
  disk.space_returns();
  CHECK_FALSE(t->save_drafts({{"who.name", "Maren Oakhollow"}}).has_value());
  t = opened_again(std::move(t));
  CHECK(t->drafts() == drafts{{"who.name", "Maren"}});
}

TEST_CASE("a draft that was dropped does not come back after a kill") {
  const test::own_folder folder;
  const test::clock_double clock(test::utc("2027-03-08T09:00:00Z"));
  auto t = begun(folder.file("a.journal"), clock.look());
  REQUIRE(t->save_drafts({{"who.name", "Maren"}, {"slip.rule", "fast"}}).has_value());
  REQUIRE(t->save_drafts({{"who.name", "Maren"}}).has_value());
  t = opened_again(std::move(t));
  CHECK(t->drafts() == drafts{{"who.name", "Maren"}});
  REQUIRE(t->save_drafts({{"slip.rule", "fast"}}).has_value()); // of an earlier run, too
  t = opened_again(std::move(t));
  CHECK(t->drafts() == drafts{{"slip.rule", "fast"}});
}
