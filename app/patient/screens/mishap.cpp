// Something went wrong, or was pressed wrong: blow a tube again, see or change what was told, or
// leave the laboratory a note. Nothing told is erased; what is told again stands beside it.
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

// What can be chosen now, by key.
std::vector<std::string> reasons(const view& v, const std::optional<sample_number>& n) {
  std::vector<std::string> out;
  if (!n) return out;
  const bool first_and_drunk = *n == sample_number(1) && v.s.drink_start;
  if (!first_and_drunk) out = {"lid", "short", "fell"};
  if (v.s.of(*n).label_done) out.emplace_back("label");
  if (v.s.of(*n).symptoms) out.emplace_back("symptoms");
  const bool tube_2 = v.s.samples.size() > 1 && v.s.samples[1].taken;
  if (v.s.drink_end && !tube_2) out.emplace_back("drink");
  return out;
}

bool repeats(const std::string& reason) {
  return reason == "lid" || reason == "short" || reason == "fell";
}

} // namespace

maybe_wish draw_mishap(kit& k, const view& v, ui_state& u) {
  std::optional<std::size_t> picked;
  bool note = false;
  bool back = false;
  const auto n = latest(v);
  const std::vector<std::string> all = reasons(v, n);
  const word_args args{{"n", n ? number_text(*n) : ""}};
  const auto content = [&] {
    headline(k, "title", v.t("mishap.title"));
    if (all.empty()) paragraph(k, "why", v.t("mishap.note-only"));
    std::vector<choice> choices;
    for (const std::string& r : all)
      choices.push_back({r, v.t("mishap." + r, args), repeats(r) ? v.t("mishap.again") : ""});
    if (auto c = menu_list(k, "mishap", choices)) picked = c;
  };
  const auto actions = [&] {
    note = secondary_button(k, "open-comment", v.t("mishap.note"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "mishap", content, actions, page_kind::guided);
  if (note) u.open = "comment";
  if (back) u.open.clear();
  if (!picked) return out;
  const std::string reason = all.at(*picked);
  u.chosen = n;
  u.page = 0;
  u.open = repeats(reason) ? "" : reason + "-again";
  if (repeats(reason)) return wish{payload{repeat_wanted{*n, v.t("mishap." + reason, args)}}};
  return out;
}

} // namespace qb
