// One function a command.
#include "app/lab/commands/day_options.hpp"

namespace qb::lab {

namespace {

// What most of them share.
CLI::App* begin(CLI::App& app, day_options& w, const char* name, bool person) {
  CLI::App* one = app.add_subcommand(name);
  one->add_option("--profile", w.at.profile, "the laboratory: an id, or a file [fenwick-vale]");
  one->add_option("--zone", w.at.zone, "the laboratory's zone [this machine's]");
  one->add_option("--now", w.at.now, "the moment, \"YYYY-MM-DD HH:MM\" [this machine's clock]");
  one->add_flag("--rehearsals", w.at.rehearsals, "practice too, marked as such");
  if (person) one->add_option("--by", w.at.by, "who is at the bench")->required();
  return one;
}

void describe_received(CLI::App& app, day_options& w) {
  auto* receive = begin(app, w, "receive", true);
  receive->add_option("--kit", w.receive.kit, "one box alone: its number or code");
  receive->add_option("--box", w.receive.box, "its words: y -7 !4 4@08:16 ...")->needs("--kit");
  receive->add_option("--tube-codes", w.receive.tube_codes,
                      "a file of the maker's tube codes: maker_code,kit,tube");

  auto* paper = begin(app, w, "paper", true);
  paper->add_option("KIT", w.paper.kit, "the kit's number")->required();
  paper->add_option("SHEET", w.paper.sheet, "day, a time for each tube or -, drink START-END")
      ->required();
  paper->add_option("--test", w.paper.test, "the test, where nothing else tells it");
  paper
      ->add_option(
          "--confirm", w.paper.confirmed,
          "past-midnight, twelve-hours, as-written, drink-as-written or replaces, where asked")
      ->check(CLI::IsMember(
          {"past-midnight", "twelve-hours", "as-written", "drink-as-written", "replaces"}));

  auto* readings = begin(app, w, "readings", false);
  readings->add_option("FILE", w.readings.file, "a table (CSV), or -")->required();
  readings->add_option("--tube-codes", w.readings.tube_codes,
                       "a file of the maker's tube codes: maker_code,kit,tube");

  auto* choose = begin(app, w, "choose", true);
  choose->add_option("KIT", w.choice.kit, "the kit's number")->required();
  choose->add_option("TUBE", w.choice.tube, "the tube's number")->required();
  choose->add_option("READING", w.choice.reading, "the reading's number")->required();
  choose->add_option("--reason", w.choice.reason, "why")->required();
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

  auto* forget = begin(app, w, "forget", false);
  forget->add_option("KIT", w.kit, "the kit's number")->required();
  forget->add_flag("--sure", w.sure, "do it; it cannot be taken back");
}

} // namespace

void describe_day(CLI::App& app, day_options& w) {
  w.at.profile = "fenwick-vale";
  describe_received(app, w);
  describe_lists(app, w);
}

bool day_makes_store(const CLI::App& app) {
  return app.got_subcommand("receive") || app.got_subcommand("paper");
}

std::optional<int> run_day(const CLI::App& app, const day_options& w, const shared_options& shared,
                           const console& to) {
  if (app.got_subcommand("receive")) return receive_boxes(shared, w.at, w.receive, to);
  if (app.got_subcommand("paper")) return enter_paper(shared, w.at, w.paper, to);
  if (app.got_subcommand("readings")) return take_readings(shared, w.at, w.readings, to);
  if (app.got_subcommand("choose")) return choose_reading(shared, w.at, w.choice, to);
  if (app.got_subcommand("worklist")) return show_work(shared, w.at, w.all, to);
  if (app.got_subcommand("audit")) return audit_times(shared, w.at, w.csv, to);
  if (app.got_subcommand("export")) return export_all(shared, w.at, w.folder, to);
  if (app.got_subcommand("forget")) return forget_kit(shared, w.at, w.kit, w.sure, to);
  return std::nullopt;
}

} // namespace qb::lab
