// The last tube is behind: what was recorded, what is missing, and what is left to do.
#include "app/patient/screens/days/spare_tubes.hpp"
#include "app/patient/screens/plan_words.hpp"
#include "app/patient/screens/reach.hpp"

namespace qb::inline screens {

namespace {

// Where it was written to; a record of long ago only says when. It is not the laboratory's yet.
fact written(const view& v, const ui_state& u) {
  if (!v.s.exported_at) return {v.t("finish.handed"), v.t("finish.not-yet")};
  const std::string& to = u.drafts.handed_to;
  return {v.t("finish.written"), to.empty() ? when(v, v.s.exported_at->at.wall) : to};
}

// Until when a shared device keeps the test; answers whether the person has it in hand.
bool draw_shared(toolkit& k, const view& v) {
  if (!v.shared || v.shared->left) return false;
  const bool saved = v.s.exported_at.has_value();
  const bool by_hand = v.lab.kiosk && v.lab.kiosk->erase_after_handover;
  const char* key = !saved ? (filled_tubes(v) > 0 ? "shared.until" : "shared.until-empty")
                           : (by_hand ? "shared.saved" : "shared.saved.later");
  notice(k, "shared", notice_kind::note, v.t(key, {{"at", when(v, v.shared->until)}}));
  return saved && by_hand && quiet_button(k, "have-it", v.t("shared.have-it"));
}

std::vector<fact> summary(const view& v, const ui_state& u) {
  std::vector<fact> rows;
  // What is still to be done comes first.
  const bool saved = v.s.exported_at.has_value();
  if (!saved) rows.push_back(written(v, u));
  rows.push_back(
      {v.t("finish.filled"), v.t("finish.of", {{"n", std::to_string(filled_tubes(v))},
                                               {"all", std::to_string(v.s.samples.size())}})});
  std::string missing;
  for (sample_number n : v.now.missed)
    missing += (missing.empty() ? "" : ", ") + number_text(n);
  if (!missing.empty()) rows.push_back({v.t("finish.empty"), missing, true});
  const bool drunk = v.s.drink_start.has_value();
  rows.push_back({v.t("finish.drink"),
                  drunk ? when(v, v.s.drink_start->at.wall) : v.t("finish.none"), !drunk});
  if (const auto& later = v.s.of(score_time::later); later.given())
    rows.push_back({v.t("finish.scores-later"), when(v, later.at->wall)});
  if (saved) rows.push_back(written(v, u));
  return rows;
}

// The scores of later the same day: when they are due, or that they are; answers whether they are
// to be given now.
bool draw_later_scores(toolkit& k, const view& v) {
  if (v.now.after != score_time::later) return false;
  const bool due = *v.now.to_due <= duration{0};
  const std::string words = due ? v.t("finish.later-now")
                                : v.t("finish.later", {{"at", when(v, v.at.wall + *v.now.to_due)}});
  notice(k, "later", due ? notice_kind::needs_you : notice_kind::note, words);
  return due && secondary_button(k, "open-later", v.t("finish.later-open"));
}

// What to eat and drink first, what to look out for tonight, driving: once, before what is left to
// do.
maybe_wish draw_afterwards(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto& all = v.s.test->afterwards;
  const auto content = [&] {
    headline(k, "title", real_words(v, v.s.ended ? "finish.title.early" : "finish.title"));
    notice(k, "emergency", notice_kind::note, v.t("finish.call", {{"call", v.lab.emergency}}));
    for (std::size_t i = 0; i < all.size(); ++i)
      paragraph(k, "after-" + std::to_string(i + 1), all[i].text);
  };
  const auto actions = [&] { on = primary_button(k, "next", v.t("common.next")); };
  auto out = framed_page(k, v, "afterwards", content, actions);
  if (on) u.drafts.afterwards_read = true;
  return out;
}

} // namespace

maybe_wish draw_finish(toolkit& k, const view& v, ui_state& u) {
  const bool drank = v.s.drink_start && v.s.test && !v.s.test->afterwards.empty();
  if (drank && !v.s.exported_at && !u.drafts.afterwards_read) return draw_afterwards(k, v, u);
  side_page open = side_page::none;
  bool leave = false;
  bool anew = false;
  bool have = false;
  const bool early = v.s.ended.has_value();
  const bool unsaved = !v.practice && filled_tubes(v) > 0 && !v.s.exported_at;
  const auto opens = [&open](bool pressed, side_page page) {
    if (pressed) open = page;
  };
  const auto content = [&] {
    headline(k, "title",
             v.t(v.practice ? "practice.over"
                 : early    ? "finish.title.early"
                            : "finish.title"));
    opens(draw_later_scores(k, v), side_page::scores_later);
    paragraph(k, "eat", v.t("finish.eat"));
    have = draw_shared(k, v);
    if (filled_tubes(v) > 0) {
      rack(k, "rack", v.t("finish.rack"), whole_rack_of(v));
      const std::string spare = spare_words(v, "spare.send");
      if (!spare.empty()) quiet_text(k, "spare", spare);
      facts(k, "summary", summary(v, u));
    } else {
      calling_paragraph(k, v, "nothing", "finish.nothing");
    }
    if (!v.now.missed.empty() && v.s.grid && !early)
      opens(quiet_button(k, "open-tell", v.t("finish.tell")), side_page::tell);
    if (filled_tubes(v) > 0 && v.practice)
      opens(quiet_button(k, "open-copy", v.t("finish.copy")), side_page::copy);
    if (v.s.grid) opens(quiet_button(k, "open-code", v.t("code.open")), side_page::code);
    opens(quiet_button(k, "open-comment", v.t("finish.comment")), side_page::comment);
    if (v.s.grid) opens(quiet_button(k, "mishap", v.t("finish.mishap")), side_page::mishap);
    if (!v.practice && (v.s.exported_at || early))
      anew = quiet_button(k, "begin-anew", v.t("finish.anew"));
    opens(quiet_button(k, "open-erase", v.t("erase.open")), side_page::erase);
  };
  const auto actions = [&] {
    if (v.practice) leave = primary_button(k, "leave-practice", v.t("practice.leave"));
    if (unsaved) {
      opens(primary_button(k, "open-hand-over", v.t("finish.hand-over")), side_page::hand_over);
      const int next =
          button_pair(k, "open-copy", v.t("finish.copy"), "open-pack", v.t("finish.pack"));
      opens(next == 1, side_page::copy);
      opens(next == 2, side_page::pack);
      return;
    }
    if (filled_tubes(v) > 0 && !v.practice)
      opens(primary_button(k, "open-copy", v.t("finish.copy")), side_page::copy);
    const int pressed =
        button_pair(k, "open-hand-over", v.t("finish.hand-over"), "open-pack", v.t("finish.pack"));
    opens(pressed == 1, side_page::hand_over);
    opens(pressed == 2, side_page::pack);
  };
  auto out = framed_page(k, v, "finish", content, actions, page_kind::guided);
  if (open == side_page::tell) {
    open_tell(v, u, v.now.missed.front(), std::chrono::minutes{1});
    u.nav.page = tell_page::which; // any of the empty ones may be meant
  } else if (open != side_page::none) {
    u.nav.open_side(open);
  }
  if (have) ask_to_erase(u);
  if (leave) return wish{leave_practice{}};
  if (anew) return wish{begin_anew{}};
  return out;
}

} // namespace qb::inline screens
