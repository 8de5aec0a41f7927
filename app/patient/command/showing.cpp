// The loop's calls, each a few lines.
#include "app/patient/command/showing.hpp"

#include "app/machine/files.hpp"

#include <fmt/core.h>
#include <imgui.h>

namespace qb::patient {

namespace {

constexpr const char* font_folder = "/usr/share/fonts/truetype/noto/";

toolkit_words words_of(const words& t) {
  return {t("kit.more"),    t("kit.back"),   t("kit.unwell"), t("kit.practice"), t("kit.trying"),
          t("kit.done"),    t("kit.space"),  t("kit.erase"),  t("kit.shift"),    t("kit.letters"),
          t("kit.accents"), t("kit.digits"), t("kit.no-font")};
}

} // namespace

result<font_bytes> load_fonts() {
  auto regular = read_file(fmt::format("{}NotoSans-Regular.ttf", font_folder));
  if (!regular) return tl::unexpected(regular.error());
  auto bold = read_file(fmt::format("{}NotoSans-Bold.ttf", font_folder));
  if (!bold) return tl::unexpected(bold.error());
  return font_bytes{std::move(*regular), std::move(*bold)};
}

showing::showing(glass::window& w, shell& s, look l, font_bytes bytes, mirror m)
    : window_(w),
      shell_(s),
      bytes_(std::move(bytes)),
      toolkit_(make_theme(l), fonts_, words_of(s.texts())),
      mirror_(std::move(m)) {}

glass::loop_report showing::run() {
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
  if (mirror_)
    calls.drawn = [this](const glass::frame_info& info, bool settled) {
      show_mirror(info, settled);
    };
  return window_.run(calls);
}

void showing::build(glass::frame_size size) {
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  atlas.Clear();
  auto built = build_fonts(atlas, bytes_, natural_scale(size.width, size.height), supply_);
  if (!built) {
    failed_ = built.error();
    return window_.leave();
  }
  fonts_ = *built;
  toolkit_.set_fonts(fonts_);
  window_.fonts_changed();
}

void showing::show_mirror(const glass::frame_info& info, bool settled) {
  outline seen = toolkit_.seen();
  seen.frame = info.number;
  seen.settled = settled;
  if (const auto shown = mirror_(seen); !shown) failed_ = shown.error();
}

} // namespace qb::patient
