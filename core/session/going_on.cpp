// The judgement, kind by kind, in the order of weight.
#include "core/session/going_on.hpp"

#include "core/session/after_loss.hpp"
#include "core/session/now.hpp"
#include "core/session/other_sugars.hpp"

#include <algorithm>

namespace qb::inline sessions {

namespace {

using kind = hindrance_kind;

// What an answer says against the test, if it says anything.
std::optional<hindrance> of_answer(const protocol& p, const caution& asked,
                                   const reported_caution& told) {
  if (!is_open(p, asked, told)) return std::nullopt;
  if (is_never(asked, told)) return hindrance{kind::never, asked.why.rule};
  const bool no = told.outcome == asked_outcome::not_this_test;
  return hindrance{no ? kind::refused : kind::ask_first, asked.why.rule};
}

// What was answered to one question; an answer that no longer counts is none.
std::optional<hindrance> of_caution(const protocol& p, const caution& asked,
                                    const noted_caution* told, bool counts) {
  if (told == nullptr || !counts) return hindrance{kind::unanswered, asked.why.rule};
  return of_answer(p, asked, told->what);
}

void add(std::vector<hindrance>& all, std::optional<hindrance> one) {
  if (one) all.push_back(std::move(*one));
}

// Whether the morning's answer is one of this morning: told since this start was planned, and not
// longer ago than answers hold. A breath that was begun in time is not broken off for it.
bool is_of_this_morning(const state& s, const noted_caution& told, const clock_reading& now) {
  if (s.planned_at && told.seqs.back() < s.planned_at->seq) return false;
  if (!is_told_since_loss(s, told.seqs.back())) return false;
  if (s.test->version < protocol::with_safety) return true;
  return between(told.at, s.breath ? s.breath->began : now).length <= morning_answers_hold;
}

void of_questions(const state& s, const clock_reading& now, std::vector<hindrance>& all) {
  for (const caution& c : s.test->cautions) {
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    const bool counts = told != nullptr && still_counts(s, *s.test, c, *told);
    add(all, of_caution(*s.test, c, told, counts));
  }
  for (const caution& c : s.test->morning) {
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    // An answer that forbids holds until it is put right, however old it is.
    const bool forbids =
        told != nullptr && told->seqs.back() > s.planned_at->seq && is_open(*s.test, c, told->what);
    const bool counts = told != nullptr && (forbids || is_of_this_morning(s, *told, now));
    add(all, of_caution(*s.test, c, told, counts));
  }
}

// Answers to what another sugar must never meet, as long as no kit's code says which one it is.
void of_other_sugars(const state& s, const protocol& p, std::vector<hindrance>& all) {
  if (is_sugar_known(s) || p.version < protocol::with_safety) return; // was not asked then
  for (const noted_caution& told : s.cautions) {
    if (is_own_question(p, told.what.rule)) continue;
    add(all, of_answer(p, asked_of_another_sugar(told.what.rule), told.what));
  }
}

// What was told before a loss and is asked again, as long as nothing is told anew.
void of_loss(const state& s, const protocol& p, std::vector<hindrance>& all) {
  for (const std::string& rule : lost_answers(s, p))
    all.push_back({kind::unanswered, rule});
  if (is_person_lost(s)) all.push_back({kind::unanswered, p.age_why.rule});
  if (are_signs_lost(s)) all.push_back({kind::unanswered, signs_again});
  if (are_slips_lost(s)) all.push_back({kind::unanswered, told_again_list});
}

// Earlier rules asked less. Once tube 1 is closed nothing is planned anew.
void of_age_of_rules(const state& s, std::vector<hindrance>& all) {
  if (s.test->version < protocol::with_safety && !s.grid) all.push_back({kind::old_rules, ""});
}

// Age and kit, on the day of the test.
void of_the_day(const state& s, const protocol& p, civil_date day, std::vector<hindrance>& all) {
  if (s.person && !age_fits(p, s.person->birth_date, day))
    all.push_back({kind::wrong_age, p.age_why.rule});
  if (!s.kit) return;
  if (s.kit->protocol_id != p.id) all.push_back({kind::other_kit, p.kit_why.rule});
  if (s.kit->expires < day) all.push_back({kind::kit_expired, rule_kit_expiry});
}

void of_packet(const state& s, std::vector<hindrance>& all) {
  const bool was_asked = s.test->version >= protocol::with_safety;
  if (!s.packet) {
    if (was_asked) all.push_back({kind::packet_unread, ""});
  } else if (!is_right_packet(s, s.packet->what)) {
    all.push_back({kind::packet_differs, ""});
  }
}

bool is_asked_of_person(const protocol& p, const std::string& rule) {
  return find_window(p, rule) != nullptr || find_washout(p, rule) != nullptr;
}

// Agreements that nobody gave who may.
void of_words(const state& s, const protocol& p, std::vector<hindrance>& all) {
  for (const washout& w : p.washouts) {
    const noted_washout* told = find_noted_washout(s, w.why.rule);
    if (told != nullptr && rests_on_no_word(w, told->what))
      all.push_back({kind::not_agreed, w.why.rule});
  }
}

// The rules that somebody agreed to start in spite of, by what was known up to that event.
struct agreement {
  const std::vector<std::string>& rules;
  std::int64_t seq{0};
  const std::optional<releaser>& said_by;

  // A window is the laboratory's to waive, and the record has who did; a medicine is not anybody's.
  [[nodiscard]] bool covers(const protocol& p, const rule_check& c) const {
    const auto newer = [&](std::int64_t told) { return told > seq; };
    if (std::find(rules.begin(), rules.end(), c.rule) == rules.end() ||
        std::any_of(c.events.begin(), c.events.end(), newer))
      return false;
    const washout* w = find_washout(p, c.rule);
    return w == nullptr || word_counts(*w, word_for::going_on, said_by);
  }
};

// Windows and washouts under their least, or not answered. Age, kit and questions stand by
// themselves: nobody's agreement releases them here.
void of_rules(const state& s, const clock_reading& now, const agreement& a,
              std::vector<hindrance>& all) {
  for (const rule_check& c : readiness_now(s, now)) {
    if (!needs_agreement(c) || !is_asked_of_person(*s.test, c.rule)) continue;
    if (!a.covers(*s.test, c)) all.push_back({kind::below_least, c.rule});
  }
}

std::vector<hindrance> weightiest_first(std::vector<hindrance> all) {
  std::stable_sort(all.begin(), all.end(),
                   [](const hindrance& a, const hindrance& b) { return a.what < b.what; });
  return all;
}

civil_date day_on_device(instant t, const clock_reading& now) {
  return date_of(zone::fixed(now.zone, now.offset).civil_at(t));
}

// How long before its start the longest rule of the preparation begins.
duration longest_rule(const protocol& p) {
  duration out{0};
  for (const preparation_window& w : p.windows)
    out = std::max(out, duration{w.from});
  for (const washout& w : p.washouts)
    out = std::max(out, duration{w.days});
  return out;
}

// The start whose day is looked at, where the person starts now. A clock that shows a time of
// before the plan was made, or of before all preparation, shows no day: then it is the planned one.
instant start_now(const state& s, const clock_reading& now) {
  const instant counted = counted_now(s, now);
  if (!s.planned || !s.planned_at || !s.test) return counted;
  const instant start = s.planned->what.start;
  const bool is_wrong = counted < s.planned_at->at.wall || counted < start - longest_rule(*s.test);
  return is_wrong ? start : counted;
}

// All that stands against a start at that instant, as it looks at `now`.
std::vector<hindrance> against_start(const state& s, const clock_reading& now, instant start,
                                     const agreement& a) {
  std::vector<hindrance> all;
  if (!s.planned || !s.test) return all;
  of_questions(s, now, all);
  of_other_sugars(s, *s.test, all);
  of_loss(s, *s.test, all);
  of_words(s, *s.test, all);
  of_age_of_rules(s, all);
  of_the_day(s, *s.test, day_of_start(s, start, zone::fixed(now.zone, now.offset)), all);
  of_packet(s, all);
  if (s.unwell) all.push_back({kind::unwell, ""});
  // A breath that was begun is not broken off for it.
  if (!s.breath && wants_signs_asked(s)) all.push_back({kind::signs_unasked, ""});
  of_rules(s, now, a, all);
  return weightiest_first(std::move(all));
}

} // namespace

instant counted_now(const state& s, const clock_reading& now) {
  return s.ready ? s.ready->at.wall + between(s.ready->at, now).length : now.wall;
}

std::vector<rule_check> readiness_now(const state& s, const clock_reading& now) {
  const zone z = zone::fixed(now.zone, now.offset);
  const instant start = counted_now(s, now);
  const auto of_now = [&](const noted_slip& slip) { return s.ready && slip.seq > s.ready->seq; };
  if (std::none_of(s.slips.begin(), s.slips.end(), of_now)) return readiness(s, now, start, z);
  // What is told past the gate was so long ago as the person said, on the clock that counts.
  state counted = s;
  for (noted_slip& slip : counted.slips) {
    if (of_now(slip)) slip.what.when -= slip.at.wall - counted_now(s, slip.at);
  }
  return readiness(counted, now, start, z);
}

std::optional<hindrance> against_answer(const state& s, const protocol& p,
                                        const reported_caution& told) {
  if (const caution* asked = find_caution(p, told.rule)) return of_answer(p, *asked, told);
  if (is_sugar_known(s) || p.version < protocol::with_safety) return std::nullopt;
  return of_answer(p, asked_of_another_sugar(told.rule), told);
}

std::vector<hindrance> against_plan(const state& s, const protocol& p, civil_date ends_on) {
  std::vector<hindrance> all;
  for (const caution& c : p.cautions) {
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    if (told != nullptr) add(all, of_caution(p, c, told, true));
  }
  // "Not today" holds for that day, also for a start that is planned anew.
  for (const caution& c : p.morning) {
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    if (told != nullptr && is_never(c, told->what) &&
        day_on_device(told->at.wall, told->at) == ends_on)
      all.push_back({kind::never, c.why.rule});
  }
  of_other_sugars(s, p, all);
  of_words(s, p, all);
  of_the_day(s, p, ends_on, all);
  return weightiest_first(std::move(all));
}

std::vector<hindrance> hindrances_with(const state& s, const clock_reading& now,
                                       const reported_ready& gate) {
  const std::vector<std::string> nobody;
  return against_start(s, now, start_now(s, now),
                       {gate.agreed.empty() ? nobody : gate.not_kept, s.seq, gate.said_by});
}

std::vector<hindrance> hindrances(const state& s, const clock_reading& now) {
  // Before the gate it is the planned start that is looked at; from the gate on this very one.
  const bool starts_now = s.ready || s.grid || !s.planned;
  const instant counted = start_now(s, now);
  const instant start = starts_now ? counted : std::max(counted, s.planned->what.start);
  return against_start(s, now, start,
                       {s.ready_agreed_to, s.ready ? s.ready->seq : 0, s.ready_said_by});
}

bool is_of_the_morning(const protocol& p, const std::string& rule) {
  return std::any_of(p.morning.begin(), p.morning.end(),
                     [&](const caution& c) { return c.why.rule == rule; });
}

bool has_own_page(const hindrance& h) {
  switch (h.what) {
  case kind::never:
  case kind::refused:
  case kind::ask_first:
  case kind::not_agreed:
  case kind::old_rules:
  case kind::wrong_age:
  case kind::other_kit:
  case kind::kit_expired:
  case kind::packet_differs: return true;
  case kind::unwell: // have a step of their own
  case kind::signs_unasked:
  case kind::unanswered:
  case kind::packet_unread:
  case kind::below_least: return false;
  }
  QB_BELIEVE(false);
  return true;
}

std::optional<hindrance> holding_back(const state& s, const clock_reading& now) {
  for (hindrance& h : hindrances(s, now)) {
    if (has_own_page(h)) return std::move(h);
  }
  return std::nullopt;
}

bool wants_trying_said(const state& s) {
  if (!s.profile || !s.profile->for_trying || s.rehearsal()) return false;
  return std::none_of(s.checklists.begin(), s.checklists.end(),
                      [](const noted_list& told) { return told.what.name == trying_list; });
}

bool is_right_packet(const state& s, const reported_packet& told) {
  QB_BELIEVE(s.test && s.planned);
  const substrate& sugar = s.test->sugar;
  const auto& names = sugar.packet_names;
  const bool named =
      told.name == sugar.name || std::find(names.begin(), names.end(), told.name) != names.end();
  const sugar_form* form = find_form(*s.test, s.planned->form);
  return named && form != nullptr && form->amount == told.amount && form->unit == told.unit;
}

const noted_packet* other_packet_standing(const state& s) {
  const auto& all = s.other_packets;
  return all.empty() || all.back().until_seq != 0 ? nullptr : &all.back().told;
}

reported_packet right_packet(const state& s) {
  QB_BELIEVE(s.test && s.planned);
  const sugar_form* found = find_form(*s.test, s.planned->form);
  QB_BELIEVE(found != nullptr);
  return {s.test->sugar.name, found->amount, found->unit};
}

refusal refusal_of(const state& s, const hindrance& h) {
  const auto words = [](const char* key, const char* text) {
    return refusal{refusal_kind::not_now, "", key, "", text};
  };
  switch (h.what) {
  case hindrance_kind::never:
    if (s.test && is_of_the_morning(*s.test, h.rule))
      return words("no.never-today", "Not today. Do not drink the test sugar.");
    return words("no.never", "This test is not for you. Do not drink the test sugar.");
  case hindrance_kind::refused:
    return words("no.refused", "You were told not to take this test. Do not drink the test sugar.");
  case hindrance_kind::ask_first:
    return words("no.ask-first", "Please ask first. Your plan can wait for the answer.");
  case hindrance_kind::not_agreed:
    return words("no.not-agreed", "Please first ask someone who may agree to this.");
  case hindrance_kind::old_rules:
    return words("no.old-rules", "The questions for this test have changed. Please plan it again.");
  case hindrance_kind::wrong_age:
    return words("no.age", "This test is for another age group. The laboratory will help you.");
  case hindrance_kind::other_kit:
    return words("no.other-kit", "Your kit is for another test. Please call the laboratory.");
  case hindrance_kind::kit_expired:
    return words("no.kit-expired", "Your kit is too old on that day. Please call the laboratory.");
  case hindrance_kind::packet_differs:
    return words("no.packet", "This is not the right packet. Keep it closed. Please call the "
                              "laboratory.");
  case hindrance_kind::unwell:
    return words("no.unwell", "You said that you feel unwell. Rest first.");
  case hindrance_kind::signs_unasked:
    return words("no.signs-first", "Please say first whether any warning sign is there.");
  case hindrance_kind::unanswered:
    return words("no.unanswered", "A question is still to be answered.");
  case hindrance_kind::packet_unread:
    return words("no.packet-unread", "First read what the packet says.");
  case hindrance_kind::below_least:
    return words("no.below-least", "Too little of the preparation was kept. Please call the "
                                   "laboratory before you start.");
  }
  QB_BELIEVE(false);
  return {};
}

bool has_warning_signs(const state& s) {
  return s.warnings && !s.warnings->what.present.empty();
}

bool may_feel_well_again(const state& s) {
  const auto never = [](const hindrance& h) { return h.what == kind::never; };
  if (std::any_of(s.drunk_against.begin(), s.drunk_against.end(), never)) return false;
  return !s.final_sign;
}

} // namespace qb::inline sessions
