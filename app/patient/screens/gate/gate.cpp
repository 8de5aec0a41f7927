// The gate before the drink: the right sugar, the morning's questions, everything at hand, and the
// actual moment held against the plan. Until it is passed, moving the test costs nothing.
#include "app/patient/screens/days/diet.hpp"
#include "app/patient/screens/gate/gate_pages.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/plan/choose_pages.hpp"
#include "core/session/after_loss.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

using page = gate_page;

constexpr const char* sugar_check = "sugar-matches";
constexpr const char* morning_check = "morning-questions";

struct intro_presses {
  bool begin{false};
  bool morning{false};
  bool drunk{false};
  int pair{0};
};

maybe_wish draw_intro(toolkit& k, const view& v, ui_state& u) {
  intro_presses did;
  const plan& what = v.s.planned->what;
  const bool late = v.at.wall > what.start;
  const auto content = [&] {
    headline(k, "title", v.t("gate.title"));
    // What was told needs the room: the way on stays on the first leaf.
    if (v.s.slips.empty()) picture(k, "picture", picture_of::gate, v.t("gate.picture"), true);
    if (v.s.slips.empty()) {
      paragraph(k, "closed", v.t("gate.closed"));
    } else {
      paragraph(k, "slips", v.t("gate.slips"));
    }
    if (late) {
      paragraph(k, "late", v.t("gate.late", {{"start", when(v, what.start)}}));
    } else {
      facts(k, "times",
            {{v.t("gate.planned"), start_words(v, what.start)},
             {v.t("gate.left"), count_down(what.start - v.at.wall)}});
    }
  };
  const auto actions = [&] {
    did.begin = primary_button(k, "begin-checks", v.t("gate.begin"));
    if (!morning_list_done(v) && !v.practice)
      did.morning = secondary_button(k, "open-morning", v.t("living.morning.open"));
    // Asked once more with the sugar in reach; before, it stands among what can be told.
    if (v.s.ready || v.s.grid || v.s.lost_by != 0)
      did.drunk = quiet_button(k, "drank-first", v.t("drink.first"));
    // Opened from the preparation, one step back is where a slip is told.
    did.pair =
        !u.nav.is_side()
            ? button_pair(k, "open-slip", v.t("living.slip"), "open-choose", v.t("living.move"))
            : button_pair(k, "back", v.t("common.back"), "open-choose", v.t("living.move"));
  };
  auto out = framed_page(k, v, "gate", content, actions);
  if (did.begin) {
    u.drafts.ticked.clear();
    u.nav.page = page::sugar;
  }
  if (did.morning) u.nav.open_side(side_page::morning);
  if (did.drunk) open_reported_drink(v, u);
  if (did.pair == 1) u.nav.open_side(u.nav.is_side() ? side_page::none : side_page::slip);
  if (did.pair == 2) u.nav.open_side(side_page::choose);
  return out;
}

// The checks that are ticked as a list; the packet and the morning have pages of their own.
std::vector<std::string> listed_checks() {
  std::vector<std::string> out;
  for (const std::string& id : gate_checks()) {
    if (id != sugar_check && id != morning_check) out.push_back(id);
  }
  return out;
}

// Choosing silence says in the same press that the screen will be watched; the way back says
// nothing yet of what is heard.
void turn_silent(ui_state& u) {
  const bool silent = !u.drafts.silent;
  u.drafts.silent = silent;
  if (silent != is_ticked(u, "sound")) turn_tick(u, "sound");
}

std::string check_key(const view& v, const ui_state& u, const std::string& id) {
  if (id == "sound" && !v.sound) return "gate.check.no-sound";
  if (id == "sound" && u.drafts.silent) return "attention.check.silent";
  return "gate.check." + id;
}

struct sound_presses {
  bool hear{false};
  bool turn{false};
};

// With a sound output: hear it, or do without.
sound_presses sound_choice(toolkit& k, const view& v, const ui_state& u) {
  sound_presses did;
  if (!v.sound) return did;
  if (u.drafts.silent) {
    did.turn = secondary_button(k, "silent", v.t("attention.use-sound"));
    return did;
  }
  const int pressed =
      button_pair(k, "try-sound", v.t("gate.try-sound"), "silent", v.t("attention.silent"));
  did.hear = pressed == 1;
  did.turn = pressed == 2;
  return did;
}

maybe_wish draw_things(toolkit& k, const view& v, ui_state& u) {
  const plan& what = v.s.planned->what;
  const instant start = std::max(what.start, v.at.wall);
  const word_args args{{"n", std::to_string(v.s.test->samples())},
                       {"end", when(v, start + (what.ends - what.start))}};
  const auto checks = listed_checks();
  const bool all = std::all_of(checks.begin(), checks.end(),
                               [&](const std::string& id) { return is_ticked(u, id); });
  std::string turned;
  sound_presses sound;
  bool next = false;
  bool back = false;
  const bool early = v.at.wall < what.start;
  const auto content = [&] {
    headline(k, "title", v.t("gate.things.title"));
    for (const std::string& id : checks) {
      const std::string more = id == "power" && v.may_go_dark ? v.t("attention.may-go-dark") : "";
      if (check_row(k, id, v.t(check_key(v, u, id), args), is_ticked(u, id), more)) turned = id;
      if (id == "sound") sound = sound_choice(k, v, u);
    }
  };
  const auto actions = [&] {
    if (all) {
      next = primary_button(k, "next", v.t("common.next"));
    } else {
      waiting_button(k, "next", v.t("gate.tick-all"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-things", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (back) u.nav.page = page::sugar;
  if (next) u.nav.page = early ? page::time : page::check;
  if (sound.turn) turn_silent(u);
  if (sound.hear) return wish{try_sound{}};
  return out;
}

// Which page it is, once what comes before it is held: the packet, then every question, then the
// morning's list. Waiting may last the whole night; what it leads to may not rest on old answers.
page page_due(const view& v, ui_state& u, page wanted) {
  if (!v.s.packet) return page::intro;
  const bool each = wanted == page::each;
  if (question_due(v, each)) return each ? page::each : page::ask;
  if (are_slips_lost(v.s)) return page::told_again;
  if (!morning_answered(v)) {
    // Come to anew, what else stands ready is looked at again as well.
    if (wanted != page::morning) u.drafts.ticked.clear();
    return page::morning;
  }
  const bool is_over =
      each || wanted == page::ask || wanted == page::told_again || wanted == page::morning;
  return is_over ? page::things : wanted;
}

} // namespace

maybe_wish draw_gate(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  page shown = u.nav.page_in<page>();
  const bool waiting = shown == page::time && v.at.wall < v.s.planned->what.start;
  const bool anytime = waiting || shown == page::intro || shown == page::sugar ||
                       shown == page::wrong_sugar || shown == page::not_today;
  if (!anytime) {
    shown = page_due(v, u, shown);
    u.nav.page = shown;
  }
  switch (shown) {
  case page::intro: return draw_intro(k, v, u);
  case page::sugar:
  case page::wrong_sugar: return draw_packet(k, v, u);
  case page::not_today: return draw_gate_not_today(k, v, u);
  case page::morning: return draw_gate_morning(k, v, u);
  case page::things: return draw_things(k, v, u);
  case page::time: return draw_gate_time(k, v, u);
  case page::check:
  case page::agreed:
  case page::rules: return draw_gate_check(k, v, u);
  case page::each:
  case page::ask: return draw_gate_ask(k, v, u);
  case page::told_again: return draw_gate_told_again(k, v, u);
  }
  QB_BELIEVE(false);
  return draw_intro(k, v, u);
}

} // namespace qb::inline screens
