// Drawing a frame, and what a screen is given.
#include "app/patient/shell/shell.hpp"
#include "app/patient/shell/trial.hpp"

#include "app/assets/zone_files.hpp"
#include "app/patient/screens/places.hpp"
#include "app/patient/shell/draft_rows.hpp"
#include "app/patient/shell/preview.hpp"

#include <algorithm>
#include <limits>

namespace qb::inline shells {

namespace {

constexpr int practice_pace = 10; // practice seconds a second, except while a breath is guided

bool keeps_pace(step s) {
  return s == step::lead_in || s == step::hold_breath || s == step::blowing || s == step::close;
}

} // namespace

const state& shell::current() const {
  if (recovery_.holds(running_)) return recovery_.shown();
  return running_ ? running_->session().current() : nothing_;
}

// Those the person agreed to; before that the device's own.
const lab_profile& shell::terms() const {
  const state& s = current();
  return s.profile ? *s.profile : data_.profile.value;
}

double shell::frame(toolkit& k, float width, float height) {
  const frame_time m = clock_.look(machine_);
  k.set_deaf(hand_.deaf(m.evenly.count()));
  k.begin_frame(width, height);
  const double next = draw(k, m);
  k.end_frame();
  hand_.saw(k.seen().screen, k.pressed(), m.evenly.count());
  constexpr double held = 1.0 / 60; // a held stepper repeats by frames
  return k.wants_frames() ? held : next;
}

double shell::draw(toolkit& k, const frame_time& m) {
  if (running_) running_->session().settle();
  const clock_reading& r = m.now;
  if (recovery_.needed(running_)) recovery_.try_again(running_, machine_.durable());
  recovery_.settle(running_);
  watch_saving(m);
  keep_beside_record();
  write_what_waits(m); // before anything of this frame is worked out
  keep_shared(m);
  const now_answer now = what_now(current(), r);
  set_pace(now);
  if (now.what == step::choose || ui_.nav.open == side_page::choose)
    preview_ = preview_plan(ui_.drafts.plan, current(), data_.tests, r.wall, clock_.place());
  find_plan_zone();
  writing_.look_for_places(ui_, terms().kiosk.has_value());
  make_codes();
  if (!on_paper_) calling_.keep_awake(current(), now, ui_, data_.texts("attention.why-awake"));
  const navigation before = ui_.nav;
  const maybe_wish w = draw_screen(k, make_view(now, r), ui_);
  if (left_place_page(before, ui_.nav)) trouble_.clear();
  keep_drafts();
  const bool swapped = !on_paper_ && calling_.call(k, now, ui_, m.evenly);
  report_attention(now, r);
  if (w) carry_out(*w, m);
  return w || swapped ? 0 : wanted_in(now);
}

double shell::wanted_in(const now_answer& now) const {
  constexpr double soon = 0.1; // what is to be written waits for its page to be read
  if (writing_.waiting() || saving() || recovery_.rewriting(running_)) return soon;
  constexpr double look_again = 1.0; // a drive that is plugged in is seen within a second
  constexpr double a_minute = 60.0;  // a shared device looks whether a test is to be erased
  const double next = std::min(seconds_to_next(now), calling_.wanted_in());
  if (asks_for_place(ui_.nav.open) || (shared_ && shared_->left)) return std::min(next, look_again);
  return terms().kiosk ? std::min(next, a_minute) : next;
}

// A plan keeps its instants when the device comes to another zone; both times are shown then.
void shell::find_plan_zone() {
  if (!current().planned) return;
  const std::string& name = current().planned->what.zone_name;
  if (name == clock_.place().name() || (plan_zone_ && plan_zone_->name() == name)) return;
  if (auto read = load_zone(name)) plan_zone_ = std::move(*read);
}

view shell::make_view(const now_answer& now, const clock_reading& r) const {
  const state& s = current();
  view v{s, now, r, clock_.place(), data_.texts, data_.tests, terms(), preview_, {}, "", ""};
  v.places = writing_.places();
  v.written = writing_.written();
  v.writing_to = writing_.writing_to();
  v.label_sheet = data_.labels.name;
  v.shared = shared_;
  v.others = has_others();
  v.tubes_gone = tubes_gone_;
  v.salvaged = salvaged_;
  v.on_paper = on_paper_;
  v.codes = codes_;
  v.kept_in = options_.data;
  tell_trouble(v);
  v.off = off_;
  v.due_while_off = due_while_off_;
  v.practice = clock_.practice();
  v.trial = v.practice && is_trial(v.s);
  v.can_practise = practice_allowed(r);
  v.sound = calling_.has_sound();
  v.sound_lost = calling_.sound_lost();
  v.may_go_dark = calling_.may_go_dark();
  if (plan_zone_ && s.planned && s.planned->what.zone_name == plan_zone_->name())
    v.plan_zone = &*plan_zone_;
  return v;
}

void shell::tell_trouble(view& v) const {
  v.disk_failed = recovery_.holds(running_) || draft_refused_;
  v.trouble = v.disk_failed  ? data_.texts("trouble.disk")
              : saving_told_ ? data_.texts("trouble.saving")
                             : "";
  const auto also = [&](const std::string& words) {
    v.trouble += (v.trouble.empty() || words.empty() ? "" : " ") + words;
  };
  also(trouble_);
  if (!recovery_.holds(running_)) {
    for (const put_aside& one : recovery_.aside())
      also(data_.texts(one.noted ? "trouble.noted" : "trouble.not-kept",
                       {{"at", clock_text(clock_.place().civil_at(one.pressed))}}));
  }
  const auto paper = recovery_.paper();
  if (!paper) return;
  v.paper_what = data_.texts(paper->key, {{"n", paper->tube}});
  v.paper_time = clock_text(clock_.place().civil_at(paper->at));
}

// A countdown wants a frame when its next second begins, a guided breath several; where nothing
// counts, the next change of the answer, and where there is none, only an input.
double shell::seconds_to_next(const now_answer& now) const {
  constexpr double guided = 0.1;
  constexpr double second = 1.0;
  if (keeps_pace(now.what) && now.phase_left) return guided;
  if (recovery_.needed(running_)) return second;
  const double pace = clock_.rate();
  const bool counts = now.to_due && (now.what == step::wait || now.what == step::heads_up ||
                                     now.what == step::breathe || now.what == step::prepare ||
                                     now.what == step::gate);
  const bool counted = counts || now.what == step::rest;
  if (counted && pace > 1) return second;
  if (counted) {
    const auto part = (*now.to_due - std::chrono::floor<std::chrono::seconds>(*now.to_due)).count();
    return part == 0 ? second : static_cast<double>(part) / 1000.0 + 0.005;
  }
  if (!now.next_change) return std::numeric_limits<double>::infinity();
  return static_cast<double>(now.next_change->count()) / 1000.0 / pace + 0.005;
}

void shell::set_pace(const now_answer& now) {
  if (!clock_.practice()) return;
  const int wanted = keeps_pace(now.what) ? 1 : practice_pace;
  if (clock_.rate() != wanted) clock_.set_rate(wanted);
}

void shell::keep_drafts() {
  if (!running_ || recovery_.holds(running_)) return;
  // A draft that cannot be kept is said as a fact is that cannot: it is the same disk.
  draft_rows rows = rows_of(ui_.drafts);
  if (clock_.practice()) rows[practice_base_row] = practice_base_text(clock_.base());
  draft_refused_ = !running_->save_drafts(rows);
}

} // namespace qb::inline shells
