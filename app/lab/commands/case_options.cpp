// One function a command.
#include "app/lab/commands/case_options.hpp"

namespace qb::lab {

namespace {

void share(CLI::App& one, case_options& w) {
  one.add_option("--profile", w.at.profile, "the laboratory: an id, or a file [as set up]");
  one.add_option("--zone", w.at.zone, "the laboratory's zone [as set up, or this machine's]");
  one.add_flag("--another-profile", w.at.another_profile, "not the one set up, on purpose");
  one.add_option("--now", w.at.now, "the moment, \"YYYY-MM-DD HH:MM\" [this machine's clock]");
  one.add_flag("--rehearsals", w.at.rehearsals, "practice too, marked as such");
}

void describe_report(CLI::App& app, case_options& w) {
  auto* report = app.add_subcommand("report");
  report->add_option("KIT|TEST", w.report.kit_or_test, "a kit number or a test's id");
  report->add_flag("--all", w.report.all,
                   "all that were concluded since, each once; --out DIR [as set up]");
  report->add_option("--format", w.report.format, "pdf, json or fhir [pdf]")
      ->check(CLI::IsMember({"pdf", "json", "fhir"}));
  report->add_option("--out", w.report.out, "the file to write, or - [KIT.report.pdf]");
  report->add_option("--number", w.report.number, "what went out with that conclusion, as it was");
  report->add_option("--test", w.at.test, "a test's id, where several bear the kit number");
  report->add_flag("--with-name", w.report.with_name, "in FHIR the name and birth date too");
  report->add_flag("--replace", w.at.replace, "write over a file that is there");
  share(*report, w);
}

} // namespace

void describe_case(CLI::App& app, CLI::App& judge, case_options& w) {
  judge.add_option("KIT|TEST", w.judged, "a kit of the store instead of a bare curve")
      ->excludes("--curve")
      ->excludes("--curves");
  share(judge, w);
  describe_report(app, w);
  auto* aside = app.add_subcommand("override");
  aside->add_option("KIT", w.override_.kit, "a kit number or a test's id")->required();
  aside->add_option("RULE", w.override_.rule, "the finding's rule")->required();
  aside->add_option("--tube", w.tube, "of this tube alone");
  aside->add_option("--by", w.at.by, "who says so")->required();
  aside->add_option("--reason", w.override_.reason, "why")->required();
  aside->add_option("--test", w.at.test, "a test's id, where several bear the kit number");
  aside->add_flag("--withdraw", w.override_.withdraw, "the finding stands again");
  share(*aside, w);
  auto* conclude = app.add_subcommand("conclude");
  auto* kit = conclude->add_option("KIT", w.conclude.kit, "a kit number or a test's id");
  conclude->add_option("--by", w.at.by, "the reader's name [who is signed in]");
  auto* words = conclude->add_option("--words", w.conclude.words, "the conclusion");
  kit->needs(words);
  words->needs(kit);
  conclude->add_option("--kind", w.conclude.kind, "what it is [final]")
      ->check(CLI::IsMember({"final", "amended", "corrected", "cannot-be-reported"}));
  conclude->add_option("--reason", w.conclude.reason, "why there is a later one");
  conclude->add_option("--lack", w.conclude.lack, "why readings are missing");
  conclude->add_option("--confirm", w.conclude.confirm, "the test's short id: it is this one");
  conclude->add_option("--test", w.at.test, "a test's id, where several bear the kit number");
  conclude->add_option("--passphrase", w.conclude.passphrase,
                       "file or /dev/fd/N with your key's passphrase [the terminal]");
  conclude->add_option("--letters", w.conclude.letters,
                       "of what cannot be reported: the folder for its letters");
  share(*conclude, w);
  auto* letters = app.add_subcommand("letters");
  letters->add_option("KIT|TEST", w.letters.kit_or_test, "a kit number or a test's id")->required();
  letters->add_option("--out", w.letters.out, "the folder for KIT.letters.pdf and .txt [.]");
  letters->add_option("--test", w.at.test, "a test's id, where several bear the kit number");
  letters->add_flag("--replace", w.at.replace, "write over files that are there");
  share(*letters, w);
}

std::optional<int> run_case(const CLI::App& app, const case_options& w,
                            const shared_options& shared, const console& to) {
  if (app.got_subcommand("judge")) return judge_kit(shared, w.at, w.judged, to);
  if (app.got_subcommand("report")) {
    report_options o = w.report;
    if (o.format.empty()) o.format = shared.format == output_format::json ? "json" : "pdf";
    if (o.all != o.kit_or_test.empty())
      return say_no({refusal_kind::missing, "", "report",
                     o.all ? "a kit as well as --all" : "neither a kit nor --all",
                     "one of the two"},
                    to);
    return o.all ? write_all_reports(shared, w.at, o, to) : write_report(shared, w.at, o, to);
  }
  if (app.got_subcommand("letters")) return write_letters(shared, w.at, w.letters, to);
  if (app.got_subcommand("conclude"))
    return w.conclude.kit.empty() ? conclude_waiting(shared, w.at, w.conclude, to)
                                  : conclude_kit(shared, w.at, w.conclude, to);
  if (!app.got_subcommand("override")) return std::nullopt;
  override_options o = w.override_;
  if (w.tube != 0) o.tube = w.tube;
  return override_finding(shared, w.at, o, to);
}

} // namespace qb::lab
