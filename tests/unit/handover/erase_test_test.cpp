// Erasing a test: nothing of the person is left on the device, nobody else's test is touched, and
// a kill at any moment leaves the whole test or nothing of it.
#include "app/handover/erase_test.hpp"

#include "app/assets/zone_files.hpp"
#include "app/handover/export_plan.hpp"
#include "app/handover/export_record.hpp"
#include "app/handover/whose_file.hpp"
#include "app/machine/files.hpp"
#include "app/page/finished_pdf.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/journal_key.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <csignal>
#include <sys/wait.h>
#include <unistd.h>

using namespace qb;
using namespace qb::handover;
using namespace qb::test;

namespace {

namespace fs = std::filesystem;

const std::vector<event>& events_of(const std::string& id) {
  static std::map<std::string, std::vector<event>> made;
  std::vector<event>& out = made[id];
  if (!out.empty()) return out;
  patient p;
  QB_BELIEVE(p.tell(opened{id, "quarterbreath 0.1.0", false, fenwick_text()}));
  QB_BELIEVE(p.tell(invented_person()));
  QB_BELIEVE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  out = p.e.events();
  return out;
}

// A device on which tests are kept: journal, drafts and everything in the person's own folder.
class device {
public:
  device() {
    QB_BELIEVE(make_folder(tests_folder(data(), false)).has_value());
    QB_BELIEVE(make_folder(tests_folder(data(), true)).has_value());
  }
  [[nodiscard]] std::string data() const { return folder_.path(); }
  [[nodiscard]] std::string journal(const std::string& id, bool practice = false) const {
    return journal_path(tests_folder(data(), practice), id);
  }

  void keep(const std::string& id, bool practice = false) const {
    auto j = open_journal(journal(id, practice));
    QB_BELIEVE(j.has_value());
    QB_BELIEVE(j->keeper.append(events_of(id)).has_value());
    const reported_person& who = std::get<reported_person>(events_of(id)[1].what);
    QB_BELIEVE(j->keeper.journal().keep_draft("who.name", who.name).has_value());
  }
  void hand_over(const std::string& id) const {
    const zone london = zone_named("Europe/London");
    const export_keys keys = practice_keys();
    QB_BELIEVE(export_record(
                   test::this_disk(), own(), events_of(id),
                   {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys, {}})
                   .has_value());
    const auto plan = prepared_plan_of(fold_events(events_of(id)));
    QB_BELIEVE(export_plan(test::this_disk(), own(), *plan, london, utc("2027-04-05T12:00:00Z"))
                   .has_value());
  }
  [[nodiscard]] std::string own() const { return copies_folder(data()); }

  // The files that hold the text in their name or among their bytes.
  [[nodiscard]] std::vector<std::string> that_hold(const std::string& text) const {
    std::vector<std::string> out;
    for (const auto& entry : fs::recursive_directory_iterator(data())) {
      const std::string path = entry.path().string();
      const bool named = entry.path().filename().string().find(text) != std::string::npos;
      const bool inside =
          entry.is_regular_file() && read_file(path).value().find(text) != std::string::npos;
      if (named || inside) out.push_back(path);
    }
    return out;
  }
  [[nodiscard]] std::size_t files() const {
    std::size_t n = 0;
    for (const auto& entry : fs::recursive_directory_iterator(data()))
      n += entry.is_regular_file() ? 1U : 0U;
    return n;
  }

private:
  test::own_folder folder_;
};

// The machine's disk until it has removed so many files.
class short_lived_disk : public own_disk {
public:
  explicit short_lived_disk(int removals) : left_(removals) {}
  [[nodiscard]] result<void> remove(const std::string& path) override {
    if (left_-- > 0) return own_disk::remove(path);
    return tl::unexpected(refusal{refusal_kind::machine, path, "remove", "no power", "power"});
  }

private:
  int left_;
};

constexpr const char* name = "Maren Oakhollow";
constexpr const char* kit_number = "FV-2071";

// What is kept of that test: all events, or none.
std::size_t kept_events(const std::string& journal) {
  const auto j = open_journal(journal);
  return j ? j->events.size() : 0;
}

} // namespace

TEST_CASE("an erased test leaves no byte of name or kit number on the device") {
  const device d;
  d.keep("one");
  d.hand_over("one");
  REQUIRE_FALSE(d.that_hold(name).empty()); // pages of a PDF are packed
  REQUIRE(d.that_hold(kit_number).size() >= 7);
  REQUIRE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value());
  CHECK(d.that_hold(name).empty());
  CHECK(d.that_hold(kit_number).empty());
  CHECK(d.that_hold("1957").empty());
  CHECK(d.files() == 0);
}

TEST_CASE("the journal's own bytes are overwritten, before its file goes") {
  const device d;
  d.keep("one");
  {
    auto j = journal_file::open(d.journal("one"));
    REQUIRE(j.has_value());
    REQUIRE(j->erase().has_value());
    CHECK_FALSE(j->append({{9, "{}", ""}}).has_value());
    CHECK_FALSE(j->keep_draft("who.name", name).has_value());
  }
  CHECK(d.that_hold(name).empty());
  CHECK(d.that_hold(kit_number).empty());
  CHECK(is_erased_journal(d.journal("one")));
  CHECK_FALSE(open_journal(d.journal("one")).has_value()); // nothing begins anew in it
  CHECK(journals_in(tests_folder(d.data(), false)).empty());
}

TEST_CASE("another test of the same kit number keeps its journal and its copies") {
  const device d;
  d.keep("one");
  d.keep("other");
  d.hand_over("one");
  d.hand_over("other");
  const auto others = files_of_test(test::this_disk(), d.own(), "other");
  REQUIRE(others.size() == 7);
  std::map<std::string, std::string> before;
  for (const std::string& path : others)
    before[path] = read_file(path).value();
  const auto written = fs::last_write_time(d.journal("other"));
  REQUIRE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value());
  CHECK(files_of_test(test::this_disk(), d.own(), "one").empty());
  CHECK(files_of_test(test::this_disk(), d.own(), "other") == others);
  for (const auto& [path, bytes] : before)
    CHECK(read_file(path).value() == bytes);
  CHECK(kept_events(d.journal("other")) == events_of("other").size());
  CHECK(fs::last_write_time(d.journal("other")) == written); // still known as the newest, or not
}

TEST_CASE("somebody's file of a name like ours is not taken for the test's") {
  const device d;
  d.keep("one");
  REQUIRE(make_folder(d.own()).has_value());
  const std::string theirs = d.own() + "/quarterbreath-FV-2071.log.json";
  REQUIRE(write_file(theirs, "somebody's").has_value());
  const std::string letter = d.own() + "/letter.new";
  REQUIRE(write_file(letter, "somebody's").has_value());
  REQUIRE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value());
  CHECK(read_file(theirs).value() == "somebody's");
  CHECK(read_file(letter).value() == "somebody's");
}

TEST_CASE("practice goes with it, and what a kill left of a copy") {
  const device d;
  d.keep("one");
  d.keep("two", true);
  REQUIRE(make_folder(d.own()).has_value());
  const std::string left = d.own() + "/quarterbreath-FV-2071.sheet.pdf.4711.new";
  REQUIRE(write_file(left, name).has_value());
  REQUIRE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value());
  REQUIRE(erase_practice(test::this_disk(), d.data()).has_value());
  CHECK(d.files() == 0);
}

TEST_CASE("a test that is open elsewhere is not erased") {
  const device d;
  d.keep("one");
  const auto open = open_journal(d.journal("one"));
  REQUIRE(open.has_value());
  CHECK_FALSE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value());
  CHECK(open->keeper.journal().read_all().value().size() == events_of("one").size());
}

TEST_CASE("killed at any change to the disk, a test is whole or gone, and then it goes for good") {
  int whole = 0;
  int gone = 0;
  const device whole_device;
  whole_device.keep("one");
  whole_device.hand_over("one");
  for (std::int64_t fatal = 1; fatal < 400; ++fatal) {
    const device d;
    fs::copy(whole_device.data(), d.data(),
             fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    const pid_t child = ::fork();
    if (child == 0) {
      const lossy_disk disk(fatal, lossy_disk::honesty::killing);
      ::_exit(erase_closed_test(test::this_disk(), d.data(), d.journal("one")).has_value() ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    const bool killed = WIFSIGNALED(status);
    REQUIRE((killed || WEXITSTATUS(status) == 0));
    REQUIRE(finish_erasing(test::this_disk(), d.data()).has_value());
    if (!killed || journals_in(tests_folder(d.data(), false)).empty()) {
      ++gone;
      CHECK(d.files() == 0);
    } else {
      ++whole;
      CHECK(kept_events(d.journal("one")) == events_of("one").size());
      CHECK(files_of_test(test::this_disk(), d.own(), "one").size() == 7);
    }
    if (!killed) break;
  }
  UNSCOPED_INFO(whole << " times whole, " << gone << " times gone");
  // Its key went before the first of them: from then on it is gone. Whole or gone at the key's own
  // bytes: tests/unit/store/journal_key_test.cpp.
  CHECK(whole == 0);
  CHECK(gone >= 20);
}

TEST_CASE("a test whose key was destroyed and nothing else yet is finished at the next start") {
  const device d;
  d.keep("one");
  d.keep("other");
  d.hand_over("one");
  REQUIRE(destroy_journal_key(d.journal("one")));
  CHECK(journals_in(tests_folder(d.data(), false)).size() == 1);
  REQUIRE(finish_erasing(test::this_disk(), d.data()));
  CHECK(d.that_hold(name).empty());
  CHECK(d.files() == 4); // the other's journal, its rollback journal and its two copies of a key
  CHECK(kept_events(d.journal("other")) == events_of("other").size());
}

TEST_CASE("a destroyed key whose journal is gone goes too, a live one stays") {
  const device d;
  d.keep("one");
  d.keep("other");
  REQUIRE(destroy_journal_key(d.journal("one")));
  for (const char* one : {"one", "other"})
    REQUIRE(remove_file(d.journal(one)));
  REQUIRE(finish_erasing(test::this_disk(), d.data()));
  for (const std::string& key : journal_key_paths(d.journal("one")))
    CHECK_FALSE(fs::exists(key));
  for (const std::string& key : journal_key_paths(d.journal("other")))
    CHECK(fs::exists(key));
}

TEST_CASE("what holds a part of the key goes before all else that is left") {
  const device d;
  d.keep("one");
  d.hand_over("one");
  const std::string tests = tests_folder(d.data(), false);
  const std::string secret = read_file(journal_key_paths(d.journal("one"))[0]).value();
  for (const char* left : {"/one.damaged-1.key-2", "/one.key-1.77-0.new"})
    REQUIRE(write_file(tests + left, secret));
  REQUIRE(write_file(tests + "/one.damaged-1", "noise"));
  const auto all = d.files();
  REQUIRE(destroy_journal_key(d.journal("one")));
  short_lived_disk two_removals(2);
  CHECK_FALSE(remove_erased(two_removals, d.data(), d.journal("one")));
  CHECK(d.files() == all - 2);
  CHECK(d.that_hold(secret.substr(40, 20)).empty());
  REQUIRE(finish_erasing(test::this_disk(), d.data()));
  CHECK(d.files() == 0);
}

TEST_CASE("a damaged journal goes with its key") {
  const device d;
  d.keep("one");
  REQUIRE(write_file(d.journal("one"), "noise"));
  REQUIRE(erase_closed_test(test::this_disk(), d.data(), d.journal("one")));
  CHECK(d.files() == 0);
}

TEST_CASE("killed between its files, an erased test is finished at the next start") {
  const device d;
  d.keep("one");
  d.hand_over("one");
  {
    auto j = journal_file::open(d.journal("one"));
    REQUIRE(j->erase().has_value());
  }
  // The log went, the sealed sheet beside it did not yet: the sheet says whose both are.
  REQUIRE(remove_file(d.own() + "/quarterbreath-FV-2071.log.json").has_value());
  REQUIRE(finish_erasing(test::this_disk(), d.data()).has_value());
  CHECK(d.files() == 0);
}
