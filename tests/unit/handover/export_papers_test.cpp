// Labels and the empty sheet as files: what stands in them, whose they are, what is never replaced.
#include "app/handover/export_papers.hpp"

#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/handover/whose_file.hpp"
#include "app/machine/files.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::handover;
using namespace qb::test;

namespace {

state planned(const std::string& id, const std::string& start, bool rehearsal = false) {
  patient p;
  QB_BELIEVE(p.tell(opened{id, "quarterbreath 0.1.0", rehearsal, fenwick_text()}));
  QB_BELIEVE(p.tell(invented_person()));
  QB_BELIEVE(p.tell(plan_of(utc(start))));
  return p.e.current();
}

result<exported_files> papers(const std::string& folder, const state& s) {
  const auto sheet = load_label_sheet(repository() + "/assets", usual_labels);
  const zone london = zone_named("Europe/London");
  return export_papers(test::this_disk(), folder, s, sheet.value().value, london,
                       utc("2027-04-05T12:00:00Z"));
}

constexpr const char* start = "2027-04-06T06:30:00Z";

} // namespace

TEST_CASE("labels and the empty sheet are written under the kit's number, and again in place") {
  const own_folder folder;
  const auto first = papers(folder.path(), planned("one", start));
  REQUIRE(first.has_value());
  CHECK(first->paths ==
        std::vector<std::string>{folder.file("quarterbreath-FV-2071.labels.pdf"),
                                 folder.file("quarterbreath-FV-2071.empty-sheet.pdf")});
  CHECK_FALSE(first->renamed);
  CHECK_FALSE(first->shortened);
  for (const std::string& path : first->paths)
    CHECK(read_file(path).value().substr(0, 5) == "%PDF-");
  const auto moved = papers(folder.path(), planned("one", "2027-04-13T06:30:00Z"));
  REQUIRE(moved.has_value());
  CHECK(moved->paths == first->paths);
  CHECK(files_of_test(test::this_disk(), folder.path(), "one").size() == 2);
  CHECK(files_of_test(test::this_disk(), folder.path(), "two").empty());
}

TEST_CASE("another's papers of the same kit number, or any other file, stay as they are") {
  const own_folder folder;
  const auto theirs = papers(folder.path(), planned("two", start));
  REQUIRE(theirs.has_value());
  const std::string before = read_file(theirs->paths[1]).value();
  REQUIRE(write_file(folder.file("quarterbreath-FV-2071-2.labels.pdf"), "a letter").has_value());
  const auto ours = papers(folder.path(), planned("one", start));
  REQUIRE(ours.has_value());
  CHECK(ours->renamed);
  CHECK(ours->paths[0] == folder.file("quarterbreath-FV-2071-3.labels.pdf"));
  CHECK(read_file(theirs->paths[1]).value() == before);
  CHECK(read_file(folder.file("quarterbreath-FV-2071-2.labels.pdf")).value() == "a letter");
}

TEST_CASE("practice is named as practice, and without a plan there is no paper") {
  const own_folder folder;
  const auto practice = papers(folder.path(), planned("one", start, true));
  REQUIRE(practice.has_value());
  CHECK(practice->paths[0] == folder.file("practice-quarterbreath-FV-2071.labels.pdf"));
  CHECK_FALSE(papers(folder.path(), state{}).has_value());
}

TEST_CASE("a doctor's name too long for a label is told") {
  const own_folder folder;
  state s = planned("one", start);
  s.person->doctor = "Dr " + std::string(70, 'W');
  const auto written = papers(folder.path(), s);
  REQUIRE(written.has_value());
  CHECK(written->shortened);
}
