// Reminders as files: whose they are, what is replaced and what never is.
#include "app/handover/export_plan.hpp"

#include "app/machine/files.hpp"
#include "core/sheet/calendar.hpp"
#include "tests/unit/handover/own_folder.hpp"
#include "tests/unit/sheet/made_plan.hpp"

using namespace qb;
using namespace qb::handover;
using test::made_plan;

namespace {

result<exported_files> export_to(const std::string& folder, const made_plan& m) {
  return export_plan(test::this_disk(), folder, m.get(), m.z, m.at.wall);
}

} // namespace

TEST_CASE("calendar and page are written under the kit's number, and a move replaces them") {
  const test::own_folder folder;
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const auto first = export_to(folder.path(), m);
  REQUIRE(first.has_value());
  REQUIRE(first->paths.size() == 2);
  CHECK(first->paths[0] == folder.file("quarterbreath-FV-2071.reminders.ics"));
  CHECK(first->paths[1] == folder.file("quarterbreath-FV-2071.preparation.pdf"));
  CHECK(is_calendar_of(*read_file(first->paths[0]), m.get().test_id));
  CHECK(read_file(first->paths[1])->substr(0, 5) == "%PDF-");
  m.plan_for("2027-04-13 07:30");
  const auto moved = export_to(folder.path(), m);
  REQUIRE(moved.has_value());
  CHECK(moved->paths == first->paths);
  CHECK(read_file(moved->paths[0])->find("SEQUENCE:1\r\n") != std::string::npos);
}

TEST_CASE("another test's reminders, or any other file of that name, are left as they are") {
  const test::own_folder folder;
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const std::string taken = folder.file("quarterbreath-FV-2071.reminders.ics");
  REQUIRE(write_file(taken, "somebody's").has_value());
  const auto written = export_to(folder.path(), m);
  REQUIRE(written.has_value());
  CHECK(written->paths[0] == folder.file("quarterbreath-FV-2071-2.reminders.ics"));
  CHECK(*read_file(taken) == "somebody's");
}

TEST_CASE("a page that does not say whose it is, is left as it is") {
  const test::own_folder folder;
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const std::string taken = folder.file("quarterbreath-FV-2071.preparation.pdf");
  REQUIRE(write_file(taken, "somebody's").has_value());
  const auto written = export_to(folder.path(), m);
  REQUIRE(written.has_value());
  CHECK(written->renamed);
  CHECK(written->paths[1] == folder.file("quarterbreath-FV-2071-2.preparation.pdf"));
  CHECK(*read_file(taken) == "somebody's");
}

TEST_CASE("of a plan that was called off only the calendar is written, to take it back") {
  const test::own_folder folder;
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  m.tell(plan_called_off{""});
  const auto written = export_to(folder.path(), m);
  REQUIRE(written.has_value());
  REQUIRE(written->paths.size() == 1);
  CHECK(read_file(written->paths[0])->find("STATUS:CANCELLED\r\n") != std::string::npos);
}

TEST_CASE("paths that were named are refused, both or none, where another file is") {
  const test::own_folder folder;
  made_plan m;
  m.plan_for("2027-04-06 07:30");
  const plan_paths paths{folder.file("a.ics"), folder.file("a.pdf")};
  REQUIRE(write_plan(test::this_disk(), paths, m.get(), m.z, m.at.wall).has_value());
  CHECK(write_plan(test::this_disk(), paths, m.get(), m.z, m.at.wall)
            .has_value()); // the same bytes again
  const std::string before = *read_file(paths.calendar);
  m.plan_for("2027-04-13 07:30");
  const auto no = write_plan(test::this_disk(), paths, m.get(), m.z, m.at.wall);
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found == "a file that is already there");
  CHECK(*read_file(paths.calendar) == before);
  const plan_paths half{folder.file("b.ics"), paths.page};
  CHECK_FALSE(write_plan(test::this_disk(), half, m.get(), m.z, m.at.wall).has_value());
  CHECK_FALSE(read_file(half.calendar).has_value());
}

TEST_CASE("practice is written as practice") {
  const test::own_folder folder;
  made_plan m("lactulose-10g", true);
  m.plan_for("2027-04-06 07:30");
  const auto written = export_to(folder.path(), m);
  REQUIRE(written.has_value());
  CHECK(written->paths[0] == folder.file("practice-quarterbreath-FV-2071.reminders.ics"));
}
