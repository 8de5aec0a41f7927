// Something went wrong with a tube: blow it again, or leave the laboratory a note.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

// The latest closed tube: the only one that can be blown again.
std::optional<sample_number> latest(const view& v) {
  for (std::size_t i = v.s.samples.size(); i-- > 0;) {
    if (v.s.samples[i].taken) return sample_number::from_index(i);
  }
  return std::nullopt;
}

} // namespace

maybe_wish draw_mishap(kit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool note = false;
  bool back = false;
  const auto n = latest(v);
  const bool drink_stands = n && *n == sample_number(1) && v.s.drink_start;
  const bool can = n && !drink_stands;
  const std::vector<std::string> reasons{"lid", "spoiled", "short"};
  const auto content = [&] {
    headline(k, "title", v.t("mishap.title"));
    if (can) {
      paragraph(k, "why", v.t("mishap.again", {{"n", number_text(*n)}}));
      std::vector<choice> choices;
      for (const std::string& r : reasons)
        choices.push_back({r, v.t("mishap." + r, {{"n", number_text(*n)}}), ""});
      if (auto c = choice_list(k, "mishap", choices, "")) picked = c;
    } else {
      paragraph(k, "why", v.t("mishap.note-only"));
    }
  };
  const auto actions = [&] {
    note = secondary_button(k, "open-comment", v.t("mishap.note"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "mishap", content, actions);
  if (note) u.open = "comment";
  if (back) u.open.clear();
  if (picked) {
    u.open.clear();
    return wish{
        payload{repeat_wanted{*n, v.t("mishap." + reasons.at(*picked), {{"n", number_text(*n)}})}}};
  }
  return out;
}

} // namespace qb
