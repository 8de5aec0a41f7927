// The laboratory's program: reads its options, then runs one command.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/help/dress.hpp"
#include "app/help/man_page.hpp"
#include "app/help/option_words.hpp"
#include "app/help/parse_end.hpp"
#include "app/lab/care/care_options.hpp"
#include "app/lab/commands/case_options.hpp"
#include "app/lab/commands/commands.hpp"
#include "app/lab/commands/day_options.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/judge_assets.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/lab/context/own_assets.hpp"
#include "app/lab/manual/manual.hpp"
#include "app/lab/own/own_options.hpp"
#include "app/machine/files.hpp"
#include "app/machine/private_memory.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <filesystem>
#include <iterator>
#include <unistd.h>

namespace {

// The options as they were given.
struct options {
  std::string store;
  std::string data; // folder of the store, where its file is not named
  std::string assets;
  std::string format{"text"};
  qb::lab::import_options import;
  std::string kit_or_test;
  qb::lab::kit_code_options kits;
  qb::lab::judge_options judge;
  qb::lab::fhir_options fhir;
  qb::lab::day_options day;
  qb::lab::case_options cases;
  qb::lab::care_options care;
  qb::lab::own_options own;
  std::vector<std::string> checked; // files of `criterion check`, `flags check`, `codes check`
};

void describe_kit_codes(CLI::App& app, qb::lab::kit_code_options& o) {
  auto* kits = app.add_subcommand("kit-code");
  kits->add_option("--protocol", o.protocol, "the kits' test: an id, or a file")->required();
  kits->add_option("--expires", o.expires, "the last day of use, YYYY-MM-DD")->required();
  kits->add_option("--serial", o.serial, "one kit: its four characters");
  kits->add_option("--first", o.first, "several kits: the first one's four characters");
  kits->add_option("--count", o.count, "how many, with --first");
  kits->add_option("--profile", o.profile, "the laboratory: an id, or a file [as set up]");
  kits->add_flag("--another-profile", o.another_profile, "not the one set up, on purpose");
  kits->add_option("--lot", o.lot, "the lot of what is in the boxes");
  kits->add_option("--by", o.by, "who issues them; then they are kept as issued");
}

void describe_judging(CLI::App& app, options& w) {
  auto* judge = app.add_subcommand("judge");
  judge->add_option("--curve", w.judge.curve,
                    "a CSV file, or -: minute,h2_ppm,ch4_ppm and, if any, co2_pct");
  judge->add_option("--curves", w.judge.curves,
                    "a file of JSON lines, or -; each is answered with one");
  judge->add_option("--test", w.judge.test, "the curve's test: an id, or a file");
  judge->add_option("--window-slack", w.judge.window_slack,
                    "minutes past a window's end that still count [0]");
  qb::lab::describe_case(app, *judge, w.cases);
  for (const char* kind : {"criterion", "flags", "findings"}) {
    auto* data = app.add_subcommand(kind);
    data->require_subcommand(1);
    data->add_subcommand("check")->add_option("FILE", w.checked, "files to check")->required();
  }
}

void describe_fhir(CLI::App& app, options& w) {
  auto* fhir = app.add_subcommand("fhir");
  fhir->add_option("KIT|TEST", w.fhir.kit_or_test, "a kit number or a test's id")->required();
  fhir->add_option("--out", w.fhir.out, "the file to write, or - [-]");
  fhir->add_flag("--with-name", w.fhir.with_name, "the person's name and birth date too");
  fhir->add_flag("--rehearsals", w.fhir.rehearsals, "practice too, marked as such");
  fhir->add_flag("--replace", w.fhir.replace, "write over a file that is there");
  auto* codes = app.add_subcommand("codes");
  codes->require_subcommand(1);
  codes->add_subcommand("check")->add_option("FILE", w.checked, "files to check")->required();
}

void describe(CLI::App& app, options& w) {
  app.require_subcommand(1);
  app.fallthrough();
  app.add_option("--store", w.store,
                 "the store's file [~/.local/share/quarterbreath-lab/store.db]");
  app.add_option("--data", w.data, "folder of the store, where --store does not name its file");
  app.add_option("--assets", w.assets,
                 "folder of your own protocols and profiles, held against a log's");
  app.add_option("--format", w.format, "text or json")->check(CLI::IsMember({"text", "json"}));

  app.option_defaults()->group("Options");
  auto* import = app.add_subcommand("import");
  import->add_option("PATH", w.import.paths, "files, folders, or - for standard input [as set up]");
  import->add_option("--identity", w.import.identity,
                     "file with your age identity, for sealed files (.age)");
  import->add_flag("--rehearsals", w.import.rehearsals, "take practice too, marked as such");
  import->add_flag("--not-issued", w.import.not_issued, "kits never issued here too, on purpose");
  import->add_flag("--code", w.import.codes,
                   "scanned codes, one a line (from - also without this)");
  app.add_subcommand("list");
  auto* show = app.add_subcommand("show");
  show->add_option("KIT|TEST", w.kit_or_test, "a kit number or a test's id")->required();
  describe_kit_codes(app, w.kits);
  describe_judging(app, w);
  describe_fhir(app, w);
  qb::lab::describe_day(app, w.day);
  qb::lab::describe_care(app, w.care);
  qb::lab::describe_own(app, w.own);
}

std::string assets_of(const options& w) {
  std::error_code none;
  const std::string program = std::filesystem::read_symlink("/proc/self/exe", none).string();
  return qb::assets_folder(w.assets, program);
}

// The store that is meant, and from it what its laboratory set up in place of what was not given.
qb::result<options> with_own_laboratory(options w, bool make_folders) {
  if (w.store.empty()) {
    const auto usual = qb::lab::usual_store(w.data, make_folders);
    if (!usual) return tl::unexpected(usual.error());
    w.store = *usual;
  }
  const auto own = qb::lab::load_own_laboratory(w.store);
  if (!own) return tl::unexpected(own.error());
  w.own.set_up.assets = w.assets;
  if (w.assets.empty()) w.assets = own->assets;
  if (w.import.identity.empty()) w.import.identity = own->identity;
  if (w.import.paths.empty() && !own->inbox.empty()) w.import.paths = {own->inbox};
  if (w.kits.profile.empty())
    w.kits.profile = own->is_set_up ? own->profile : qb::lab::trying_profile;
  return w;
}

// An import takes in what others sent, whatever this laboratory's own files say.
qb::result<qb::lab::shared_options> prepare(const options& w, bool importing) {
  qb::lab::shared_options shared;
  shared.store = w.store;
  if (w.format == "json") shared.format = qb::lab::output_format::json;
  shared.zones = qb::load_zone;
  if (importing) return shared;
  const auto own = qb::lab::load_own_files(assets_of(w), !w.assets.empty());
  if (!own) return tl::unexpected(own.error());
  shared.own = *own;
  return shared;
}

// Where nothing is set up, kit codes need no store.
int make_kit_codes(const options& given, const qb::lab::console& to) {
  auto with_own = with_own_laboratory(given, !given.kits.by.empty());
  const bool no_place = !with_own && with_own.error().kind == qb::refusal_kind::missing;
  if (no_place && given.kits.by.empty()) { // no folder of a user's, and nothing to be kept
    with_own = given;
    if (given.kits.profile.empty()) with_own->kits.profile = qb::lab::trying_profile;
  }
  if (!with_own) return qb::lab::say_no(with_own.error(), to);
  const options& w = *with_own;
  qb::lab::kit_code_options o = w.kits;
  o.store = w.store;
  o.assets = assets_of(w);
  if (w.format == "json") o.format = qb::lab::output_format::json;
  return qb::lab::make_kit_codes(o, to);
}

int judge(const options& w, const qb::lab::console& to) {
  qb::lab::judge_options o = w.judge;
  o.assets = assets_of(w);
  o.profile = w.cases.at.profile.empty() ? qb::lab::trying_profile : w.cases.at.profile;
  o.standard_input = stdin;
  if (w.format == "json") o.format = qb::lab::output_format::json;
  return qb::lab::judge_curves(o, to);
}

// What rests on the laboratory's own choices, and so says when there is no laboratory.
constexpr const char* deciding[] = {"report", "conclude", "judge",    "override", "letters",
                                    "export", "fhir",     "worklist", "audit"};

void say_unset(const CLI::App& app, const options& w, const qb::lab::console& to) {
  if (std::none_of(std::begin(deciding), std::end(deciding),
                   [&](const char* one) { return app.got_subcommand(one); }))
    return;
  const auto own = qb::lab::load_own_laboratory(w.store);
  if (own && !own->is_set_up)
    to.err("quarterbreath-lab: note: no laboratory is set up in this store; `set-up` does it\n");
}

// What a sign-in is enough for: it can be taken back, or is shown and confirmed before it is kept.
constexpr const char* by_sign_in[] = {"receive", "paper",    "readings", "choose",
                                      "assign",  "conclude", "requests", "take-back"};

qb::result<std::string> at_bench(const CLI::App& app, const options& w,
                                 const qb::lab::shared_options& shared,
                                 const qb::lab::console& to) {
  const bool told = !w.day.at.by.empty() || !w.cases.at.by.empty() || !w.own.at.by.empty();
  if (told || std::none_of(std::begin(by_sign_in), std::end(by_sign_in),
                           [&](const char* one) { return app.got_subcommand(one); }))
    return std::string();
  return qb::lab::person_at_bench(shared, to);
}

// Names, birth dates and results are in it.
void say_open(const CLI::App& app, const options& w, const qb::lab::console& to) {
  if (qb::is_open_to_others(w.store) && !app.got_subcommand("check")) // which says it by itself
    to.err("quarterbreath-lab: note: others than its owner may read the store (chmod 600 closes "
           "it)\n");
}

int with_store(const CLI::App& app, const options& given, const qb::lab::console& to) {
  const bool importing = app.got_subcommand("import");
  const bool makes = importing || qb::lab::day_makes_store(app) || qb::lab::own_makes_store(app);
  const auto with_own = with_own_laboratory(given, makes);
  if (!with_own) return qb::lab::say_no(with_own.error(), to);
  const options& w = *with_own;
  const auto shared = prepare(w, importing);
  if (!shared) return qb::lab::say_no(shared.error(), to);
  say_unset(app, w, to);
  say_open(app, w, to);
  const auto here = at_bench(app, w, *shared, to);
  if (!here) return qb::lab::say_no(here.error(), to);
  int status = 0;
  if (importing) status = qb::lab::import_logs(*shared, w.import, to);
  if (app.got_subcommand("list")) status = qb::lab::list_tests(*shared, to);
  if (app.got_subcommand("show")) status = qb::lab::show_tests(*shared, w.kit_or_test, to);
  if (app.got_subcommand("fhir")) {
    qb::lab::fhir_options o = w.fhir;
    o.assets = assets_of(w);
    status = qb::lab::write_fhir(*shared, o, to);
  }
  qb::lab::day_options day = w.day;
  day.at.assets = assets_of(w);
  day.at.standard_input = stdin;
  qb::lab::case_options cases = w.cases;
  cases.at.assets = day.at.assets;
  cases.at.standard_input = stdin;
  qb::lab::own_options own = w.own;
  own.at.assets = day.at.assets;
  own.at.standard_input = stdin;
  for (std::string* by : {&day.at.by, &cases.at.by, &own.at.by})
    if (by->empty()) *by = *here;
  if (const auto ran = qb::lab::run_own(app, own, *shared, to)) return *ran;
  if (const auto ran = qb::lab::run_case(app, cases, *shared, to)) return *ran;
  qb::lab::care_options care = w.care;
  care.at.assets = day.at.assets;
  if (const auto ran = qb::lab::run_care(app, care, *shared, to)) return *ran;
  return qb::lab::run_day(app, day, *shared, to).value_or(status);
}

int run_command(const CLI::App& app, const options& w, const qb::lab::console& to) {
  if (app.got_subcommand("kit-code")) return make_kit_codes(w, to);
  if (app.got_subcommand("judge") && w.cases.judged.empty()) return judge(w, to);
  for (const char* kind : {"criterion", "flags", "findings"})
    if (app.got_subcommand(kind)) return qb::lab::check_judging_files(kind, w.checked, to);
  if (app.got_subcommand("request-columns"))
    return qb::lab::check_request_columns(w.own.columns, to);
  if (app.got_subcommand("readings-layout")) return qb::lab::check_layouts(w.day.layouts, to);
  if (app.got_subcommand("codes")) return qb::lab::check_code_files(w.checked, to);
  return with_store(app, w, to);
}

int run(const CLI::App& app, const options& w) {
  // While receiving each answer is waited for, also where it goes into a pipe.
  if (app.got_subcommand("receive") || app.got_subcommand("conclude"))
    std::setvbuf(stdout, nullptr, _IOLBF, BUFSIZ);
  const qb::lab::console to = qb::lab::console_on(stdout, stderr);
  const int status = run_command(app, w, to);
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return status;
  return qb::lab::say_no({qb::refusal_kind::machine, "", "standard output", "an output that failed",
                          "one that can be written"},
                         to);
}

} // namespace

int main(int argc, char** argv) {
  qb::keep_memory_private();
  // A limit on the size of files is a full disk: it is told, and nothing half written stays.
  std::signal(SIGXFSZ, SIG_IGN);
  CLI::App app;
  app.option_defaults()->group(qb::help::of_every_command);
  app.set_help_flag("-h,--help", "this help");
  app.set_version_flag("--version", "quarterbreath-lab " QB_VERSION)
      ->description("which version this is");
  options w;
  w.import.standard_input = stdin;
  describe(app, w);
  app.add_subcommand("man");
  const qb::help::manual manual = qb::lab::whole_manual();
  qb::help::dress(app, manual);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return qb::help::parse_end(app, e);
  }
  if (app.got_subcommand("man")) return qb::help::print_man_page(app, manual);
  return run(app, w);
}
