// Calling the person: the device kept awake, the cues, the page in swapped colours, and what of it
// stands in the record.
#include "app/patient/shell/shell.hpp"

#include "app/machine/clocks.hpp"
#include "app/patient/screens/gate/gate_pages.hpp"

namespace qb {

namespace {

// At the gate's list the answer is already wanted, because the list speaks of it. Waiting for the
// planned start may take the whole night, in which the device may sleep.
bool at_gate(const now_answer& now, const ui_state& u) {
  const bool shown = u.open == "gate" || (u.open.empty() && now.what == step::gate);
  return shown && u.page >= gate_page::things && u.page != gate_page::time;
}

} // namespace

attention shell::how_called() const {
  const auto silent = ui_.text.find(draft::silent);
  return {cues_.has_sound(), silent != ui_.text.end() && silent->second == "yes", awake_.held()};
}

void shell::keep_awake(const now_answer& now) {
  if (is_under_way(current(), now) || at_gate(now, ui_)) {
    awake_.hold("Quarterbreath", words_("attention.why-awake"));
  } else {
    awake_.let_go();
  }
}

// A new look shows from the next frame on: this one's paper is already laid.
bool shell::call_person(toolkit& k, const now_answer& now) {
  cues_.set_silent(how_called().silent);
  if (k.pressed()) cues_.acknowledge();
  cues_.follow(now, since_boot()); // runs on evenly, whatever a practice clock does
  const bool calls = screen_calls(now, how_called());
  if (calls == usual_look_.has_value()) return false;
  if (calls) {
    usual_look_ = k.colours().kind;
    k.set_look(make_theme(swapped_look(*usual_look_)));
  } else {
    k.set_look(make_theme(*usual_look_));
    usual_look_.reset();
  }
  return true;
}

// Refused by the disk, it is told again in a later frame; nobody has to be troubled with it.
void shell::tell_attention(const now_answer& now, const clock_reading& r) {
  if (!running_ || !unwritten_.empty()) return;
  if (const auto told = attention_to_report(current(), now, how_called()))
    (void)running_->session().submit(command{*told}, r);
}

} // namespace qb
