// One function a command.
#include "app/lab/commands/day_options.hpp"

namespace qb::lab {

namespace {

// What most of them share.
CLI::App* begin(CLI::App& app, day_options& w, const char* name, bool person) {
  CLI::App* one = app.add_subcommand(name);
  one->add_option("--profile", w.at.profile, "the laboratory: an id, or a file [as set up]");
  one->add_option("--zone", w.at.zone, "the laboratory's zone [as set up, or this machine's]");
  one->add_option("--now", w.at.now, "the moment, \"YYYY-MM-DD HH:MM\" [this machine's clock]");
  one->add_flag("--rehearsals", w.at.rehearsals, "practice too, marked as such");
  one->add_flag("--another-profile", w.at.another_profile, "not the one set up, on purpose");
  if (person) one->add_option("--by", w.at.by, "who is at the bench [who is signed in]");
  return one;
}

// Which of several tests of a kit number is meant.
void name_test(CLI::App& one, day_options& w) {
  one.add_option("--test", w.at.test, "a test's id, where several bear the kit number");
}

// Whose a label or sheet says it is.
void name_person(CLI::App& one, person_options& who) {
  one.add_option("--name", who.name, "whose it is, by its label or sheet");
  one.add_option("--born", who.born, "their birth date, YYYY-MM-DD");
  one.add_option("--hospital-number", who.hospital, "the hospital's number of the person");
  one.add_option("--order", who.order, "the number of the request");
}

// `readings FILE` takes a table in; `readings check FILE` only looks at it.
void describe_readings(CLI::App& app, day_options& w) {
  auto* readings = begin(app, w, "readings", false);
  auto* check = readings->add_subcommand("check");
  readings->add_option("--by", w.at.by, "who is at the bench [who is signed in]");
  name_test(*readings, w);
  for (CLI::App* one : {readings, check}) {
    auto* file = one->add_option("FILE", w.readings.file,
                                 "a table (CSV), or - [the new ones where it is set up]");
    if (one == check) file->required();
    one->add_option("--tube-codes", w.readings.tube_codes,
                    "a file of the maker's tube codes: maker_code,kit,tube");
    one->add_option("--layout", w.readings.layout,
                    "the file that describes the table, or plain [as set up, or plain]");
  }
  auto* layouts = app.add_subcommand("readings-layout");
  layouts->require_subcommand(1);
  layouts->add_subcommand("check")->add_option("FILE", w.layouts, "files to check")->required();
}

void describe_received(CLI::App& app, day_options& w) {
  auto* receive = begin(app, w, "receive", true);
  receive->add_option("--kit", w.receive.kit, "one box alone: its number or code");
  receive->add_option("--box", w.receive.box, "its words: y -7 !4 4@08:16 ...")->needs("--kit");
  receive->add_option("--tube-codes", w.receive.tube_codes,
                      "a file of the maker's tube codes: maker_code,kit,tube");
  receive->add_option("--posted", w.receive.posted, "the day, of every box that tells none");
  name_test(*receive, w);
  name_person(*receive, w.receive.who);

  receive->add_flag("--not-issued", w.at.not_issued, "kits never issued here, on purpose");

  auto* paper = begin(app, w, "paper", true);
  paper->add_option("KIT", w.paper.kit, "the kit's number or code, or a test's id")->required();
  paper->add_flag("--not-issued", w.at.not_issued, "a kit never issued here, on purpose");
  paper->add_option("SHEET", w.paper.sheet, "day, a time for each tube or -, drink START-END")
      ->required();
  paper->add_option("--test", w.paper.test, "the test, where nothing else tells it");
  paper
      ->add_option(
          "--confirm", w.paper.confirmed,
          "past-midnight, twelve-hours, as-written, drink-as-written or replaces, where asked")
      ->check(CLI::IsMember(
          {"past-midnight", "twelve-hours", "as-written", "drink-as-written", "replaces"}));

  name_person(*paper, w.paper.who);

  describe_readings(app, w);

  auto* choose = begin(app, w, "choose", true);
  choose->add_option("KIT", w.choice.kit, "a kit number or a test's id")->required();
  name_test(*choose, w);
  choose->add_option("TUBE", w.choice.tube, "the tube's number")->required();
  choose->add_option("READING", w.choice.reading, "the reading's number")->required();
  choose->add_option("--reason", w.choice.reason, "why")->required();
}

void describe_rulings(CLI::App& app, day_options& w) {
  auto* assign = begin(app, w, "assign", false);
  assign->add_option("--by", w.at.by, "who says so [who is signed in]");
  assign->add_option("KIT", w.assign.kit, "the kit's number")->required();
  assign->add_option("--test", w.at.test, "whose it is: a test's id");
  assign->add_option("--reason", w.assign.reason, "why");
  assign->add_option("--box", w.assign.box, "this entry of the box alone");
  assign->add_option("--sheet", w.assign.sheet, "this sheet alone");
  assign->add_option("--reading", w.assign.reading, "this reading alone");

  auto* back = begin(app, w, "take-back", true);
  back->add_option("KIT", w.back.kit, "a kit number or a test's id")->required();
  back->add_option("WHAT", w.back.what,
                   "lid, absence, extra, label, reading, choice, sheet, scan, box")
      ->required();
  back->add_option("NUMBER", w.back.number, "the tube's number, or the row's")->required();
  back->add_option("--reason", w.back.reason, "why")->required();
  back->add_option("--to", w.back.to_kit, "a reading is of this kit or test");
  back->add_option("--to-tube", w.back.to_tube, "a reading is of this tube");
  back->add_flag("--stands", w.back.stands, "it counts again");
  name_test(*back, w);
}

void describe_lists(CLI::App& app, day_options& w) {
  auto* work = begin(app, w, "worklist", false);
  work->add_flag("--all", w.all, "what waits for nothing too");

  auto* audit = begin(app, w, "audit", false);
  audit->add_option("--csv", w.csv, "write it as CSV to this file, or -");
  audit->add_flag("--replace", w.at.replace, "write over a file that is there");

  auto* out = begin(app, w, "export", false);
  out->add_option("FOLDER", w.folder, "for tests.csv, tubes.csv and fhir.ndjson")->required();
  out->add_flag("--replace", w.at.replace, "write over files that are there");

  out->add_flag("--new", w.only_new, "only tests that changed since the last export");

  auto* forget = begin(app, w, "forget", false);
  forget->add_option("--by", w.at.by, "who says so")->required();
  forget->add_option("KIT", w.forget.kit, "a kit number or a test's id")->required();
  forget->add_option("--reason", w.forget.reason, "why")->required();
  forget->add_flag("--sure", w.forget.sure, "do it; it cannot be taken back");
  forget->add_flag("--although-concluded", w.forget.although_concluded,
                   "a concluded one before its retention is over too");
  name_test(*forget, w);
}

} // namespace

void describe_day(CLI::App& app, day_options& w) {
  describe_received(app, w);
  describe_rulings(app, w);
  describe_lists(app, w);
}

bool day_makes_store(const CLI::App& app) {
  return app.got_subcommand("receive") || app.got_subcommand("paper");
}

std::optional<int> run_day(const CLI::App& app, const day_options& w, const shared_options& shared,
                           const console& to) {
  if (app.got_subcommand("receive")) return receive_boxes(shared, w.at, w.receive, to);
  if (app.got_subcommand("paper")) return enter_paper(shared, w.at, w.paper, to);
  if (app.got_subcommand("readings")) {
    if (app.get_subcommand("readings")->got_subcommand("check"))
      return check_readings_file(shared, w.at, w.readings, to);
    if (w.readings.file.empty()) return take_new_tables(shared, w.at, w.readings, to);
    return take_readings(shared, w.at, w.readings, to);
  }
  if (app.got_subcommand("choose")) return choose_reading(shared, w.at, w.choice, to);
  if (app.got_subcommand("worklist")) return show_work(shared, w.at, w.all, to);
  if (app.got_subcommand("audit")) return audit_times(shared, w.at, w.csv, to);
  if (app.got_subcommand("export")) return export_all(shared, w.at, w.folder, to, w.only_new);
  if (app.got_subcommand("assign")) return assign_rows(shared, w.at, w.assign, to);
  if (app.got_subcommand("take-back")) return take_back(shared, w.at, w.back, to);
  if (app.got_subcommand("forget")) return forget_test(shared, w.at, w.forget, to);
  return std::nullopt;
}

} // namespace qb::lab
