// The gate before the drink: the right sugar, well today, everything at hand, and the actual moment
// held against the plan. Until it is passed, moving the test costs nothing.
#include "app/patient/screens/choose_pages.hpp"
#include "app/patient/screens/gate_pages.hpp"

#include <algorithm>
#include <charconv>

namespace qb {

namespace {

namespace page = gate_page;

constexpr const char* sugar_check = "sugar-matches";
constexpr const char* well_check = "well-today";
constexpr std::chrono::hours answer_holds{2}; // number: a page left open, then looked at again

void tick(ui_state& u, const std::string& id) {
  if (!is_ticked(u, id)) turn_tick(u, id);
}

struct intro_presses {
  bool begin{false};
  bool move{false};
  bool slip{false};
  bool back{false};
};

maybe_wish draw_intro(kit& k, const view& v, ui_state& u) {
  intro_presses did;
  const plan& what = v.s.planned->what;
  const bool late = v.at.wall > what.start;
  const auto content = [&] {
    headline(k, "title", v.t("gate.title"));
    // What was told needs the room: the way on stays on the first leaf.
    if (v.s.slips.empty()) picture(k, "picture", picture_of::gate, v.t("gate.picture"), true);
    paragraph(k, "closed", v.t("gate.closed"));
    if (late) {
      paragraph(k, "late", v.t("gate.late", {{"start", when(v, what.start)}}));
    } else {
      facts(k, "times",
            {{v.t("gate.planned"), start_words(v, what.start)},
             {v.t("gate.left"), count_down(what.start - v.at.wall)}});
    }
    if (!v.s.slips.empty()) paragraph(k, "slips", v.t("gate.slips"));
  };
  const auto actions = [&] {
    did.begin = primary_button(k, "begin-checks", v.t("gate.begin"));
    did.move = secondary_button(k, "open-choose", v.t("gate.move"));
    // Opened from the preparation, one step back is where a slip is told.
    if (u.open.empty()) {
      did.slip = quiet_button(k, "open-slip", v.t("prepare.slip"));
    } else {
      did.back = quiet_button(k, "back", v.t("common.back"));
    }
  };
  auto out = framed_page(k, v, "gate", content, actions);
  if (did.begin) {
    u.ticked.clear();
    u.page = page::sugar;
  }
  if (did.move) open_side(u, "choose");
  if (did.slip) open_side(u, "slip");
  if (did.back) open_side(u, "");
  return out;
}

std::string other_names(const substrate& sugar) {
  std::string out;
  for (const std::string& name : sugar.packet_names) {
    if (name != sugar.name) out += (out.empty() ? "" : ", ") + name;
  }
  return out;
}

maybe_wish draw_packet(kit& k, const view& v, ui_state& u) {
  const substrate& sugar = v.s.test->sugar;
  bool yes = false;
  bool no = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.sugar.title"));
    big_figure(k, "packet", v.t("gate.sugar.says"), sugar.name);
    const std::string others = other_names(sugar);
    if (!others.empty()) paragraph(k, "or", v.t("gate.sugar.or", {{"names", others}}));
    strong(k, "closed", v.t("gate.sugar.closed"));
  };
  const auto actions = [&] {
    yes = primary_button(k, sugar_check, v.t("gate.sugar.yes", {{"sugar", sugar.name}}));
    no = secondary_button(k, "other-packet", v.t("gate.sugar.no"));
  };
  auto out = framed_page(k, v, "gate-sugar", content, actions);
  if (yes) {
    tick(u, sugar_check);
    u.page = page::well;
  }
  if (no) u.page = page::wrong_sugar;
  return out;
}

maybe_wish draw_well(kit& k, const view& v, ui_state& u) {
  bool yes = false;
  bool no = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.well.title"));
    paragraph(k, "what", v.t("gate.well.what"));
    paragraph(k, "low-sugar", v.t("slip.low-sugar"));
  };
  const auto actions = [&] {
    yes = primary_button(k, well_check, v.t("gate.well.yes"));
    no = secondary_button(k, "not-well", v.t("gate.well.no"));
  };
  auto out = framed_page(k, v, "gate-well", content, actions);
  if (yes) {
    tick(u, well_check);
    u.text[ticked_at_key] = std::to_string(to_unix_ms(v.at.wall));
    u.page = page::things;
  }
  if (no) u.page = page::not_well;
  return out;
}

// Do not start: why, whom to call, and that moving costs nothing.
maybe_wish draw_stop(kit& k, const view& v, ui_state& u) {
  const bool sugar = u.page == page::wrong_sugar;
  bool another = false;
  bool move = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t(sugar ? "gate.stop.sugar" : "gate.stop.well"));
    paragraph(k, "why", v.t(sugar ? "gate.stop.sugar-why" : "gate.stop.well-why"));
    laboratory_facts(k, v);
    if (!sugar)
      notice(k, "emergency", notice_kind::needs_you,
             v.t("gate.stop.emergency", {{"call", v.lab.emergency}}));
  };
  const auto actions = [&] {
    if (sugar) {
      another = primary_button(k, "another-sugar", v.t("prepare.sugar"));
    } else {
      move = primary_button(k, "open-choose", v.t("gate.move"));
    }
    back = quiet_button(k, "back", v.t("gate.stop.back"));
  };
  auto out = framed_page(k, v, sugar ? "gate-other-sugar" : "gate-not-well", content, actions);
  if (move) open_side(u, "choose");
  if (another) choose_another_sugar(u);
  if (back) u.page = sugar ? page::sugar : page::well;
  return out;
}

// The checks that are ticked as a list; the first two have pages of their own.
std::vector<std::string> listed_checks() {
  std::vector<std::string> out;
  for (const std::string& id : gate_checks()) {
    if (id != sugar_check && id != well_check) out.push_back(id);
  }
  return out;
}

maybe_wish draw_things(kit& k, const view& v, ui_state& u) {
  const plan& what = v.s.planned->what;
  const instant start = std::max(what.start, v.at.wall);
  const word_args args{{"n", std::to_string(v.s.test->samples())},
                       {"end", when(v, start + (what.ends - what.start))}};
  const auto checks = listed_checks();
  const bool all = std::all_of(checks.begin(), checks.end(),
                               [&](const std::string& id) { return is_ticked(u, id); });
  std::string turned;
  bool sound = false;
  bool ready = false;
  bool back = false;
  const bool early = v.at.wall < what.start;
  const auto content = [&] {
    headline(k, "title", v.t("gate.things.title"));
    for (const std::string& id : checks) {
      const std::string key =
          id == "sound" && !v.sound ? "gate.check.no-sound" : "gate.check." + id;
      if (check_row(k, id, v.t(key, args), is_ticked(u, id))) turned = id;
    }
    if (v.sound) sound = secondary_button(k, "try-sound", v.t("gate.try-sound"));
  };
  const auto actions = [&] {
    if (all) {
      ready =
          primary_button(k, early ? "next" : "ready", v.t(early ? "common.next" : "gate.ready"));
    } else {
      waiting_button(k, "ready", v.t("gate.tick-all"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-things", content, actions);
  if (!turned.empty()) turn_tick(u, turned);
  if (back) u.page = page::well;
  if (sound) return wish{try_sound{}};
  if (ready && early) u.page = page::time;
  if (ready && !early) return pass_gate(u);
  return out;
}

bool first_two_ticked(const ui_state& u) {
  return is_ticked(u, sugar_check) && is_ticked(u, well_check);
}

// Ticks of the evening before say nothing of this morning.
bool too_old(const view& v, const ui_state& u) {
  const std::string text = draft_of(u, ticked_at_key);
  std::int64_t ms = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), ms);
  if (text.empty() || error != std::errc{}) return true;
  const duration age = v.at.wall - from_unix_ms(ms);
  return age > answer_holds || age < duration{0};
}

// The packet stays what it is; how one is, and what else stands ready, is asked again.
maybe_wish ask_again(kit& k, const view& v, ui_state& u) {
  u.ticked = {sugar_check};
  u.page = page::well;
  return draw_well(k, v, u);
}

} // namespace

maybe_wish pass_gate(ui_state& u) {
  u.ticked.clear();
  open_side(u, "");
  return wish{payload{ready_told{gate_checks()}}};
}

maybe_wish draw_gate(kit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.planned && v.s.test);
  switch (u.page) {
  case page::sugar: return draw_packet(k, v, u);
  case page::wrong_sugar:
  case page::not_well: return draw_stop(k, v, u);
  case page::well: return draw_well(k, v, u);
  case page::things:
  case page::time:
  case page::agreed:
    if (!first_two_ticked(u)) return draw_intro(k, v, u);
    // Waiting may last the whole night; what it leads to may not rest on old answers.
    if (too_old(v, u) && (u.page == page::agreed || v.at.wall >= v.s.planned->what.start))
      return ask_again(k, v, u);
    return u.page == page::things ? draw_things(k, v, u) : draw_gate_time(k, v, u);
  default: return draw_intro(k, v, u);
  }
}

} // namespace qb
