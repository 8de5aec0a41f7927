// What became of the drink, told afterwards: begun before anybody pressed, spilled, vomited, slow
// or not finished. It is written down with when and how much; what it means is the laboratory's to
// say.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/reach.hpp"

#include <algorithm>
#include <array>

namespace qb::inline screens {

namespace {

constexpr std::array whats{drink_mishap::spilled, drink_mishap::vomited, drink_mishap::unfinished,
                           drink_mishap::slow};
constexpr std::array parts{drink_part::all, drink_part::more_than_half, drink_part::less_than_half,
                           drink_part::none};

// A page that asks one of several; answers the one that was pressed.
template <typename T, std::size_t N>
maybe_wish ask(toolkit& k, const view& v, ui_state& u, const std::array<T, N>& all,
               const std::string& topic, std::optional<T>& answer) {
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(topic + ".title"));
    std::vector<choice> choices;
    for (const T one : all)
      choices.push_back({key_of(one), v.t(topic + "." + key_of(one)), ""});
    if (const auto at = choice_list(k, topic, choices, "")) answer = all.at(*at);
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, topic, content, actions, page_kind::guided);
  if (back) u.nav.close_side();
  return out;
}

struct reported_time {
  bool told{false};
  bool guessed{false};
  bool back{false};
};

// How many minutes ago it was, from when the page was opened.
maybe_wish ask_when(toolkit& k, const view& v, ui_state& u, const std::string& topic,
                    reported_time& p) {
  int minutes = 0;
  const auto content = [&] {
    headline(k, "title", v.t(topic + ".title"));
    minutes = stepper(k, "tell-minutes", v.t.counted("tell.ago", u.drafts.later.minutes_ago),
                      when(v, reported_instant(v, u)), false, u.drafts.later.minutes_ago == 0);
    if (v.t.has(topic + ".what")) paragraph(k, "what", v.t(topic + ".what"));
  };
  const auto actions = [&] {
    p.told = primary_button(k, "tell-read", v.t("tell.read"));
    p.guessed = secondary_button(k, "tell-guess", v.t("tell.guess"));
    p.back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, topic, content, actions, page_kind::guided);
  u.drafts.later.minutes_ago = std::max(0, u.drafts.later.minutes_ago - minutes);
  if (p.back) u.nav.close_side();
  return out;
}

} // namespace

void open_reported_drink(const view& v, ui_state& u) {
  open_timed(v, u, side_page::drink_told);
}

void open_drink_trouble(const view& v, ui_state& u, std::optional<drink_mishap> what) {
  using page = drink_trouble_page;
  open_timed(v, u, side_page::drink_trouble, what ? page::kept : page::what);
  if (what) u.drafts.later.mishap = *what;
}

maybe_wish draw_reported_drink(toolkit& k, const view& v, ui_state& u) {
  if (v.s.drink_start) {
    u.nav.close_side();
    return std::nullopt;
  }
  reported_time p;
  const bool first = !v.s.grid;
  auto out = ask_when(k, v, u, first ? "drank-first" : "drink-told", p);
  if (!p.told && !p.guessed) return out;
  u.nav.open_side(first ? side_page::no_baseline : side_page::none);
  return wish{payload{
      reported_drink{reported_instant(v, u), p.told ? how_known::told : how_known::estimated}}};
}

maybe_wish draw_no_baseline(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const sample_number two(2);
  const auto content = [&] {
    headline(k, "title", v.t("no-baseline.title"));
    picture(k, "picture", picture_of::phone, v.t("drink-part.picture"), true);
    calling_paragraph(k, v, "call", "no-baseline.call");
    if (v.s.grid && v.s.samples.size() > 1)
      quiet_text(k, "next",
                 v.t("no-baseline.next", {{"due", when(v, due_on_wall(v.s, two, v.at))}}));
  };
  const auto actions = [&] { on = primary_button(k, "go-on", v.t("drink-part.go-on")); };
  auto out = framed_page(k, v, "no-baseline", content, actions, page_kind::guided);
  if (on) u.nav.close_side();
  return out;
}

maybe_wish draw_drink_trouble(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.drink_start) {
    u.nav.close_side();
    return std::nullopt;
  }
  later_draft& later = u.drafts.later;
  using page = drink_trouble_page;
  const page shown = u.nav.page_in<page>();
  if (shown == page::what) {
    std::optional<drink_mishap> answer;
    auto out = ask(k, v, u, whats, "drink-what", answer);
    if (answer) later.mishap = *answer;
    if (answer) u.nav.page = page::kept;
    return out;
  }
  reported_drink_trouble told;
  told.what = later.mishap;
  if (shown == page::kept) {
    std::optional<drink_part> answer;
    auto out = ask(k, v, u, parts, "drink-kept", answer);
    if (!answer) return out;
    later.part = *answer;
    u.nav.page = page::when;
    if (told.what != drink_mishap::unfinished) return out;
    // What is left in the glass is known now.
    told.kept = later.part;
    told.when = v.at.wall;
    told.how = how_known::observed;
    u.nav.open_side(side_page::drink_part);
    return wish{payload{told}};
  }
  reported_time p;
  auto out = ask_when(k, v, u, "drink-when", p);
  if (!p.told && !p.guessed) return out;
  told.kept = later.part;
  told.when = reported_instant(v, u);
  told.how = p.told ? how_known::told : how_known::estimated;
  u.nav.open_side(side_page::drink_part);
  return wish{payload{told}};
}

} // namespace qb::inline screens
