// Window, toolkit and shell tied together; what is drawn is mirrored for tests and for a voice.
#include "app/patient/command/window_command.hpp"

#include "app/glass/window.hpp"
#include "app/machine/files.hpp"
#include "app/machine/own_machine.hpp"
#include "app/machine/surroundings.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "app/patient/shell/shell.hpp"
#include "app/patient/theme/glyph_supply.hpp"

#include <cstdio>
#include <fmt/core.h>
#include <imgui.h>
#include <set>

namespace qb::patient {

namespace {

constexpr const char* font_folder = "/usr/share/fonts/truetype/noto/";

result<font_bytes> load_fonts() {
  auto regular = read_file(fmt::format("{}NotoSans-Regular.ttf", font_folder));
  if (!regular) return tl::unexpected(regular.error());
  auto bold = read_file(fmt::format("{}NotoSans-Bold.ttf", font_folder));
  if (!bold) return tl::unexpected(bold.error());
  return font_bytes{std::move(*regular), std::move(*bold)};
}

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

toolkit_words words_of(const words& t) {
  return {t("kit.more"),    t("kit.back"),   t("kit.unwell"), t("kit.practice"), t("kit.trying"),
          t("kit.done"),    t("kit.space"),  t("kit.erase"),  t("kit.shift"),    t("kit.letters"),
          t("kit.accents"), t("kit.digits"), t("kit.no-font")};
}

look look_of(const std::string& name) {
  if (name == "dark") return look::dark;
  return name == "high-contrast" ? look::high_contrast : look::light;
}

// One run of the window.
class showing {
public:
  showing(glass::window& w, shell& s, const window_command_options& o, font_bytes bytes)
      : window_(w),
        shell_(s),
        options_(o),
        bytes_(std::move(bytes)),
        toolkit_(make_theme(look_of(o.look)), fonts_, words_of(s.texts())),
        mirror_(o.outline) {}

  glass::loop_report run() {
    glass::loop_calls calls;
    calls.resized = [this](glass::frame_size size) { build(size); };
    calls.frame = [this](const glass::frame_info& info) {
      return shell_.frame(toolkit_, info.size.width, info.size.height);
    };
    calls.draw_again = [this](glass::frame_size size) {
      const bool lacking = fonts_.lacking();
      if (lacking) build(size);
      return lacking;
    };
    calls.drawn = [this](const glass::frame_info& info, bool settled) { mirror(info, settled); };
    return window_.run(calls);
  }

  std::optional<refusal> failed;

private:
  void build(glass::frame_size size) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    atlas.Clear();
    auto built = build_fonts(atlas, bytes_, natural_scale(size.width, size.height), supply_);
    if (!built) {
      failed = built.error();
      return window_.leave();
    }
    fonts_ = *built;
    toolkit_.set_fonts(fonts_);
    window_.fonts_changed();
  }

  void mirror(const glass::frame_info& info, bool settled) {
    if (options_.outline.empty() && options_.shots.empty()) return;
    outline seen = toolkit_.seen();
    seen.frame = info.number;
    seen.settled = settled;
    if (const auto shown = mirror_.show(to_json(seen), fingerprint(seen)); !shown)
      failed = shown.error();
    const bool wanted = settled && !options_.shots.empty() && !seen.screen.empty();
    if (!wanted || !shot_.insert(seen.screen).second) return;
    const auto saved = window_.screenshot(options_.shots + "/" + seen.screen + ".png");
    if (!saved) failed = saved.error();
  }

  glass::window& window_;
  shell& shell_;
  const window_command_options& options_;
  font_bytes bytes_;
  glyph_supply supply_;
  fonts fonts_;
  toolkit toolkit_;
  mirrored_file mirror_;
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
  showing show(*w, **running, o, std::move(*bytes));
  const glass::loop_report report = show.run();
  if (show.failed) return say_no(*show.failed);
  note("quarterbreath: {} wakes, {} frames drawn, {} shown\n", report.wakes, report.frames,
       report.pictures);
  return 0;
}

} // namespace qb::patient
