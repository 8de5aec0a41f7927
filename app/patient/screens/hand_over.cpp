// Handing the record over to a folder or a drive, and what was written there.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

// The file's name without its folder.
std::string name_of(const std::string& path) {
  const auto slash = path.rfind('/');
  return slash == std::string::npos ? path : path.substr(slash + 1);
}

} // namespace

maybe_wish draw_hand_over(kit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(v.exported.empty() ? "hand-over.title" : "hand-over.done-title"));
    if (!v.exported.empty()) {
      paragraph(k, "done", v.t("hand-over.done"));
      for (std::size_t i = 0; i < v.exported.size(); ++i)
        quiet_text(k, "file-" + std::to_string(i + 1), name_of(v.exported[i]));
      return;
    }
    picture(k, "picture", picture_of::post, v.t("hand-over.picture"), true);
    paragraph(k, "what", v.t("hand-over.what"));
    std::vector<choice> choices;
    for (std::size_t i = 0; i < v.places.size(); ++i)
      choices.push_back({std::to_string(i + 1), v.places[i].words, v.places[i].folder});
    if (auto c = menu_list(k, "place", choices)) picked = c;
  };
  const auto actions = [&] {
    back = v.exported.empty() ? quiet_button(k, "back", v.t("common.back"))
                              : primary_button(k, "back", v.t("common.done"));
  };
  auto out = framed_page(k, v, "hand-over", content, actions);
  if (back) u.open.clear();
  if (picked) return wish{hand_over{v.places.at(*picked).folder}};
  return out;
}

} // namespace qb
