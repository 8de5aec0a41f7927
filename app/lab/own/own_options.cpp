// One function a command.
#include "app/lab/own/own_options.hpp"

namespace qb::lab {

namespace {

void add_person(CLI::App& one, own_options& w) {
  one.add_option("--by", w.at.by, "who says so: a name or code of `people`");
}

void describe_set_up(CLI::App& app, own_options& w) {
  auto* set = app.add_subcommand("set-up");
  set->add_option("--profile", w.set_up.profile, "the laboratory: an id, or a file");
  set->add_option("--zone", w.set_up.zone, "the laboratory's zone");
  set->add_option("--identity", w.set_up.identity, "the file with your age identity");
  set->add_option("--layout", w.set_up.layout, "the file that describes the analyser's tables");
  set->add_option("--inbox", w.set_up.inbox, "the folder in which records arrive");
  set->add_option("--tables", w.set_up.tables, "the folder of the analyser's tables");
  set->add_option("--reports", w.set_up.reports, "the folder that reports go to");
  set->add_option("--person", w.set_up.people, "\"NAME / CODE / ROLES\", once for each");
  set->add_flag("--for-trying", w.set_up.trying, "an invented laboratory, on purpose");
  set->add_flag("--usual", w.set_up.usual, "this store is meant where none is named");
  add_person(*set, w);

  app.add_subcommand("sign-in")->add_option("WHO", w.at_bench, "a name or code of `people`");
  app.add_subcommand("sign-out");

  auto* people = app.add_subcommand("people");
  people->add_option("--add", w.people.add, "\"NAME / CODE / ROLES\"");
  people->add_option("--leaves", w.people.leave, "a name or code: may do nothing any more");
  add_person(*people, w);
}

void describe_keys(CLI::App& app, own_options& w) {
  auto* key = app.add_subcommand("reader-key");
  add_person(*key, w);
  key->add_option("--out", w.key.out, "the new file for the sealed half")->required();
  key->add_option("--passphrase", w.key.passphrase,
                  "file or /dev/fd/N with its passphrase [the terminal]");

  auto* sign = app.add_subcommand("signed");
  sign->add_option("KIT", w.signed_.kit, "a kit number or a test's id")->required();
  sign->add_option("--out", w.signed_.out, "the file; beside it FILE.minisig")->required();
  sign->add_flag("--rehearsals", w.at.rehearsals, "practice too, marked as such");
}

void describe_lists(CLI::App& app, own_options& w) {
  auto* requests = app.add_subcommand("requests");
  requests->add_option("FILE", w.requests.file, "the list, or -")->required();
  requests->add_option("--columns", w.requests.columns,
                       "a description of the table's columns; without it FHIR");
  add_person(*requests, w);
  requests->add_flag("--not-issued", w.at.not_issued, "kits never issued here, on purpose");

  auto* columns = app.add_subcommand("request-columns");
  columns->require_subcommand(1);
  columns->add_subcommand("check")->add_option("FILE", w.columns, "files to check")->required();

  auto* which = app.add_subcommand("which");
  which->add_option("--protocol", w.which.protocol, "a test's id");
  which->add_option("--used-profile", w.which.profile, "a profile's id");
  which->add_option("--criterion", w.which.criterion, "a criterion's id");
  which->add_option("--lot", w.which.lot, "a lot of kits");
  which->add_option("--run", w.which.run, "a run of the analyser");
  which->add_flag("--rehearsals", w.at.rehearsals, "practice too");
}

} // namespace

void describe_own(CLI::App& app, own_options& w) {
  describe_set_up(app, w);
  describe_keys(app, w);
  describe_lists(app, w);
}

bool own_makes_store(const CLI::App& app) {
  return app.got_subcommand("set-up") || app.got_subcommand("requests");
}

std::optional<int> run_own(const CLI::App& app, const own_options& w, const shared_options& shared,
                           const console& to) {
  if (app.got_subcommand("set-up")) return set_up_laboratory(shared, w.at, w.set_up, to);
  if (app.got_subcommand("sign-in")) return sign_in_here(shared, w.at_bench, to);
  if (app.got_subcommand("sign-out")) return sign_out_here(to);
  if (app.got_subcommand("people")) return change_people(shared, w.at, w.people, to);
  if (app.got_subcommand("reader-key")) return make_reader_key(shared, w.at, w.key, to);
  if (app.got_subcommand("signed")) return write_signed(shared, w.at, w.signed_, to);
  if (app.got_subcommand("requests")) return take_requests(shared, w.at, w.requests, to);
  if (app.got_subcommand("which")) return show_which(shared, w.at, w.which, to);
  return std::nullopt;
}

} // namespace qb::lab
