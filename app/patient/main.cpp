// The patient's program: reads its options, then opens the window or runs a command.
#include "app/assets/assets.hpp"
#include "app/help/dress.hpp"
#include "app/help/man_page.hpp"
#include "app/help/option_words.hpp"
#include "app/help/parse_end.hpp"
#include "app/machine/private_memory.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/window_command.hpp"
#include "app/patient/manual/manual.hpp"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <functional>
#include <memory>

namespace {

void add_earliest(CLI::App& app, qb::patient::shared_options& shared, std::function<int()>& run) {
  auto* earliest = app.add_subcommand("earliest");
  auto e = std::make_shared<qb::patient::earliest_options>();
  const std::string moment = ", \"YYYY-MM-DD HH:MM\" in the zone, or RFC 3339";
  earliest->add_option("--protocol", e->protocol, "a test, such as lactulose-10g")->required();
  earliest->add_option("--zone", e->zone, "time zone, such as Europe/London")->required();
  earliest->add_option("--now", e->now, "the moment it is asked at" + moment)->required();
  earliest->add_option("--told", e->told, "what the person told, a JSON file");
  earliest->add_option("--start", e->start, "another start, to be told what it breaks" + moment);
  earliest->callback([&run, &shared, e] {
    run = [&shared, e] { return qb::patient::earliest_command(shared, *e); };
  });
}

// What both papers are made from.
void add_paper_options(CLI::App& command, qb::patient::paper_options& p) {
  p.profile = "fenwick-vale";
  auto* log = command.add_option("--log", p.log, "from this record's timing log");
  auto* protocol =
      command.add_option("--protocol", p.protocol, "before a test: which, such as lactulose-10g");
  protocol->excludes(log);
  command.add_option("--profile", p.profile,
                     "the laboratory's profile: an id, or a file [fenwick-vale]");
  for (auto* own : {command.add_option("--kit", p.kit, "the kit number"),
                    command.add_option("--name", p.name, "the person's name"),
                    command.add_option("--born", p.born, "date of birth, YYYY-MM-DD"),
                    command.add_option("--doctor", p.doctor, "the doctor's name"),
                    command.add_option("--made-at", p.made_at,
                                       "the moment the file carries, \"YYYY-MM-DDTHH:MM:SSZ\"")})
    own->excludes(log);
  command.add_option("--page", p.page, "the file to write (.pdf)")->required();
}

void add_papers(CLI::App& app, qb::patient::shared_options& shared, std::function<int()>& run) {
  auto* labels = app.add_subcommand("labels");
  auto l = std::make_shared<qb::patient::labels_options>();
  l->labels = qb::usual_labels;
  add_paper_options(*labels, l->paper);
  labels->add_option("--labels", l->labels, "the sheet or roll: an id, or a file [a4-70x37]");
  labels->add_option("--start-at", l->start_at, "the first label used [1]");
  labels->add_option("--offset-x", l->offset_x, "move to the right, in tenths of a millimetre");
  labels->add_option("--offset-y", l->offset_y, "move down, in tenths of a millimetre");
  labels->add_flag("--nameless", l->nameless, "the kit number alone, no name or date of birth");
  labels->add_flag("--test-page", l->test_page, "a page to hold over the labels, with a rule");
  labels->callback([&run, &shared, l] {
    run = [&shared, l] { return qb::patient::labels_command(shared, *l); };
  });

  auto* sheet = app.add_subcommand("sheet");
  auto s = std::make_shared<qb::patient::sheet_options>();
  add_paper_options(*sheet, s->paper);
  sheet->add_flag("--empty", s->empty, "to be filled in with a pen");
  sheet->add_option("--start", s->start, "a planned start, for the empty sheet");
  sheet->add_option("--zone", s->zone, "time zone of the planned start");
  sheet->callback([&run, &shared, s] {
    run = [&shared, s] { return qb::patient::sheet_command(shared, *s); };
  });
}

void add_erase(CLI::App& app, const std::string& data, std::function<int()>& run) {
  auto* erase = app.add_subcommand("erase");
  auto e = std::make_shared<qb::patient::erase_options>();
  erase->add_option("KIT|TEST", e->test, "the kit number, or a test's id")->required();
  erase->add_flag("--sure", e->sure, "do it; without it, say what would go");
  erase->callback([&run, &data, e] {
    run = [&data, e] {
      e->data = data;
      return qb::patient::erase_command(*e);
    };
  });
}

// Adds the commands; the chosen one is left in `run`.
void add_commands(CLI::App& app, qb::patient::shared_options& shared, std::function<int()>& run) {
  auto* plan = app.add_subcommand("plan");
  auto p = std::make_shared<qb::patient::plan_options>();
  p->profile = "fenwick-vale";
  plan->add_option("--protocol", p->protocol, "a test, such as lactulose-10g")->required();
  plan->add_option("--start", p->start, "when tube 1 is blown, \"YYYY-MM-DD HH:MM\"")->required();
  plan->add_option("--zone", p->zone, "time zone, such as Europe/London")->required();
  plan->add_option("--fold", p->fold, "first or second, where clocks show the start twice");
  plan->add_option("--profile", p->profile,
                   "the laboratory's profile: an id, or a file [fenwick-vale]");
  plan->add_option("--calendar", p->calendar, "write the reminders to this calendar file (.ics)");
  plan->add_option("--page", p->page, "write the preparation page to this file (.pdf)");
  plan->add_option("--made-at", p->made_at,
                   "the moment both files carry, \"YYYY-MM-DDTHH:MM:SSZ\"; else the clock's");
  plan->add_option("--identity", p->identity, "names the test in the calendar; else the protocol");
  plan->add_option("--kit", p->kit, "the kit number, for the page");
  plan->add_option("--taking", p->taking, "a washout's rule of which something is taken")
      ->allow_extra_args(false);
  plan->add_option("--sequence", p->sequence, "how often the plan was moved, for the calendar")
      ->check(CLI::NonNegativeNumber);
  plan->add_flag("--called-off", p->called_off, "a calendar that takes the reminders back");
  plan->callback(
      [&run, &shared, p] { run = [&shared, p] { return qb::patient::plan_command(shared, *p); }; });

  add_earliest(app, shared, run);
  add_papers(app, shared, run);

  auto* rehearse = app.add_subcommand("rehearse");
  auto r = std::make_shared<qb::patient::rehearse_options>();
  rehearse->add_option("SCRIPT", r->script, "the script, a JSON file")->required();
  rehearse->add_option("--out", r->out, "the folder to write to")->required();
  rehearse->add_flag("--confirm", r->confirm, "say on standard error what is safely on the disk");
  rehearse->callback([&run, &shared, r] {
    run = [&shared, r] { return qb::patient::rehearse_command(shared, *r); };
  });

  for (const char* kind : {"protocol", "profile", "told", "log", "label-sheet"}) {
    auto* group = app.add_subcommand(kind);
    group->require_subcommand(1);
    auto* check = group->add_subcommand("check");
    auto c = std::make_shared<qb::patient::check_options>();
    check->add_option("FILE", c->files, "the files")->required();
    if (kind == std::string("log"))
      check->add_flag("--form-only", c->form_only,
                      "check the form only, not whether it matches its own record");
    if (kind == std::string("protocol")) {
      check->add_flag("--form-only", c->form_only,
                      "check the form only, not whether its figures are usual");
      check->add_option("--profile", c->profile,
                        "a laboratory's profile, to hold the grid against its bounds");
    }
    check->callback([&run, &shared, kind = std::string(kind), c] {
      run = [&shared, kind, c] { return qb::patient::check_command(shared, kind, *c); };
    });
  }
}

} // namespace

int main(int argc, char** argv) {
  qb::keep_memory_private();
  CLI::App app;
  app.option_defaults()->group(qb::help::of_every_command);
  app.set_help_flag("-h,--help", "this help");
  qb::patient::shared_options shared;
  std::string assets;
  app.add_option("--assets", assets, "tests, laboratories and texts instead of the program's own");
  app.add_option("--format", shared.format, "text or json")->check(CLI::IsMember({"text", "json"}));
  app.set_version_flag("--version", qb::patient::program_name())
      ->description("which version this is");
  app.option_defaults()->group("Options of the window");
  qb::patient::window_command_options window;
  window.profile = "fenwick-vale";
  app.add_option("--data", window.data, "folder of this device's tests");
  app.add_option("--laboratory", window.profile,
                 "the laboratory's profile: an id, or a file [fenwick-vale]");
  app.add_option("--outline", window.outline,
                 "what is drawn, as JSON; replaced whole when it changes");
  app.add_option("--drives", window.drives, "where drives appear [/media and /run/media]")
      ->allow_extra_args(false);
  app.add_option("--size", window.size, "of the window, WIDTHxHEIGHT from 300x300 to 8000x8000");
  app.add_option("--pictures", window.shots,
                 "a picture of each screen that is shown, into this folder");
  app.add_option("--look", window.look, "light, dark or high-contrast [light]")
      ->check(CLI::IsMember({"light", "dark", "high-contrast"}));
  app.add_flag("--rehearsal", window.rehearsal, "practise on a faster clock");
  app.add_flag("--full-screen", window.fullscreen, "take the whole screen");
  app.option_defaults()->group("Options");
  app.fallthrough();
  std::function<int()> run;
  add_commands(app, shared, run);
  add_erase(app, window.data, run);
  const qb::help::manual manual = qb::patient::whole_manual();
  app.add_subcommand("man")->callback([&app, &manual, &run] {
    run = [&app, &manual] { return qb::help::print_man_page(app, manual); };
  });
  qb::help::dress(app, manual);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return qb::help::parse_end(app, e);
  }
  std::error_code none;
  shared.assets =
      qb::assets_folder(assets, std::filesystem::read_symlink("/proc/self/exe", none).string());
  window.assets = shared.assets;
  return run ? run() : qb::patient::window_command(window);
}
