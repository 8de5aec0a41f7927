// The machine, the cues and the look asked in turn.
#include "app/patient/shell/calling.hpp"

namespace qb::inline shells {

namespace {

// At the gate's list the answer is already wanted, because the list speaks of it. Waiting for the
// planned start may take the whole night, in which the device may sleep.
bool at_gate(const now_answer& now, const ui_state& u) {
  const bool shown = u.nav.open == side_page::gate || (!u.nav.is_side() && now.what == step::gate);
  const gate_page page = u.nav.page_in<gate_page>();
  const bool before_the_list =
      page == gate_page::intro || page == gate_page::sugar || page == gate_page::morning;
  return shown && !before_the_list && page != gate_page::time;
}

} // namespace

attention calling::how(const ui_state& u) const {
  return {cues_.has_sound(), u.drafts.silent, machine_.awake().held};
}

void calling::keep_awake(const state& s, const now_answer& now, const ui_state& u,
                         const std::string& why) {
  if (is_under_way(s, now) || at_gate(now, u)) {
    machine_.stay_awake("Quarterbreath", why);
  } else {
    machine_.let_sleep();
  }
}

bool calling::call(toolkit& k, const now_answer& now, const ui_state& u, duration evenly) {
  cues_.set_silent(how(u).silent);
  if (k.pressed()) cues_.acknowledge();
  cues_.follow(now, evenly);
  const bool calls = screen_calls(now, how(u));
  if (calls == usual_.has_value()) return false;
  if (calls) {
    usual_ = k.colours().kind;
    k.set_look(make_theme(swapped_look(*usual_)));
  } else {
    k.set_look(make_theme(*usual_));
    usual_.reset();
  }
  return true;
}

bool calling::may_go_dark() const {
  const awake_answer a = machine_.awake();
  return a.asked && !a.held;
}

} // namespace qb::inline shells
