// One function a command.
#include "app/lab/care/care_options.hpp"

namespace qb::lab {

void describe_care(CLI::App& app, care_options& w) {
  app.add_subcommand("backup")->add_option("FILE", w.backup, "a new file")->required();
  app.add_subcommand("check");
  auto* which = app.add_subcommand("which-log");
  which->add_option("KIT|TEST", w.which.kit_or_test, "a kit number or a test's id")->required();
  auto* log = which->add_option("--log", w.which.log, "the one that counts from now on");
  which->add_option("--by", w.at.by, "who says so")->needs(log);
  auto* reason = which->add_option("--reason", w.which.reason, "why")->needs(log);
  log->needs(reason);
  which->add_option("--profile", w.at.profile, "the laboratory: an id, or a file [as set up]");
  which->add_option("--zone", w.at.zone, "the laboratory's zone [as set up, or this machine's]");
  which->add_option("--now", w.at.now, "the moment, \"YYYY-MM-DD HH:MM\" [this machine's clock]");
}

std::optional<int> run_care(const CLI::App& app, const care_options& w,
                            const shared_options& shared, const console& to) {
  if (app.got_subcommand("backup")) return back_up(shared, w.backup, to);
  if (app.got_subcommand("check")) return check_store(shared, to);
  if (app.got_subcommand("which-log")) return which_log(shared, w.at, w.which, to);
  return std::nullopt;
}

} // namespace qb::lab
