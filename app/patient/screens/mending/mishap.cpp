// Something went wrong, or was pressed wrong: blow a tube again, see or change what was told, or
// leave the laboratory a note. Nothing told is erased; what is told again stands beside it.
#include "app/patient/screens/days/slip_pages.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/reach.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// The tube that was closed first of those that are.
sample_number first_closed(const view& v) {
  std::size_t i = 0;
  while (i + 1 < v.s.samples.size() && !v.s.samples[i].taken)
    ++i;
  return sample_number::from_index(i);
}

// What else can be chosen now, by key.
std::vector<std::string> reasons(const view& v, const std::optional<sample_number>& n) {
  std::vector<std::string> out;
  const bool tube_2 = v.s.samples.size() > 1 && v.s.samples[1].taken;
  if (n) {
    out.emplace_back("twice");
    out.emplace_back("tube");
    out.emplace_back("time");
    if (v.s.of(*n).label_done) out.emplace_back("label");
    out.emplace_back("broken");
    if (*n != first_closed(v)) out.emplace_back("earlier");
  }
  const auto scored = [](const sample_state& t) { return t.symptoms.has_value(); };
  if (std::any_of(v.s.samples.begin(), v.s.samples.end(), scored)) out.emplace_back("score");
  if (v.s.drink_end && !tube_2) out.emplace_back("drink");
  if (v.s.drink_start) out.emplace_back("trouble");
  if (v.s.drink_start) out.emplace_back("drink-time");
  out.emplace_back("slip");
  if (v.now.what != step::finish && v.s.scorer) out.emplace_back("scorer");
  return out;
}

} // namespace

maybe_wish draw_mishap(toolkit& k, const view& v, ui_state& u) {
  const mishap_page shown = u.nav.page_in<mishap_page>();
  if (shown == mishap_page::earlier) return draw_earlier_spoil(k, v, u);
  if (shown == mishap_page::told) return draw_spoil_told(k, v, u);
  std::optional<std::size_t> picked;
  bool note = false;
  bool back = false;
  const auto n = latest_closed(v);
  const std::vector<spoil_row> spoils = n ? spoil_rows(v, *n) : std::vector<spoil_row>{};
  const std::vector<std::string> all = reasons(v, n);
  const word_args args{{"n", n ? number_text(*n) : ""}};
  const auto content = [&] {
    headline(k, "title", n ? v.t("mishap.title.tube", args) : v.t("mishap.title"));
    if (all.empty()) paragraph(k, "why", v.t("mishap.note-only"));
    say_blown_again(k, v, spoils);
    std::vector<choice> choices;
    for (const spoil_row& row : spoils)
      choices.push_back(row.shown);
    for (const std::string& r : all)
      choices.push_back({r, v.t("mishap." + r, args), ""});
    if (auto c = menu_list(k, "mishap", choices)) picked = c;
  };
  const auto actions = [&] {
    const int pair = button_pair(k, "open-comment", v.t("mishap.note"), "back", v.t("common.back"));
    note = pair == 1;
    back = pair == 2;
  };
  auto out = framed_page(k, v, "mishap", content, actions, page_kind::guided);
  if (note) u.nav.open_side(side_page::comment);
  if (back) u.nav.close_side();
  if (!picked) return out;
  if (*picked < spoils.size()) return tell_spoil(v, u, *n, spoils.at(*picked).id);
  const std::string reason = all.at(*picked - spoils.size());
  u.drafts.later.tube = n;
  if (reason == "earlier") {
    u.nav.page = mishap_page::earlier;
    return out;
  }
  if (reason == "broken") {
    u.nav.open_side(side_page::broken);
    return wish{payload{reported_comment{v.t("mishap.broken", args)}}};
  }
  if (reason == "tube") {
    open_put_right(v, u, right_what::tube);
  } else if (reason == "time") {
    open_put_right(v, u, right_what::time);
  } else if (reason == "score") {
    open_put_right(v, u, right_what::score);
  } else if (reason == "twice") {
    open_blown_twice(v, u, *n);
  } else if (reason == "slip") {
    forget_slip(u);
    u.nav.open_side(side_page::slip);
  } else if (reason == "drink-time") {
    open_put_right(v, u, right_what::drink);
  } else if (reason == "trouble") {
    open_drink_trouble(v, u, {});
  } else if (reason == "label") {
    u.nav.open_side(side_page::label_again);
  } else if (reason == "drink") {
    u.nav.open_side(side_page::drink_again);
  } else {
    u.nav.open_side(side_page::scorer);
  }
  return out;
}

maybe_wish draw_broken(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("broken.title"));
    paragraph(k, "pieces", v.t("broken.pieces"));
    strong(k, "other", v.t("broken.other"));
    calling_paragraph(k, v, "what", "broken.what");
  };
  const auto actions = [&] { on = primary_button(k, "go-on", v.t("drink-part.go-on")); };
  auto out = framed_page(k, v, "broken", content, actions, page_kind::guided);
  if (on) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
