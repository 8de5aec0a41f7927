// The reducer: one overload an event, no catch-all, so that a new event does not compile until it
// has a meaning.
#include "core/session/correct.hpp"
#include "core/session/going_on.hpp"
#include "core/session/most_rules.hpp"

#include <algorithm>

namespace qb::inline sessions {

state::state() = default;
state::state(const state&) = default;
state::state(state&&) noexcept = default;
state& state::operator=(const state&) = default;
state& state::operator=(state&&) noexcept = default;
state::~state() = default;

namespace {

// Of a plan, read already or not; none where it cannot be read.
frozen<protocol> rules_of(const plan_made& x) {
  if (x.rules) return x.rules;
  auto read = read_protocol(x.protocol_text);
  return read ? frozen<protocol>(std::move(*read)) : frozen<protocol>();
}

struct applier {
  state& s;
  const event& e;

  [[nodiscard]] noted_moment here() const { return {e.seq, e.at}; }
  [[nodiscard]] sample_state* sample(sample_number n) const {
    return n.index() < s.samples.size() ? &s.samples[n.index()] : nullptr;
  }

  [[nodiscard]] scores_after& after(score_time t) const {
    return s.after.at(static_cast<std::size_t>(t));
  }

  // The closing counts; an earlier one of the same tube is kept beside it.
  void take(sample_state& t, const taken_breath& breath) const {
    if (t.taken) t.earlier.push_back(*t.taken);
    t.taken = breath;
    t.again_when_due = false;
    t.repeat_reason.reset();
    t.label_done = false;
  }

  void operator()(const opened& x) const {
    s.opening = x;
    if (x.profile) {
      s.profile = x.profile;
    } else if (auto read = read_profile(x.profile_text)) {
      s.profile = std::move(*read);
    }
  }
  void operator()(const reported_person& x) const {
    s.person = x;
    s.person_seq = e.seq;
  }
  void operator()(const plan_made& x) const {
    if (s.grid) return; // once tube 1 is closed the grid stands
    frozen<protocol> rules = rules_of(x);
    if (!rules) return;
    if (s.planned) s.earlier_plans.push_back({*s.planned, e.at, false, "", e.seq});
    s.planned = x;
    s.planned_at = here();
    s.samples.assign(rules->samples(), sample_state{});
    s.after = {};
    s.test = std::move(rules);
    back_to_the_gate();
  }
  // What stood ready belonged to another start.
  void back_to_the_gate() const {
    s.ready.reset();
    s.ready_checks.clear();
    s.ready_not_kept.clear();
    s.ready_agreed.clear();
    s.ready_agreed_to.clear();
    s.ready_said_by.reset();
    s.packet.reset();
    s.sugar.reset();
    s.breath.reset();
  }
  void operator()(const reported_kit& x) const {
    s.kit = x;
    s.kit_seq = e.seq;
  }
  void operator()(const reported_caution& x) const {
    const auto same = [&](const noted_caution& t) { return is_same_question(t.what.rule, x.rule); };
    const auto found = std::find_if(s.cautions.begin(), s.cautions.end(), same);
    if (found == s.cautions.end() && s.cautions.size() == most_kept_rules) return;
    noted_caution& t = found == s.cautions.end() ? s.cautions.emplace_back() : *found;
    if (!t.seqs.empty() && takes_back(t.what, x))
      t.earlier.push_back(
          {t.seqs.back(), t.at.wall, t.what.answer, e.seq, e.at.wall, x.answer, x.outcome});
    t.seqs.push_back(e.seq);
    t.at = e.at;
    t.what = x;
    if (x.outcome != asked_outcome::not_asked && x.for_test.empty() && s.test)
      t.what.for_test = s.test->id; // said while this test was planned
    if (s.drink_start) weigh_after_the_drink(x);
  }
  // An answer that would have forbidden the drink, told when it was begun already.
  void weigh_after_the_drink(const reported_caution& x) const {
    if (!s.test || s.ended) return;
    if (const auto against = against_answer(s, *s.test, x)) against_the_drink(*against);
  }
  // What is known too late: what to do now comes first.
  void against_the_drink(const hindrance& h) const {
    auto& all = s.drunk_against;
    const bool known = std::find(all.begin(), all.end(), h) != all.end();
    if (!known && all.size() < most_kept_rules) all.push_back(h);
    if (!s.unwell) s.unwell = here();
  }
  void operator()(const reported_packet& x) const {
    s.packet = noted_packet{e.seq, e.at, x};
    if (!s.planned || !s.test) return;
    if (is_right_packet(s, x)) return take_back_packets();
    s.other_packets.push_back({*s.packet, 0, {}});
    if (s.drink_start && !s.ended) against_the_drink({hindrance_kind::packet_differs, ""});
  }
  void take_back_packets() const {
    for (noted_other_packet& other : s.other_packets) {
      if (other.until_seq != 0) continue;
      other.until_seq = e.seq;
      other.until = e.at.wall;
    }
  }
  void operator()(const reported_washout& x) const {
    const auto same = [&](const noted_washout& t) { return t.what.what.rule == x.what.rule; };
    const auto found = std::find_if(s.washouts.begin(), s.washouts.end(), same);
    if (found == s.washouts.end() && s.washouts.size() == most_kept_rules) return;
    noted_washout& t = found == s.washouts.end() ? s.washouts.emplace_back() : *found;
    if (!t.seqs.empty() && takes_back(t.what, x))
      t.earlier.push_back({t.seqs.back(), t.at.wall, t.what.what, e.seq, e.at.wall, x.what});
    t.seqs.push_back(e.seq);
    t.at = e.at;
    t.what = x;
  }
  void operator()(const plan_called_off& x) const {
    if (!s.planned || s.grid) return;
    s.earlier_plans.push_back({*s.planned, e.at, true, x.reason, e.seq});
    s.planned.reset();
    s.planned_at.reset();
    s.test.reset();
    s.samples.clear();
    s.after = {};
    back_to_the_gate();
  }
  void operator()(const reported_slip& x) const { s.slips.push_back({e.seq, e.at, x}); }
  void operator()(const reported_checklist& x) const { s.checklists.push_back({e.seq, e.at, x}); }
  void operator()(const reported_ready& x) const {
    s.ready = here();
    s.ready_checks = x.checks;
    s.ready_not_kept = x.not_kept;
    s.ready_agreed = x.agreed;
    s.ready_said_by = x.said_by;
    s.ready_agreed_to.clear();
    if (x.agreed.empty() || !s.planned) return;
    // What was agreed to is what was short then, and nothing that comes later.
    for (const rule_check& c : readiness_now(s, e.at)) {
      const bool shown =
          std::find(x.not_kept.begin(), x.not_kept.end(), c.rule) != x.not_kept.end();
      if (shown && needs_agreement(c)) s.ready_agreed_to.push_back(c.rule);
    }
  }
  void operator()(const sugar_set_aside&) const { s.sugar = here(); }
  void operator()(const reported_symptoms& x) const {
    sample_state* t = sample(x.sample);
    if (t == nullptr) return;
    t->symptoms = x;
    t->scored_by = s.scorer;
    t->symptom_events.push_back(e.seq);
  }
  void operator()(const reported_symptoms_after& x) const {
    scores_after& t = after(x.when);
    if (x.scores.empty() && t.given()) return; // what was given is not put off any more
    if (!t.given() && !x.scores.empty()) t.at = e.at;
    t.told = x;
    t.scored_by = s.scorer;
    t.events.push_back(e.seq);
    if (!x.scores.empty()) s.exported_at.reset(); // what was handed over does not have it
  }
  void operator()(const breath_begun& x) const {
    if (sample(x.sample) != nullptr) s.breath = breath_in_progress{x.sample, e.at, false};
  }
  void operator()(const breath_abandoned&) const { s.breath.reset(); }
  // When the guide of the breath in progress said "close", on the wall clock as it stands.
  [[nodiscard]] std::optional<instant> guide_end(sample_number n) const {
    if (!s.breath || s.breath->sample != n || !s.test || !s.profile) return std::nullopt;
    const duration since = between(s.breath->began, e.at).length;
    const duration guide = before_blowing(s) + s.test->breath_most;
    if (since < guide) return std::nullopt;
    return e.at.wall - (since - guide);
  }
  void operator()(const tube_closed& x) const {
    sample_state* t = sample(x.sample);
    const auto guide = guide_end(x.sample);
    s.breath.reset();
    if (t == nullptr) return;
    // Before the drink a repeat of tube 1 sets the anchor anew; after it nothing does.
    const bool anchors = x.sample == sample_number(1) && !s.drink_start;
    if (anchors || !s.grid) s.grid = grid_state{e.seq, e.at, time_line(e.at)};
    const elapsed since = s.grid->at(e.at);
    take(*t, {e.seq, e.at.wall, e.at.offset, since.length, since.how, how_known::observed, guide});
  }
  // The grid is anchored at a time that was told, which no boot clock saw.
  void anchor_at(instant told, bool from_drink) const {
    clock_reading anchor = e.at;
    anchor.wall = told;
    anchor.boot.reset();
    anchor.boot_id.clear();
    s.grid = grid_state{e.seq, anchor, time_line(e.at, between(anchor, e.at))};
    s.grid->from_drink = from_drink;
  }
  void operator()(const reported_breath& x) const {
    sample_state* t = sample(x.sample);
    if (t == nullptr) return;
    const auto guide = guide_end(x.sample);
    if (s.breath && s.breath->sample == x.sample) s.breath.reset();
    if (!s.grid && x.sample != sample_number(1)) return;
    // Tube 1 was blown while nobody watched: the anchor is the told time.
    if (!s.grid) anchor_at(x.closed, false);
    // How long ago it was, by the clock now, counted back from where the grid stands now.
    const elapsed since = s.grid->at(e.at);
    const duration ago = e.at.wall - x.closed;
    take(*t, {e.seq, x.closed, e.at.offset, since.length - ago, certainty::by_wall, x.how, guide});
  }
  void operator()(const repeat_wanted& x) const {
    if (sample_state* t = sample(x.sample)) t->repeat_reason = x.reason;
  }
  void operator()(const reported_spoil& x) const {
    sample_state* t = sample(x.sample);
    if (t == nullptr || !t->taken) return;
    s.spoils.push_back({e.seq, t->taken->seq, x});
    if (x.what.empty()) t->repeat_reason.reset(); // nothing went wrong: it stays as it is
  }
  void operator()(const label_written& x) const {
    if (sample_state* t = sample(x.sample)) t->label_done = true;
  }
  void operator()(const drink_started&) const {
    if (s.drink_start) return;
    weigh_the_drink(e.at.wall);
    s.drink_start = here();
  }
  // A drink against the judgement is a fact like any; what is to be done now comes first.
  void weigh_the_drink(instant started) const {
    s.drunk_against = s.test ? hindrances(s, e.at) : against_last_plan();
    const auto erase = [&](bool (*is)(const hindrance&)) {
      auto& all = s.drunk_against;
      all.erase(std::remove_if(all.begin(), all.end(), is), all.end());
    };
    // Signs that were not asked say nothing against the sugar; they are asked all the same.
    erase([](const hindrance& h) { return h.what == hindrance_kind::signs_unasked; });
    const bool by_the_window_alone = s.test && s.test->version < protocol::with_safety;
    if (by_the_window_alone || was_judged_before_loss(started)) {
      // Then the gate was the window's alone, or was asked before its answers were lost: what is
      // left open is in the other findings.
      erase([](const hindrance& h) {
        return !has_own_page(h) || h.what == hindrance_kind::old_rules;
      });
    }
    const bool against = !s.planned || !s.drunk_against.empty();
    if (against && !s.unwell) s.unwell = here();
  }
  // Whether a drink was begun before answers were lost that the judgement had then: entries are
  // missing before this one, or it is told of a time before the record was read again.
  [[nodiscard]] bool was_judged_before_loss(instant started) const {
    const bool has_holes =
        !s.lost.empty() && (s.salvaged.empty() || s.salvaged.back().seq < s.lost.back());
    return has_holes || (s.back_after_loss && started < *s.back_after_loss);
  }
  // Drunk when the plan was called off: what was answered stands against that sugar all the same.
  [[nodiscard]] std::vector<hindrance> against_last_plan() const {
    std::vector<hindrance> all;
    if (s.earlier_plans.empty()) return all;
    const frozen<protocol> rules = rules_of(s.earlier_plans.back().what);
    if (!rules) return all;
    for (const noted_caution& told : s.cautions) {
      if (auto against = against_answer(s, *rules, told.what)) all.push_back(*against);
    }
    return all;
  }
  void operator()(const drink_ended& x) const {
    s.drink_end = here(); // told again where the first press was too soon; the latest counts
    s.drank_all = x.all_of_it;
  }
  void operator()(const reported_drink& x) const {
    if (s.drink_start) return;
    weigh_the_drink(x.started);
    s.breath.reset();
    if (!s.grid && s.test) anchor_at(x.started, true);
    // As far back as it was told, by the clocks of now.
    clock_reading started = e.at;
    const duration ago = e.at.wall - x.started;
    started.wall -= ago;
    if (started.boot) *started.boot -= ago;
    s.drink_start = noted_moment{e.seq, started};
    s.drink_start_how = x.how;
  }
  void operator()(const reported_drink_trouble& x) const {
    s.drink_troubles.push_back({e.seq, e.at, x});
  }
  void operator()(const corrected& x) const {
    correct(s, e, x);
    s.exported_at.reset(); // what was handed over does not have it
  }
  void operator()(const reported_scorer& x) const { s.scorer = x; }
  void operator()(const reported_red_flags& x) const {
    s.signs_seq = e.seq;
    if (x.after) {
      scores_after& t = after(*x.after);
      if (t.told) t.signs_asked_at = t.told->scores;
      add_signs(t.red_flags, x);
    } else if (sample_state* t = sample(x.sample)) {
      if (t->symptoms) t->signs_asked_at = t->symptoms->scores;
      add_signs(t->red_flags, x);
    }
    keep_signs(x);
    if (x.present.empty()) return;
    if (!s.unwell) s.unwell = here();
    s.breath.reset();
  }
  // What was told at a moment stays, also where it is asked there once more.
  static void add_signs(std::optional<reported_red_flags>& told, const reported_red_flags& x) {
    reported_red_flags all = x;
    const auto add = [&](const std::string& id) {
      auto& present = all.present;
      if (std::find(present.begin(), present.end(), id) == present.end()) present.push_back(id);
    };
    if (told) std::for_each(told->present.begin(), told->present.end(), add);
    told = std::move(all);
  }
  // A sign that was told stays until the person says that all has passed; one that is final, for
  // good.
  void keep_signs(const reported_red_flags& x) const {
    std::optional<reported_red_flags> all;
    if (s.warnings) all = s.warnings->what;
    add_signs(all, x);
    s.warnings = noted_warnings{e.seq, e.at, std::move(*all)};
    if (!s.test) return;
    for (const warning_sign& sign : s.test->warnings.signs) {
      const auto& present = x.present;
      if (sign.is_final && std::find(present.begin(), present.end(), sign.id) != present.end())
        s.final_sign = true;
    }
  }
  void operator()(const reported_comment& x) const { s.comments.emplace_back(e.seq, x.words); }
  void operator()(const reported_unwell&) const {
    s.unwell = here();
    s.unwell_events.push_back(e.seq);
    s.breath.reset();
  }
  void operator()(const unwell_over&) const {
    s.unwell.reset();
    s.warnings.reset();
  }
  void operator()(const test_ended& x) const {
    if (s.ended || !s.planned) return; // without a plan there is nothing to end
    s.ended = here();
    s.ended_reason = x.reason;
    s.breath.reset();
    s.unwell.reset();
  }
  void operator()(const resumed&) const {
    s.resumes.push_back(e.seq);
    if (s.breath) s.breath->interrupted = true;
  }
  void operator()(const clock_changed& x) const {
    s.clock_changes.push_back({e.seq, x.what, e.at, s.last_reading});
  }
  void operator()(const exported&) const { s.exported_at = here(); }
  void operator()(const entry_lost&) const { s.lost.push_back(e.seq); }
  void operator()(const record_salvaged& x) const {
    s.salvaged.push_back({e.seq, e.at, x});
    s.exported_at.reset(); // what was handed over does not have it
    if (x.complete || s.drink_start || s.ended) return;
    s.lost_by = e.seq;
    s.ask_again = x.ask_again;
    s.back_after_loss.reset();
    back_to_the_gate();
  }
};

} // namespace

namespace {

void fold_in(state& s, const event& e) {
  if (s.lost_by != 0 && !s.back_after_loss) s.back_after_loss = e.at.wall;
  std::visit(applier{s, e}, e.what);
  if (s.grid) {
    const duration by = s.grid->line.go_on(e.at);
    if (by != duration{0}) s.grid->anew.push_back({e.seq, by});
  }
  s.seq = e.seq;
  s.last_reading = e.at;
}

} // namespace

state apply(state s, const event& e) {
  fold_in(s, e);
  return s;
}

state fold_events(const std::vector<event>& events) {
  state s;
  for (const event& e : events)
    fold_in(s, e);
  return s;
}

} // namespace qb::inline sessions
