// The checks, one overload a command, no catch-all.
#include "core/session/decide.hpp"

#include "core/protocol/grid.hpp"
#include "core/session/decide_report.hpp"
#include "core/session/going_on.hpp"
#include "core/session/keeping.hpp"
#include "core/session/limits.hpp"
#include "core/session/other_sugars.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sessions {

namespace {

const verdict fine = std::nullopt;

struct checker {
  const state& s;
  const clock_reading& now;

  [[nodiscard]] verdict running() const {
    if (s.ended) return no("no.ended", "This test has ended.");
    if (!s.planned || !s.test) return no("no.plan-first", "Choose the test and its start first.");
    return fine;
  }
  [[nodiscard]] verdict known(sample_number n) const {
    if (n.index() >= s.samples.size())
      return bad("no.no-such-tube", fmt::format("This test has no tube {}.", n.value()));
    return fine;
  }
  [[nodiscard]] verdict running_and_known(sample_number n) const {
    if (auto v = running()) return v;
    return known(n);
  }

  verdict operator()(const opened& x) const {
    if (s.opening) return no("no.opened", "This test is already open.");
    const auto read = read_profile(x.profile_text);
    if (!read) return read.error();
    return fine;
  }
  verdict operator()(const reported_person& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    for (const std::string* text : {&x.name, &x.kit_number}) {
      if (auto v = fits(*text, false)) return v;
    }
    if (x.kit_number.size() > most_kit_number)
      return bad("no.kit-long", "Please check the kit number: it is too long.");
    for (const std::string* text : {&x.doctor, &x.laboratory}) {
      if (auto v = fits(*text, true)) return v;
    }
    if (!x.birth_date.ok() || !parse_date(date_text(x.birth_date)))
      return bad("no.birth-date", "Please check the date of birth.");
    return fine;
  }
  verdict operator()(const plan_made& x) const {
    if (!s.person) return no("no.who-first", "Tell us who you are first.");
    if (s.ended) return no("no.ended", "This test has ended.");
    if (s.grid || s.drink_start)
      return no("no.started", "The test has started. Its times cannot change now.");
    const auto read = read_protocol(x.protocol_text);
    if (!read) return read.error();
    if (read->version < protocol::with_safety)
      return no("no.rules-of-old", "These rules are of an earlier version. Please call the "
                                   "laboratory.");
    if (!follows(x.what, *read) || find_form(*read, x.form) == nullptr)
      return bad("no.plan", "This plan does not follow from the rules of its test.");
    if (s.profile && !grid_fits(*read, *s.profile))
      return no("no.grid-fits", "The times of this test do not fit your laboratory's rules. Please "
                                "call the laboratory.");
    if (wants_trying_said(s))
      return no("no.for-trying", "This laboratory is invented. Please say first that you are only "
                                 "trying.");
    return first_of(
        against_plan(s, *read, plus_days(x.what.post_on_or_before, -read->post_within)));
  }
  // The refusal that names the weightiest of what stands against it.
  [[nodiscard]] verdict first_of(const std::vector<hindrance>& all) const {
    return all.empty() ? fine : refusal_of(s, all.front());
  }
  // Asked for whatever leads on towards the sugar, the first tube or the drink's beginning.
  [[nodiscard]] verdict may_go_on() const { return first_of(hindrances(s, now)); }
  verdict operator()(const reported_kit& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    if (s.drink_start)
      return no("no.started", "The test has started. Its times cannot change now.");
    if (!x.expires.ok() || !parse_date(date_text(x.expires)))
      return bad("no.date", "Please check the date.");
    for (const std::string* text : {&x.code, &x.kit_number, &x.protocol_id}) {
      if (auto v = fits(*text, false)) return v;
    }
    return fine;
  }
  verdict operator()(const reported_caution& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    if (s.ended) return no("no.ended", "This test has ended.");
    if (auto v = fits(x.rule, false)) return v;
    const bool asked = x.outcome != asked_outcome::not_asked;
    if (asked && x.who.empty()) return bad("no.who-answered", "Please say who answered.");
    if (auto v = fits(x.who, true)) return v;
    if (auto v = may_release(x)) return v;
    const noted_caution* told = find_noted_caution(s, x.rule);
    if (told != nullptr && takes_back(told->what, x) && !x.asked_again) return ask_again();
    return fits(x.words, true);
  }
  [[nodiscard]] static verdict ask_again() {
    return no("no.ask-again", "Please read the whole question once more first.");
  }
  // Whether whoever said to go on is somebody who may, where the test is known.
  [[nodiscard]] verdict may_release(const reported_caution& x) const {
    if (x.outcome != asked_outcome::go_on) return fine;
    if (!x.said_by)
      return bad("no.who-may-say", "Please say whether a doctor or the laboratory "
                                   "said so.");
    if (x.for_test.empty() && !s.test)
      return bad("no.which-test", "Please say which test they meant.");
    if (!s.test) return fine;
    const caution* own = find_caution(*s.test, x.rule);
    const caution asked = own != nullptr ? *own : asked_of_another_sugar(x.rule);
    if ((own != nullptr || !is_sugar_known(s)) && is_open(*s.test, asked, x))
      return no("no.may-not-say", "Nobody can say this for this test. Please call the laboratory.");
    return fine;
  }
  verdict operator()(const reported_packet& x) const {
    if (auto v = running()) return v;
    if (x.amount < 0 || x.amount > most_amount) return bad("no.amount", "Please check the amount.");
    for (const std::string* text : {&x.name, &x.unit, &x.words}) {
      if (auto v = fits(*text, true)) return v;
    }
    if (is_right_packet(s, x) && other_packet_standing(s) != nullptr && !x.asked_again)
      return ask_again();
    return fine;
  }
  verdict operator()(const reported_washout& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    if (s.ended) return no("no.ended", "This test has ended.");
    if (auto v = fits(x.what.rule, false)) return v;
    const bool dated =
        x.what.answer == washout_answer::last_on || x.what.answer == washout_answer::until;
    const bool has_date = x.what.on && x.what.on->ok() && parse_date(date_text(*x.what.on));
    if (dated != has_date) return bad("no.date", "Please check the date.");
    if (x.what.agreed && x.who.empty()) return bad("no.who-answered", "Please say who answered.");
    if (x.what.agreed && !x.said_by)
      return bad("no.who-may-say", "Please say whether a doctor or the laboratory "
                                   "said so.");
    const noted_washout* told = find_noted_washout(s, x.what.rule);
    if (told != nullptr && takes_back(told->what, x) && !x.asked_again) return ask_again();
    const washout* asked = s.test ? find_washout(*s.test, x.what.rule) : nullptr;
    if (asked != nullptr && rests_on_no_word(*asked, x)) return no_word();
    return fits(x.who, true);
  }
  [[nodiscard]] static verdict no_word() {
    return no("no.not-agreed", "Please first ask someone who may agree to this.");
  }
  verdict operator()(const plan_called_off& x) const {
    if (auto v = running()) return v;
    if (s.grid) return no("no.started", "The test has started. Its times cannot change now.");
    return fits(x.reason, true);
  }
  verdict operator()(const reported_slip& x) const {
    if (auto v = running()) return v;
    if (x.when > now.wall) return bad("no.future", "This time is still to come.");
    if (auto v = fits(x.rule, false)) return v;
    if (auto v = fits(x.subject, true)) return v;
    return fits(x.words, true);
  }
  verdict operator()(const reported_checklist& x) const {
    // A shared device keeps a test that is over, or was never planned, as well.
    const bool at_any_time = (x.name == kept_list || x.name == trying_list) && s.opening;
    if (auto v = running(); v && !at_any_time) return v;
    if (auto v = fits(x.name, false)) return v;
    return all_fit(x.items);
  }
  verdict operator()(const reported_ready& x) const {
    if (auto v = running()) return v;
    if (s.drink_start)
      return no("no.started", "The test has started. Its times cannot change now.");
    for (const std::string& wanted : gate_checks()) {
      if (std::find(x.checks.begin(), x.checks.end(), wanted) == x.checks.end())
        return no("no.gate", "Please check every line first. Until then the sugar stays closed.");
    }
    if (auto v = all_fit(x.checks)) return v;
    if (auto v = all_fit(x.not_kept)) return v;
    if (auto v = fits(x.agreed, true)) return v;
    if (!x.agreed.empty() && !may_agree(x.said_by))
      return bad("no.who-may-say", "Please say whether a doctor or the laboratory "
                                   "said so.");
    return first_of(hindrances_with(s, now, x));
  }
  // A rule of food or time is the laboratory's to waive, or the doctor's who asked for the test; a
  // medicine has its own, which the judgement looks at.
  [[nodiscard]] static bool may_agree(const std::optional<releaser>& who) {
    return who == releaser::laboratory || who == releaser::doctor;
  }
  verdict operator()(const sugar_set_aside&) const {
    if (auto v = running()) return v;
    if (s.drink_start) return no("no.drink-started", "The drink has already been started.");
    return s.ready ? may_go_on() : no("no.gate", "Please check every line first.");
  }
  verdict operator()(const reported_symptoms& x) const {
    if (auto v = running_and_known(x.sample)) return v;
    return told_scores(x.scores, x.comment);
  }
  verdict operator()(const reported_symptoms_after& x) const {
    if (auto v = running()) return v;
    const auto due = due_since_anchor(s, x.when);
    if (!due) return bad("no.scores-after", "These scores are not asked in this test.");
    // To put them off is heard at any time.
    if (!x.scores.empty() && *due > s.grid->at(now).length)
      return no("no.scores-early", "It is too early for these scores. Please wait until we ask.");
    return told_scores(x.scores, x.comment);
  }
  [[nodiscard]] verdict told_scores(const std::vector<symptom_score>& scores,
                                    const std::string& comment) const {
    for (const symptom_score& score : scores) {
      const auto same = [&](const symptom& y) { return y.id == score.id; };
      const auto& asked = s.test->symptoms;
      if (std::none_of(asked.begin(), asked.end(), same))
        return bad("no.symptom", "This symptom is not asked in this test.");
      if (score.score && (*score.score < s.test->score_least || *score.score > s.test->score_most))
        return bad("no.score",
                   fmt::format("A score is {} to {}.", s.test->score_least, s.test->score_most));
    }
    return fits(comment, true);
  }
  verdict operator()(const breath_begun& x) const {
    if (auto v = running_and_known(x.sample)) return v;
    if (s.breath) return no("no.breath-running", "You have begun a breath. Finish it first.");
    if (!s.sugar) return no("no.sugar-first", "First get the sugar ready. Do not drink it yet.");
    if (!s.drink_start) {
      if (auto v = may_go_on()) return v;
    }
    const sample_state& t = s.of(x.sample);
    if (wanted_repeat(s) == x.sample) return fine;
    if (t.taken && !t.again_when_due) return no("no.taken", "This tube is already closed.");
    if (x.sample == sample_number(1) && !s.grid) return fine;
    if (!s.grid) return no("no.tube-1-first", "Tube 1 comes first.");
    const now_answer a = what_now(s, now);
    for (sample_number missed : a.missed) {
      if (missed == x.sample) return no("no.missed", "This tube's time is over. Leave it empty.");
    }
    const duration to_due = s.test->offset_of(x.sample) - s.grid->at(now).length;
    if (to_due > bounds_of(s).early)
      return no("no.too-early", "It is too early for this tube. Please wait until we say so.");
    return fine;
  }
  verdict operator()(const breath_abandoned& x) const {
    if (!s.breath || s.breath->sample != x.sample)
      return no("no.no-breath", "No breath is being taken.");
    return fits(x.reason, true);
  }
  verdict operator()(const tube_closed& x) const {
    if (auto v = running_and_known(x.sample)) return v;
    if (!s.breath || s.breath->sample != x.sample)
      return no("no.no-breath", "No breath is being taken.");
    if (!s.drink_start) {
      if (auto v = may_go_on()) return v;
    }
    const duration since = between(s.breath->began, now).length;
    if (since < before_blowing(s) + s.test->breath_least)
      return no("no.too-short", "That was too short. Keep blowing until we say so.");
    if (what_now(s, now).what == step::unsure)
      return no("no.unsure", "That is some time ago. Please say when you closed the tube.");
    return fine;
  }
  verdict operator()(const reported_breath& x) const {
    if (auto v = running_and_known(x.sample)) return v;
    if (x.closed > now.wall) return bad("no.future", "This time is still to come.");
    if (!s.grid && !s.sugar)
      return no("no.sugar-first", "First get the sugar ready. Do not drink it yet.");
    if (!s.grid && x.sample != sample_number(1))
      return no("no.tube-1-first", "Tube 1 comes first.");
    if (s.grid && x.sample != sample_number(1) && x.closed <= s.grid->anchor.wall &&
        s.clock_changes.empty())
      return bad("no.before-tube-1", "This is before tube 1. Please check the time.");
    return fine;
  }
  verdict operator()(const repeat_wanted& x) const {
    if (auto v = running_and_known(x.sample)) return v;
    if (!s.of(x.sample).taken) return no("no.not-taken", "This tube has not been filled yet.");
    if (s.breath) return no("no.breath-running", "You have begun a breath. Finish it first.");
    if (!may_repeat(s, x.sample))
      return no("no.repeat-late", "It is too late to blow into this tube again. "
                                  "Write a note for the laboratory instead.");
    return fits(x.reason, true);
  }
  verdict operator()(const reported_spoil& x) const {
    if (!s.planned || !s.test) return no("no.plan-first", "Choose the test and its start first.");
    if (auto v = known(x.sample)) return v;
    const auto& taken = s.of(x.sample).taken;
    if (!taken) return no("no.not-taken", "This tube has not been filled yet.");
    if (x.what.empty() && spoil_of(s, *taken) == nullptr)
      return no("no.nothing-to-take-back", "Nothing was told of this breath.");
    if (!x.what.empty() && find_spoil(*s.test, x.what) == nullptr)
      return bad("no.spoil", "This cannot be told in this test.");
    return fits(x.words, true);
  }
  verdict operator()(const label_written& x) const {
    if (auto v = known(x.sample)) return v;
    return s.of(x.sample).taken ? fine : no("no.not-taken", "This tube has not been filled yet.");
  }
  verdict operator()(const drink_started&) const {
    if (auto v = running()) return v;
    if (s.drink_start) return no("no.drink-started", "The drink has already been started.");
    if (!s.grid) return no("no.tube-1-first", "Tube 1 comes first. Do not drink yet.");
    if (!s.ready) return no("no.gate", "Please check every line first.");
    if (auto v = may_go_on()) return v;
    return s.breath ? no("no.breath-running", "You have begun a breath. Finish it first.") : fine;
  }
  verdict operator()(const drink_ended&) const {
    if (!s.drink_start) return no("no.drink-not-started", "The drink has not been started.");
    const bool later_tube = s.samples.size() > 1 && s.samples[1].taken;
    if (s.drink_end && later_tube) return no("no.drink-ended", "The drink is already finished.");
    return fine;
  }
  // The four that are never refused: they say what is so, and safety rests on them.
  verdict operator()(const reported_drink& x) const { return may_tell(s, x); }
  verdict operator()(const reported_drink_trouble& x) const { return may_tell(s, x, now); }
  verdict operator()(const corrected& x) const { return may_tell(s, x, now); }
  verdict operator()(const reported_scorer& x) const { return may_tell(s, x); }
  verdict operator()(const reported_red_flags& x) const { return may_tell(s, x); }
  verdict operator()(const reported_comment& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    return fits(x.words, false);
  }
  verdict operator()(const reported_unwell&) const {
    return s.opening ? fine : no("no.not-open", "Open the test first.");
  }
  verdict operator()(const unwell_over& x) const {
    if (!s.unwell) return no("no.not-unwell", "You have not told us that you feel unwell.");
    if (!s.ended && !may_feel_well_again(s))
      return no("no.final-sign", "Please get help now. This test cannot go on.");
    if (wants_signs_told(s))
      return no("no.signs-first", "Please say first whether any warning sign is there.");
    if (!s.ended && has_warning_signs(s) && !x.passed)
      return no("no.not-passed", "Please say first that all of it is gone.");
    return fine;
  }
  verdict operator()(const test_ended& x) const {
    if (!s.opening) return no("no.not-open", "Open the test first.");
    return fits(x.reason, false);
  }
  verdict operator()(const resumed&) const {
    return s.opening ? fine : no("no.not-open", "Open the test first.");
  }
  verdict operator()(const clock_changed&) const {
    return s.opening ? fine : no("no.not-open", "Open the test first.");
  }
  // Not a person's to tell: whoever reads a damaged record again writes them.
  verdict operator()(const entry_lost&) const { return no("no.not-told", "Nobody tells this."); }
  verdict operator()(const record_salvaged&) const {
    return no("no.not-told", "Nobody tells this.");
  }
  verdict operator()(const exported&) const {
    return s.planned ? fine : no("no.plan-first", "Choose the test and its start first.");
  }
};

// What went wrong leads, by the protocol, to a repeat while there is time for one.
std::optional<repeat_wanted> repeat_for(const state& s, const payload& wanted,
                                        const clock_reading& now) {
  const auto* told = std::get_if<reported_spoil>(&wanted);
  const breath_spoil* what = told == nullptr ? nullptr : find_spoil(*s.test, told->what);
  if (what == nullptr || what->leads != spoil_leads_to::repeat || s.breath) return std::nullopt;
  if (!may_repeat(s, told->sample) || !has_time_to_repeat(s, told->sample, now))
    return std::nullopt;
  return repeat_wanted{told->sample, what->text};
}

} // namespace

result<std::vector<payload>> decide(const state& s, const command& c, const clock_reading& now) {
  if (const verdict v = std::visit(checker{s, now}, c.wanted)) return tl::unexpected(*v);
  std::vector<payload> facts;
  if (s.last_reading) {
    for (const clock_change& change : changes_between(*s.last_reading, now))
      facts.emplace_back(clock_changed{change});
  }
  facts.push_back(c.wanted);
  // A drink that was begun is never refused. One told for later than now was begun by now.
  if (auto* drunk = std::get_if<reported_drink>(&facts.back());
      drunk != nullptr && drunk->started > now.wall) {
    drunk->started = now.wall;
    drunk->how = how_known::estimated;
  }
  if (auto again = repeat_for(s, c.wanted, now)) facts.emplace_back(std::move(*again));
  return facts;
}

} // namespace qb::inline sessions
