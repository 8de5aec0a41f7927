// The window on a desk or a kiosk; what is drawn is mirrored for tests and for a voice.
#include "app/patient/command/window_command.hpp"

#include "app/glass/window.hpp"
#include "app/machine/files.hpp"
#include "app/machine/own_machine.hpp"
#include "app/machine/surroundings.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "app/patient/command/showing.hpp"

#include <cstdio>
#include <set>

namespace qb::patient {

namespace {

result<glass::window_options> window_of(const window_command_options& o) {
  glass::window_options w;
  w.title = "Quarterbreath";
  w.fullscreen = o.fullscreen;
  if (o.size.empty()) return w;
  constexpr int least = 300;
  constexpr int most = 8000;
  char end = 0;
  const int read = std::sscanf(o.size.c_str(), "%dx%d%c", &w.width, &w.height, &end);
  if (read == 2 && w.width >= least && w.height >= least && w.width <= most && w.height <= most)
    return w;
  return tl::unexpected(refusal{refusal_kind::out_of_range, "", "--size", "\"" + o.size + "\"",
                                "WIDTHxHEIGHT from 300x300 to 8000x8000"});
}

look look_of(const std::string& name) {
  if (name == "dark") return look::dark;
  return name == "high-contrast" ? look::high_contrast : look::light;
}

// What was drawn, as a file, and one picture of each screen that is shown, where they were asked
// for.
class mirrored {
public:
  mirrored(glass::window& w, const window_command_options& o)
      : window_(w), options_(o), file_(o.outline) {}

  [[nodiscard]] bool wanted() const { return !options_.outline.empty() || !options_.shots.empty(); }

  [[nodiscard]] result<void> show(const outline& seen) {
    if (auto shown = file_.show(to_json(seen), fingerprint(seen)); !shown) return shown;
    const bool picture = seen.settled && !options_.shots.empty() && !seen.screen.empty();
    if (!picture || !shot_.insert(seen.screen).second) return {};
    return window_.screenshot(options_.shots + "/" + seen.screen + ".png");
  }

private:
  glass::window& window_;
  const window_command_options& options_;
  mirrored_file file_;
  std::set<std::string> shot_;
};

} // namespace

int window_command(const window_command_options& o) {
  const result<std::string> data = o.data.empty() ? user_data_folder("quarterbreath") : o.data;
  if (!data) return say_no(data.error());
  const shell_options so{*data, o.assets, o.profile, program_name(), o.rehearsal};
  const auto wanted = window_of(o);
  if (!wanted) return say_no(wanted.error());
  auto bytes = load_fonts();
  if (!bytes) return say_no(bytes.error());
  cue_player cues;
  own_machine here(o.drives.empty() ? usual_drive_roots() : o.drives);
  const auto running = shell::open(so, here, cues);
  if (!running) return say_no(running.error());
  for (const refusal& no : (**running).not_offered())
    note("quarterbreath: a test that is not offered: {}\n", sentence(no));
  if (!o.shots.empty()) {
    if (const auto made = make_folder(o.shots); !made) return say_no(made.error());
  }
  auto w = glass::window::open(*wanted);
  if (!w) return say_no(w.error());
  mirrored seen(*w, o);
  showing::mirror mirror;
  if (seen.wanted()) mirror = [&seen](const outline& what) { return seen.show(what); };
  showing show(*w, **running, look_of(o.look), std::move(*bytes), mirror);
  const glass::loop_report report = show.run();
  if (show.failed()) return say_no(*show.failed());
  note("quarterbreath: {} wakes, {} frames drawn, {} shown\n", report.wakes, report.frames,
       report.pictures);
  return 0;
}

} // namespace qb::patient
