// Readings beside tubes, findings weighed, the curve put together and judged.
#include "core/case/case_parts.hpp"
#include "core/case/case_substrate.hpp"
#include "core/case/conclusion_basis.hpp"
#include "core/receiving/correction.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <iterator>

namespace qb::inline cases {

namespace {

case_gases gases_of(const gas_reading& r, const lab_profile& profile) {
  const judged_gases judged = judged_gases_of(r, profile);
  return {r, judged.h2, judged.ch4, judged.corrected};
}

// The first standing finding about a tube for which `is` holds, or nullptr.
template <typename Is>
const case_finding* standing_of(const test_case& c, int tube, Is is) {
  for (const case_finding& f : c.findings) {
    const bool about = f.what.sample && f.what.sample->value() == tube;
    if (about && f.stands() && is(f)) return &f;
  }
  return nullptr;
}

// By which a tube cannot be used.
const case_finding* spoils(const test_case& c, int tube) {
  return standing_of(c, tube,
                     [](const auto& f) { return f.weight == consequence::cannot_be_used; });
}

// Of a tube that decides nothing: the finding's rule and what it says.
struct undeciding_rule {
  const char* rule;
  const char* words;
};

undeciding_rule rule_of(undeciding why) {
  switch (why) {
  case undeciding::low_co2: return {"co2-low", "too little carbon dioxide"};
  case undeciding::great_factor:
    return {"co2-factor", "too little carbon dioxide to correct by, so it stands as measured"};
  case undeciding::marked_invalid: return {"reading-invalid", "marked invalid by the analyser"};
  }
  QB_BELIEVE(false);
  return {};
}

std::string undeciding_words(undeciding why, const gas_reading& r) {
  const std::string share = why == undeciding::marked_invalid || !r.co2_pct
                                ? ""
                                : fmt::format(" ({} %)", reading_text(*r.co2_pct, r.co2_is));
  return fmt::format("tube {} decides nothing: {}{}", r.sample, rule_of(why).words, share);
}

// By which a tube stays in the curve and decides nothing.
const case_finding* silences(const test_case& c, int tube) {
  return standing_of(c, tube, [](const case_finding& f) {
    const auto is = [&](undeciding why) { return f.what.rule == rule_of(why).rule; };
    return is(undeciding::low_co2) || is(undeciding::great_factor) ||
           is(undeciding::marked_invalid);
  });
}

std::string citation_in(const std::vector<source>& sources, const std::string& id) {
  for (const source& s : sources) {
    if (s.id == id) return s.citation;
  }
  return {};
}

// The rule's source as the test's own file has it, empty where it has no such rule.
std::string source_in(const protocol& test, const std::string& rule) {
  std::string id;
  if (const preparation_window* w = find_window(test, rule)) id = w->why.source;
  if (const washout* w = find_washout(test, rule)) id = w->why.source;
  if (const caution* q = find_caution(test, rule)) id = q->why.source;
  return citation_in(test.sources, id);
}

std::string name_in(const protocol& test, const std::string& rule) {
  if (const preparation_window* w = find_window(test, rule)) return w->name;
  if (const washout* w = find_washout(test, rule)) return w->name;
  if (const caution* q = find_caution(test, rule)) return q->name;
  return rule;
}

void leave_out(case_tube& t, test_case& c, std::string why) {
  t.left_out = std::move(why);
  c.judged.flags.push_back({"tube-left-out",
                            t.minute,
                            {},
                            fmt::format("tube {} is not in the curve: {}", t.number, t.left_out)});
}

// A tube's place in the curve.
curve_sample sample_of(const case_tube& t) {
  curve_sample out;
  out.minute = *t.minute;
  out.h2 = t.gases->h2;
  out.ch4 = t.gases->ch4;
  out.co2 = t.gases->raw.co2_pct;
  out.number = t.number;
  if (t.late) out.due = *t.minute - exact::minutes_of(*t.late);
  out.h2_is = t.gases->raw.h2_is;
  out.ch4_is = t.gases->raw.ch4_is;
  out.decides = t.undecided_by.empty();
  return out;
}

void fill_curve(test_case& c) {
  for (case_tube& t : c.tubes) {
    if (!t.gases) continue;
    const bool measured = t.gases->h2 || t.gases->ch4;
    if (const case_finding* f = spoils(c, t.number))
      leave_out(t, c, f->name + " (" + f->what.rule + ")");
    else if (!t.minute)
      leave_out(t, c, "no time is known for it");
    else if (!measured)
      leave_out(t, c, "no gas was measured");
    else
      t.in_curve = true;
  }
  const bool baseline = !c.tubes.empty() && c.tubes.front().in_curve;
  for (case_tube& t : c.tubes) {
    if (!t.in_curve) continue;
    if (!baseline && *t.minute <= exact()) {
      t.in_curve = false;
      leave_out(t, c, "it is at time zero or before, and not tube 1: no baseline");
      continue;
    }
    const case_finding* silent = silences(c, t.number);
    if (silent != nullptr) t.undecided_by = silent->name + " (" + silent->what.rule + ")";
    c.gases.push_back(sample_of(t));
  }
  std::stable_sort(
      c.gases.begin(), c.gases.end(),
      [](const curve_sample& a, const curve_sample& b) { return a.minute < b.minute; });
}

// The curve with one tube as it would be by other gases.
curve with_tube(curve c, const case_tube& tube) {
  for (curve_sample& s : c)
    if (s.number == tube.number) s = sample_of(tube);
  return c;
}

// What the curve would be by the gases as measured, and by each reading that is not used.
other_curves otherwise_of(const test_case& c, const lab_profile& profile) {
  other_curves out;
  for (const case_tube& t : c.tubes) {
    if (!t.in_curve) continue;
    if (t.gases->corrected) {
      case_tube raw = t;
      raw.gases->h2 = t.gases->raw.h2_ppm;
      raw.gases->ch4 = t.gases->raw.ch4_ppm;
      out.uncorrected = with_tube(out.uncorrected.value_or(c.gases), raw);
    }
    for (const case_gases& g : t.other_gases) {
      case_tube other = t;
      other.gases = g;
      const auto why = undeciding_of(g.raw, profile);
      other.undecided_by = why ? rule_of(*why).rule : "";
      out.second.push_back({t.number, with_tube(c.gases, other)});
    }
  }
  return out;
}

// When a tube's scores were told: at its closing; of a tube that was missed, at its due time, since
// a person feels something then all the same.
std::optional<exact> score_minute(const test_case& c, const case_tube& t) {
  if (t.minute) return t.minute;
  const bool scored =
      std::any_of(t.scores.begin(), t.scores.end(), [](const auto& s) { return s; });
  if (!scored || !t.due || !c.zero_at) return std::nullopt;
  return exact::minutes_of(*t.due - *c.zero_at);
}

void fill_symptoms(test_case& c) {
  for (std::size_t i = 0; i < c.test.symptoms.size(); ++i) {
    symptom_track track{c.test.symptoms[i].id, {}};
    for (const case_tube& t : c.tubes) {
      const auto minute = score_minute(c, t);
      if (minute && i < t.scores.size()) track.scores.emplace_back(*minute, t.scores[i]);
    }
    for (const case_after& t : c.after)
      track.scores.emplace_back(t.minute, t.scores.at(i));
    std::stable_sort(track.scores.begin(), track.scores.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    c.tracks.push_back(std::move(track));
  }
  c.rises = rises_of(c.tracks);
}

// What the curve has no sample of may have been taken all the same; then that is said.
void tell_taken(test_case& c) {
  for (flag& f : c.judged.flags) {
    if (f.id != "gap" && f.id != "no-baseline") continue;
    for (const case_tube& t : c.tubes) {
      const auto place = static_cast<std::size_t>(t.number - 1);
      const bool first = place == 0 && f.id == "no-baseline";
      const bool due = f.minute && place < c.test.offsets.size() &&
                       *f.minute == exact(c.test.offsets[place].count());
      if (!t.minute || t.in_curve || !(first || due)) continue;
      f.reason = t.gases ? fmt::format("tube {} was taken and is not in the curve", t.number)
                         : fmt::format("no reading of tube {} (it was taken)", t.number);
      if (first) f.reason += ", so there is no baseline";
    }
  }
}

// What the criteria come to together: met by one is met. Of a gas that no criterion asks about
// nothing can be told.
answer gas_axis(const test_case& c) {
  if (!is_judged(c) || c.judged.criteria.empty()) return answer::cannot_be_determined;
  answer out = c.judged.unjudged.empty() ? answer::does_not_meet : answer::cannot_be_determined;
  for (const judged_criterion& j : c.judged.criteria) {
    if (j.says.what == answer::meets) return answer::meets;
    if (j.says.what == answer::cannot_be_determined) out = answer::cannot_be_determined;
  }
  return out;
}

// Without a first score to compare with, and one after it, nothing is known.
symptom_answer symptom_axis(const test_case& c) {
  if (!c.rises.empty()) return symptom_answer::rose;
  for (const symptom_track& t : c.tracks) {
    if (t.scores.size() < 2 || t.scores.front().first > exact() || !t.scores.front().second)
      continue;
    const bool later = std::any_of(t.scores.begin() + 1, t.scores.end(),
                                   [](const auto& x) { return x.second.has_value(); });
    if (later) return symptom_answer::did_not_rise;
  }
  return symptom_answer::not_known;
}

bool no_substrate(const test_case& c) {
  return std::any_of(c.findings.begin(), c.findings.end(), [](const case_finding& f) {
    return f.what.rule == substrate_rule && f.stands();
  });
}

std::string axes_words(const test_case& c, bool measured) {
  const two_axes& a = c.axes;
  std::string gas;
  switch (a.gas) {
  case answer::meets: gas = "at least one criterion is met"; break;
  case answer::does_not_meet: gas = "no criterion is met"; break;
  case answer::cannot_be_determined: gas = "no criterion is met so far as can be told"; break;
  }
  if (c.judged.criteria.empty()) gas = "not judged";
  if (no_substrate(c)) gas = "no answer, as the drink was not taken or was lost";
  if (!measured) gas = "not measured yet";
  gas += ".";
  for (const unjudged_gas& u : c.judged.unjudged)
    gas += " " + unjudged_words(u) + ".";
  std::string felt;
  switch (a.symptoms) {
  case symptom_answer::rose: felt = "some rose above their first score"; break;
  case symptom_answer::did_not_rise: felt = "none rose above its first score"; break;
  case symptom_answer::not_known: felt = "whether any rose is not known"; break;
  }
  return fmt::format("Gas: {} Symptoms: {}. These are two separate answers; neither explains or "
                     "replaces the other.",
                     gas, felt);
}

instant latest_of(const received_kit& received, instant out) {
  const auto later = [&](instant t) { out = std::max(out, t); };
  for (const arrival& a : received.arrivals)
    later(a.entered.value_or(a.at));
  for (const paper_record& p : received.papers)
    later(p.entered);
  for (const gas_reading& r : received.readings)
    if (r.taken_in) later(*r.taken_in);
  for (const reading_choice& c : received.choices)
    later(c.at);
  for (const override_of& o : received.overrides)
    later(o.at);
  for (const conclusion& c : received.conclusions)
    later(c.at);
  return out;
}

} // namespace

case_clock case_clock_of(time_zero asked, bool drink_first, std::optional<duration> drink_start,
                         std::optional<duration> drink_end) {
  case_clock out{asked, duration{0}, drink_first};
  if (drink_first && asked == time_zero::tube_1_closed) out.zero = time_zero::drink_start;
  if (out.zero == time_zero::drink_end && !drink_end)
    out.zero = drink_first ? time_zero::drink_start : time_zero::tube_1_closed;
  if (out.zero == time_zero::drink_start && !drink_start) out.zero = time_zero::tube_1_closed;
  if (out.zero == time_zero::drink_start) out.offset = *drink_start;
  if (out.zero == time_zero::drink_end) out.offset = *drink_end;
  return out;
}

std::vector<finding> join_readings(const received_kit& received, const lab_profile& profile,
                                   std::vector<case_tube>& tubes) {
  std::vector<finding> out;
  const std::vector<counted_reading> all = counted_readings(received);
  for (const counted_reading& r : all) {
    const auto at = std::find_if(tubes.begin(), tubes.end(),
                                 [&](const case_tube& t) { return t.number == r.reading.sample; });
    if (at != tubes.end()) at->gases = gases_of(r.reading, profile);
    for (const gas_reading& other : received.readings) {
      const bool beside = at != tubes.end() && other.sample == at->number;
      if (beside && other.mark.entry != r.reading.mark.entry)
        at->other_gases.push_back(gases_of(other, profile));
    }
    const auto why = undeciding_of(r.reading, profile);
    if (why && at != tubes.end() && sample_number::in_range(at->number))
      out.push_back({rule_of(*why).rule,
                     consequence::review,
                     sample_number(at->number),
                     {},
                     {at->number},
                     undeciding_words(*why, r.reading)});
    const bool to_correct = profile.receiving.co2_reference_tenths &&
                            why != undeciding::great_factor && why != undeciding::low_co2;
    if (at != tubes.end() && to_correct && !at->gases->corrected)
      out.push_back(
          {"co2-missing",
           consequence::review,
           sample_number(at->number),
           {},
           {at->number},
           fmt::format("no carbon dioxide of tube {}: its gases are not corrected", at->number)});
    const bool timed = at != tubes.end() && at->minute;
    if (timed || !sample_number::in_range(r.reading.sample)) continue;
    out.push_back(
        {"reading-without-time",
         consequence::review,
         sample_number(r.reading.sample),
         {},
         {r.reading.sample},
         fmt::format("tube {} was measured, and no time is known for it", r.reading.sample)});
  }
  for (const case_tube& t : tubes) {
    if (all.empty() || t.gases || !t.minute || !sample_number::in_range(t.number)) continue;
    out.push_back({"reading-missing",
                   consequence::review,
                   sample_number(t.number),
                   {},
                   {t.number},
                   fmt::format("tube {} was taken, and there is no reading of it", t.number)});
  }
  return out;
}

std::vector<case_finding> weigh_findings(const std::vector<finding>& found, const protocol& test,
                                         const received_kit& received, const case_rules& rules) {
  const std::vector<override_of> standing = standing_overrides(received);
  std::vector<case_finding> out;
  for (const finding& f : found) {
    case_finding one{f, "", "", consequence_of(f, rules.findings, rules.profile), {}};
    const finding_rule* rule = find_rule(rules.findings, f.rule);
    one.name = rule == nullptr ? name_in(test, f.rule) : rule->name;
    one.at_once = rule != nullptr && rule->at_once;
    one.plain = rule == nullptr || rule->plain.empty() ? one.name : rule->plain;
    one.source = source_in(test, f.rule);
    if (one.source.empty() && rule != nullptr)
      one.source = citation_in(rules.findings.sources, rule->source);
    for (const override_of& o : standing) {
      // Without a tube it is about the rule wherever it was found.
      const bool about = !o.sample || (f.sample && f.sample->value() == *o.sample);
      if (o.rule == f.rule && about) one.aside = o;
    }
    out.push_back(std::move(one));
  }
  return out;
}

std::optional<instant> zero_instant(const test_case& c, std::optional<instant> tube_1) {
  if (c.zero == time_zero::drink_start) return c.drink_start;
  if (c.zero == time_zero::drink_end) return c.drink_end;
  return tube_1;
}

void add_lost_substrate(const std::optional<std::string>& why, std::vector<finding>& found) {
  if (!why) return;
  found.push_back(
      {substrate_rule, consequence::review, {}, {}, {}, *why + ": no criterion can be answered"});
}

void judge_case(const case_rules& rules, test_case& c) {
  fill_curve(c);
  c.by = ready_for(rules.judging, c.test, rules.profile);
  std::vector<flag> left_out = std::move(c.judged.flags);
  curve_facts facts;
  facts.precision = c.precision;
  facts.drink_start = c.drink_minute.value_or(exact());
  facts.no_substrate = no_substrate(c);
  facts.otherwise = otherwise_of(c, rules.profile);
  c.judged = judge_curve(c.gases, c.by, facts);
  tell_taken(c);
  c.judged.flags.insert(c.judged.flags.end(), left_out.begin(), left_out.end());
  for (const case_finding& f : c.findings) {
    if (f.weight == consequence::cannot_be_used && f.stands() && !f.what.sample)
      c.cannot_be_used.push_back(f.what.rule);
  }
  fill_symptoms(c);
  c.axes.gas = gas_axis(c);
  c.axes.symptoms = symptom_axis(c);
  const bool measured = std::any_of(c.tubes.begin(), c.tubes.end(),
                                    [](const case_tube& t) { return t.gases.has_value(); });
  c.axes.words = axes_words(c, measured);
}

void finish_case(const received_kit& received, const case_rules& rules, std::vector<finding> found,
                 const std::vector<finding>& receiving_findings, test_case& c) {
  if (c.zero != c.asked)
    found.push_back({"time-zero-other",
                     consequence::review,
                     {},
                     {},
                     {},
                     fmt::format("minutes count from: {}; asked for: {}", time_zero_text(c.zero),
                                 time_zero_text(c.asked))});
  found.insert(found.end(), receiving_findings.begin(), receiving_findings.end());
  for (finding& f : join_readings(received, rules.profile, c.tubes))
    found.push_back(std::move(f));
  if (!received.readings.empty())
    for (const unjudged_gas& u : unjudged_gases(rules.judging->criteria, c.test))
      found.push_back({"gas-not-judged", consequence::review, {}, {}, {}, u.gas + ": " + u.why});
  c.findings = weigh_findings(found, c.test, received, rules);
  if (!received.conclusions.empty()) c.concluded = received.conclusions.back();
  if (received.conclusions.size() > 1) c.replaced = *std::prev(received.conclusions.end(), 2);
  c.as_of = latest_of(received, c.as_of);
  judge_case(rules, c);
  c.since = came_since(c, received);
}

} // namespace qb::inline cases
