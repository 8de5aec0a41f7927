// The rules one after another, in the protocol's order; windows have a file of their own.
#include "core/session/readiness.hpp"
#include "core/session/after_loss.hpp"
#include "core/session/slip_meaning.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sessions {

namespace {

constexpr const char* age_name = "Age";
constexpr const char* kit_name = "The kit is for this test";
constexpr const char* expiry_name = "The kit's last day";

civil_date day_of(instant t, const zone& z) {
  return date_of(z.civil_at(t));
}

duration days_between(civil_date earlier, civil_date later) {
  return std::max(duration{0},
                  duration{std::chrono::local_days{later} - std::chrono::local_days{earlier}});
}

rule_check age_check(const state& s, instant start, const zone& z) {
  rule_check c;
  c.rule = s.test->age_why.rule;
  c.name = age_name;
  if (!s.person) {
    c.standing = rule_standing::open;
    c.unanswered = true;
    c.words = "no date of birth told";
    return c;
  }
  c.events = {s.person_seq};
  const bool fits = age_fits(*s.test, s.person->birth_date, day_of_start(s, start, z));
  c.standing = fits ? rule_standing::by_record : rule_standing::below_least;
  c.words = "born on " + date_text(s.person->birth_date);
  if (!fits) {
    c.words += ": another age than this test is for";
    c.tell = consequence::review;
  }
  return c;
}

// Without a kit code the packet's name is what the person reads; with one the test and the last day
// are known.
void kit_checks(const state& s, instant start, const zone& z, std::vector<rule_check>& out) {
  rule_check test;
  test.rule = s.test->kit_why.rule;
  test.name = kit_name;
  if (!s.kit) {
    test.words = "chosen by the person; no kit code told";
    out.push_back(test);
    return;
  }
  test.events = {s.kit_seq};
  const bool same = s.kit->protocol_id == s.test->id;
  test.standing = same ? rule_standing::by_record : rule_standing::below_least;
  test.words = "kit code for " + s.kit->protocol_id;
  if (!same) test.tell = consequence::review;
  out.push_back(test);
  rule_check expiry;
  expiry.rule = rule_kit_expiry;
  expiry.name = expiry_name;
  expiry.events = {s.kit_seq};
  const bool good = day_of_start(s, start, z) <= s.kit->expires;
  expiry.standing = good ? rule_standing::by_record : rule_standing::below_least;
  expiry.words = "the kit may be used up to " + date_text(s.kit->expires);
  if (!good) expiry.tell = consequence::review;
  out.push_back(expiry);
}

std::string reported_of(const reported_washout& told) {
  std::string out = words_of(told.what);
  if (!told.who.empty())
    out += fmt::format("; {} by {} ({})", told.what.agreed ? "agreed" : "pause agreed", told.who,
                       words_of(told.said_by));
  return out;
}

// The latest slip that is about this washout.
const noted_slip* slip_about(const state& s, const std::string& rule) {
  const noted_slip* out = nullptr;
  for (const noted_slip& x : s.slips) {
    if (x.what.rule == rule && (out == nullptr || x.what.when > out->what.when)) out = &x;
  }
  return out;
}

void weigh_days(rule_check& c, bool agreed) {
  const bool enough = *c.kept >= c.asked;
  const bool least = *c.kept >= c.least || agreed;
  c.standing = enough  ? rule_standing::on_word
               : least ? rule_standing::below_asked
                       : rule_standing::below_least;
  if (!enough) c.tell = least ? consequence::note : consequence::review;
}

rule_check told_washout_check(const state& s, const washout& w, instant start, const zone& z) {
  rule_check c;
  c.rule = w.why.rule;
  c.name = w.name;
  c.asked = w.days;
  c.least = w.least;
  c.in_days = true;
  const noted_washout* told = find_noted_washout(s, w.why.rule);
  const noted_slip* slip = slip_about(s, w.why.rule);
  if (told != nullptr) c.events = told->seqs;
  std::optional<civil_date> last = told == nullptr ? std::nullopt : told->what.what.on;
  const bool goes_on = told != nullptr && told->what.what.answer == washout_answer::cannot_stop;
  const bool agreed = told != nullptr && told->what.what.agreed && !rests_on_no_word(w, told->what);
  if (slip != nullptr) {
    const civil_date day = day_of(slip->what.when, z);
    const bool later = !last || std::chrono::local_days{day} > std::chrono::local_days{*last};
    c.events.push_back(slip->seq);
    if (later && !goes_on) {
      c.kept = days_between(day, day_of(start, z));
      weigh_days(c, false);
      c.words = fmt::format("told for {}", date_text(day));
      c.tell = std::nullopt; // told as a finding of its own
      return c;
    }
  }
  if (told == nullptr) {
    c.standing = rule_standing::open;
    c.unanswered = true;
    c.words = "not answered";
    return c;
  }
  c.words = w.name + ": " + reported_of(told->what);
  if (told->what.what.answer == washout_answer::never) return c;
  if (told->what.what.answer == washout_answer::unknown) {
    c.standing = agreed ? rule_standing::below_asked : rule_standing::open;
    c.tell = agreed ? consequence::note : consequence::review;
    return c;
  }
  c.kept = goes_on || !last ? duration{0} : days_between(*last, day_of(start, z));
  weigh_days(c, agreed);
  if (c.tell)
    c.words += fmt::format("; {} of {}, at least {}", span_in_words(*c.kept, true),
                           span_in_words(c.asked, true), span_in_words(c.least, true));
  return c;
}

// An answer from before a loss holds as far as it forbids: what was told after it may be lost.
rule_check washout_check(const state& s, const washout& w, instant start, const zone& z) {
  rule_check c = told_washout_check(s, w, start, z);
  const noted_washout* told = find_noted_washout(s, w.why.rule);
  if (told == nullptr || is_told_since_loss(s, told->seqs.back()) || needs_agreement(c)) return c;
  c.standing = rule_standing::open;
  c.unanswered = true;
  c.words = "not answered since the record was damaged";
  c.tell = consequence::review;
  return c;
}

// `since`: an answer told before it is one of another day.
rule_check caution_check(const state& s, const caution& asked, instant since) {
  rule_check c;
  c.rule = asked.why.rule;
  c.name = asked.name;
  const noted_caution* told = find_noted_caution(s, asked.why.rule);
  if (told == nullptr || told->at.wall < since) {
    c.standing = rule_standing::open;
    c.unanswered = true;
    c.words = "not answered";
    return c;
  }
  c.events = told->seqs;
  const reported_caution& what = told->what;
  if (what.answer == caution_answer::no) {
    c.words = asked.name + ": no";
    return c;
  }
  c.words = asked.name + (what.answer == caution_answer::yes ? ": yes" : ": not sure");
  if (what.outcome == asked_outcome::not_asked) c.words += "; nobody asked yet";
  if (what.outcome == asked_outcome::go_on) c.words += "; may go on, said " + what.who;
  if (what.outcome == asked_outcome::not_this_test) c.words += "; not this test, said " + what.who;
  if (!what.words.empty()) c.words += " (" + what.words + ")";
  const bool waits = is_open(*s.test, asked, what);
  c.standing = waits ? rule_standing::open : rule_standing::on_word;
  c.tell = waits ? consequence::review : consequence::note;
  return c;
}

} // namespace

civil_date day_of_start(const state& s, instant start, const zone& shown) {
  if (!s.planned || !s.planned->what.start_offset) return day_of(start, shown);
  return day_of(start, zone::fixed(s.planned->what.zone_name, *s.planned->what.start_offset));
}

std::string name_of_rule(const protocol& p, const std::string& rule) {
  if (const preparation_window* w = find_window(p, rule)) return w->name;
  if (const washout* w = find_washout(p, rule)) return w->name;
  if (const caution* c = find_caution(p, rule)) return c->name;
  if (rule == p.age_why.rule) return age_name;
  if (rule == p.kit_why.rule) return kit_name;
  return rule == rule_kit_expiry ? expiry_name : rule;
}

bool is_not_kept(const rule_check& c) {
  return c.standing == rule_standing::below_asked || needs_agreement(c);
}

bool needs_agreement(const rule_check& c) {
  return c.standing == rule_standing::below_least || c.standing == rule_standing::open;
}

std::vector<rule_check> readiness(const state& s, const clock_reading& now, instant start,
                                  const zone& z) {
  std::vector<rule_check> out;
  if (!s.planned || !s.test) return out;
  out.push_back(age_check(s, start, z));
  kit_checks(s, start, z, out);
  for (const planned_window& w : s.planned->what.windows) {
    if (find_window(*s.test, w.rule) != nullptr) out.push_back(window_check(s, w, now, start, z));
  }
  for (const washout& w : s.test->washouts)
    out.push_back(washout_check(s, w, start, z));
  for (const caution& c : s.test->cautions)
    out.push_back(caution_check(s, c, instant::min()));
  // The morning's answers are those given since this start was planned.
  const instant since = s.planned_at ? s.planned_at->at.wall : instant::min();
  for (const caution& c : s.test->morning)
    out.push_back(caution_check(s, c, since));
  return out;
}

} // namespace qb::inline sessions
