// Handing over a record: its files, their names, and that nobody else's file is replaced.
// A test cannot be blown twice, so an export must never be the way it gets lost.
#include "app/handover/export_record.hpp"

#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "core/findings/findings.hpp"
#include "core/record/log.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"
#include "tests/unit/shell/made_machine.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <sys/stat.h>

using namespace qb;
using namespace qb::handover;
using namespace qb::test;

namespace {

std::vector<event> a_test(const std::string& id, bool rehearsal = false) {
  patient p;
  QB_BELIEVE(p.tell(opened{id, "quarterbreath 0.1.0", rehearsal, fenwick_text()}));
  QB_BELIEVE(p.tell(invented_person()));
  QB_BELIEVE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  return p.e.events();
}

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

result<exported_files> handed_to(const std::string& folder, const std::vector<event>& events,
                                 export_set wanted = export_set::everything,
                                 const export_keys& keys = practice_keys()) {
  const zone london = zone_named("Europe/London");
  return export_record(
      test::this_disk(), folder, events,
      {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys, wanted});
}

std::vector<std::string> exported_to(const own_folder& folder, const std::vector<event>& events,
                                     export_set wanted = export_set::everything) {
  const auto files = handed_to(folder.file("out"), events, wanted);
  if (!files) FAIL(sentence(files.error()));
  return files->paths;
}

std::vector<std::string> names(const std::vector<std::string>& paths) {
  std::vector<std::string> out;
  for (const std::string& path : paths)
    out.push_back(path.substr(path.rfind('/') + 1));
  return out;
}

// Paper that cannot be drawn, for whatever reason.
result<std::string> no_paper(const sheet_text& /*sheet*/, const std::vector<label_text>& /*labels*/,
                             const std::string& /*made_at*/,
                             const std::vector<std::string>& /*codes*/) {
  return tl::unexpected(refusal{refusal_kind::machine, "", "drawing the PDF", "nothing", "a page"});
}

result<exported_files> handed_without_paper(const std::string& folder,
                                            const std::vector<event>& events, export_set wanted) {
  const zone london = zone_named("Europe/London");
  const export_keys keys = practice_keys();
  return export_record(test::this_disk(), folder, events,
                       {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys,
                        wanted, no_paper});
}

std::vector<std::string> left_out_of(const exported_files& files) {
  std::vector<std::string> paths;
  for (const left_out_file& file : files.left_out)
    paths.push_back(file.path);
  return names(paths);
}

} // namespace

TEST_CASE(
    "paper that cannot be drawn takes nothing along: log, signature, table and code are there") {
  const own_folder folder;
  patient p;
  p.through_the_tubes();
  const auto files = handed_without_paper(folder.file("out"), p.e.events(), export_set::everything);
  REQUIRE(files.has_value());
  CHECK(names(files->paths) == std::vector<std::string>{"quarterbreath-FV-2071.log.json",
                                                        "quarterbreath-FV-2071.log.json.minisig",
                                                        "quarterbreath-FV-2071.samples.csv",
                                                        "quarterbreath-FV-2071.code.txt",
                                                        "quarterbreath-FV-2071.log.json.age"});
  CHECK(left_out_of(*files) == std::vector<std::string>{"quarterbreath-FV-2071.sheet.pdf"});
  CHECK(read_log(bytes_of(files->paths[0])).value().mismatches.empty());
  CHECK(bytes_of(files->paths[3]) ==
        code::codes_of(p.e.events(), code_signer(practice_keys())).value().front() + "\n");
}

TEST_CASE("a drive gets the sealed log where there is no sheet, and nothing readable beside it") {
  const own_folder folder;
  const auto files =
      handed_without_paper(folder.file("drive"), a_test("one"), export_set::one_file);
  REQUIRE(files.has_value());
  CHECK(names(files->paths) == std::vector<std::string>{"quarterbreath-FV-2071.log.json.age"});
  CHECK(left_out_of(*files) == std::vector<std::string>{"quarterbreath-FV-2071.sheet.pdf"});
}

TEST_CASE("a sheet that the disk does not take is named, and the rest of the record is there") {
  const own_folder folder;
  failing_disk full;
  full.fails[folder.file("out/quarterbreath-FV-2071.sheet.pdf")] = ENOSPC;
  const zone london = zone_named("Europe/London");
  const export_keys keys = practice_keys();
  const auto files = export_record(
      full, folder.file("out"), a_test("one"),
      {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys, {}});
  REQUIRE(files.has_value());
  CHECK(names(files->paths).size() == 3);
  CHECK(left_out_of(*files) == std::vector<std::string>{"quarterbreath-FV-2071.sheet.pdf",
                                                        "quarterbreath-FV-2071.sheet.pdf.age"});
  full.fails[folder.file("out/quarterbreath-FV-2071.log.json")] = ENOSPC;
  CHECK_FALSE(
      export_record(full, folder.file("out"), a_test("one"),
                    {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys, {}})
          .has_value());
}

// Hangul, Han, and a character of a private plane, which no font has.
TEST_CASE("letters without a font leave no file out") {
  const own_folder folder;
  patient p;
  QB_BELIEVE(p.tell(opened{"one", "quarterbreath 0.1.0", false, fenwick_text()}));
  reported_person who = invented_person();
  who.name = "\uD55C\uAE38 \u4E00 \U0010FFF0";
  who.doctor = "\uC758\uC0AC";
  QB_BELIEVE(p.tell(who));
  QB_BELIEVE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  const auto files = handed_to(folder.file("out"), p.e.events());
  REQUIRE(files.has_value());
  CHECK(files->paths.size() == 5);
  CHECK(files->left_out.empty());
}

TEST_CASE(
    "a record is handed over as log, table and sheet, named by its kit and not by its person") {
  const own_folder folder;
  const auto paths = exported_to(folder, a_test("one"));
  CHECK(names(paths) == std::vector<std::string>{"quarterbreath-FV-2071.log.json",
                                                 "quarterbreath-FV-2071.log.json.minisig",
                                                 "quarterbreath-FV-2071.samples.csv",
                                                 "quarterbreath-FV-2071.sheet.pdf",
                                                 "quarterbreath-FV-2071.sheet.pdf.age"});
  CHECK(read_log(bytes_of(paths[0])).value().mismatches.empty());
  CHECK(bytes_of(paths[2]).find("kit_number,") == 0);
  CHECK(bytes_of(paths[3]).find("%PDF-") == 0);
  for (const std::string& path : paths) {
    struct stat info {};
    REQUIRE(::stat(path.c_str(), &info) == 0);
    CHECK((info.st_mode & 0777U) == 0600U);
  }
}

TEST_CASE("the same record again replaces its own files and makes no others") {
  const own_folder folder;
  const auto first = exported_to(folder, a_test("one"));
  const std::string log = bytes_of(first[0]);
  CHECK(exported_to(folder, a_test("one")) == first);
  CHECK(bytes_of(first[0]) == log);
}

TEST_CASE("another test with the same kit number gets a number and replaces nothing") {
  const own_folder folder;
  const auto first = exported_to(folder, a_test("one"));
  const std::string log = bytes_of(first[0]);
  const auto second = exported_to(folder, a_test("two"));
  CHECK(names(second)[0] == "quarterbreath-FV-2071-2.log.json");
  CHECK(bytes_of(first[0]) == log);
  CHECK(names(exported_to(folder, a_test("two")))[0] == "quarterbreath-FV-2071-2.log.json");
}

TEST_CASE("a file of that name that is no log at all is left alone") {
  const own_folder folder;
  const std::string mine = folder.file("out/quarterbreath-FV-2071.log.json");
  std::filesystem::create_directories(folder.file("out"));
  std::ofstream(mine) << "my own notes";
  CHECK(names(exported_to(folder, a_test("one")))[0] == "quarterbreath-FV-2071-2.log.json");
  CHECK(bytes_of(mine) == "my own notes");
}

TEST_CASE("practice is marked in the name of every file") {
  const own_folder folder;
  for (const std::string& name : names(exported_to(folder, a_test("one", true))))
    CHECK(name.find("practice-quarterbreath-FV-2071.") == 0);
}

TEST_CASE("a kit number cannot lead out of the folder") {
  CHECK(export_stem("../../etc/passwd", false) == "quarterbreath-etcpasswd");
  CHECK(export_stem("FV 20/71", false) == "quarterbreath-FV2071");
  CHECK(export_stem("\xC3\xA9", false) == "quarterbreath-kit");
  CHECK(export_stem("", true) == "practice-quarterbreath-kit");
}

TEST_CASE("a test without a plan is not handed over") {
  const own_folder folder;
  const auto no = handed_to(folder.file("out"), {});
  REQUIRE_FALSE(no.has_value());
  CHECK(exit_status(no.error()) == 2);
  CHECK_FALSE(std::filesystem::exists(folder.file("out")));
}

TEST_CASE("a folder that cannot be written is a failure of the machine") {
  const own_folder folder;
  std::ofstream(folder.file("out")) << "a file in the way";
  const auto no = handed_to(folder.file("out/inside"), a_test("one"));
  REQUIRE_FALSE(no.has_value());
  CHECK(exit_status(no.error()) == 1);
}

TEST_CASE("data files are found by id or path, and an unknown id lists what there is") {
  const std::string assets = repository() + "/assets";
  CHECK(load_protocol(assets, "lactulose-10g")->canonical_text == lactulose_text());
  CHECK(load_protocol(assets, assets + "/protocols/glucose-75g.json")->value.id == "glucose-75g");
  CHECK(protocol_ids(assets) == shipped_ids());
  const auto no = load_protocol(assets, "lactulose");
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().expected ==
        "one of: fructose-25g, glucose-50g, glucose-75g, lactose-25g, lactulose-10g");
  CHECK(load_profile(assets, "fenwick-vale")->value.id == "fenwick-vale");
  CHECK_FALSE(load_profile(assets, "none.json").has_value());
}

TEST_CASE("a zone the machine does not know is refused, and no path leads out of its folder") {
  CHECK(load_zone("Europe/London").has_value());
  for (const char* name : {"Europe/Atlantis", "../../etc/passwd", "", "Europe", "zone.tab"}) {
    INFO(name);
    const auto z = load_zone(name);
    REQUIRE_FALSE(z.has_value());
    CHECK(exit_status(z.error()) == 2);
  }
}

TEST_CASE("a test that was called off for good is handed over as its log, with what was said") {
  const own_folder folder;
  patient p;
  REQUIRE(p.tell(opened{"off", "quarterbreath 0.1.0", false, fenwick_text()}));
  REQUIRE(p.tell(invented_person()));
  REQUIRE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  REQUIRE(p.tell(plan_called_off{"a cold"}));
  const auto paths = exported_to(folder, p.e.events());
  CHECK(names(paths) == std::vector<std::string>{"quarterbreath-FV-2071.log.json",
                                                 "quarterbreath-FV-2071.log.json.minisig",
                                                 "quarterbreath-FV-2071.log.json.age"});
  const auto log = read_log(bytes_of(paths[0]));
  REQUIRE(log.has_value());
  CHECK(log->mismatches.empty());
  const state s = fold_events(log->events);
  const auto told = findings_of(s, *s.last_reading, zone_named("Europe/London"));
  REQUIRE(told.size() == 1);
  CHECK(told[0].words.find("test called off once: first planned for Tuesday 6 April 07:30; a "
                           "cold") == 0);
}
