// The lines of labels and sheets.
#include "core/sheet/sheet.hpp"

#include "core/protocol/grid.hpp"
#include "core/session/readiness.hpp"
#include "core/session/scores_after.hpp"
#include "core/sheet/prepared_plan.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

std::string with_capital(std::string words) {
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

std::string month_name(civil_date date) {
  static const std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};
  return months.at(static_cast<unsigned>(date.month()) - 1);
}

std::string date_with(civil_date date, const std::string& month) {
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), month,
                     static_cast<int>(date.year()));
}

// "7 Apr" of another day than tube 1's, which the sheet names in full; else nothing.
std::string other_day(civil_date day, civil_date first_day) {
  if (day == first_day) return {};
  constexpr std::size_t letters = 3;
  return fmt::format("{} {}", static_cast<unsigned>(day.day()), month_name(day).substr(0, letters));
}

std::string clock_on(civil_time there, civil_date first_day) {
  const std::string day = other_day(date_of(there), first_day);
  return clock_text(there) + (day.empty() ? "" : " (" + day + ")");
}

civil_date first_day_of(const state& s, const zone& z) {
  return date_of(z.civil_at(s.grid ? s.grid->anchor.wall : s.planned->what.start));
}

std::string late_in_words(const state& s, sample_number n, const clock_reading& now) {
  if (is_missed(s, n, now)) return "missed";
  if (!s.of(n).taken) return {};
  const duration late = lateness(s, n);
  switch (timing_of(s, n)) {
  case timing::on_time: return "on time";
  case timing::late: return length_in_words(late) + " late";
  case timing::early: return length_in_words(late) + " early";
  }
  QB_BELIEVE(false);
  return {};
}

// By the protocol's symptoms; "-" where there is none.
std::vector<std::string> scores_shown(const state& s, const std::vector<symptom_score>& given) {
  std::vector<std::string> out;
  for (const auto& score : scores_by_symptom(*s.test, given))
    out.push_back(score ? fmt::format("{}", *score) : "-");
  return out;
}

std::string symptom_name(const state& s, const std::string& id) {
  for (const symptom& x : s.test->symptoms)
    if (x.id == id) return x.text;
  return id;
}

// What was put right of what is chosen: what stood there before stays readable beside what is
// right.
template <typename IsOf>
std::vector<std::string> corrections_of(const state& s, const zone& z, const IsOf& is_of) {
  std::vector<std::string> out;
  const auto put_right = [&out](const std::string& what, const std::string& was,
                                const std::string& is, const std::string& why) {
    out.push_back(fmt::format("{} was {}, put right to {}: {}", what, was, is, why));
  };
  const auto score = [](const std::optional<int>& x) {
    return x ? fmt::format("{}", *x) : std::string("none");
  };
  for (const noted_correction& c : s.corrections) {
    if (!is_of(c)) continue;
    if (const auto* time = std::get_if<right_time>(&c.what.to))
      put_right("Time", c.time_was ? clock_text(z.civil_at(*c.time_was)) : "none",
                clock_text(z.civil_at(time->time)), c.what.reason);
    if (const auto* mark = std::get_if<right_score>(&c.what.to))
      put_right(symptom_name(s, mark->symptom), score(c.score_was), score(mark->score),
                c.what.reason);
  }
  return out;
}

sheet_row row_of(const state& s, sample_number n, const clock_reading& now, const zone& z) {
  const instant anchor = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  const civil_date first_day = first_day_of(s, z);
  const sample_state& t = s.of(n);
  sheet_row row;
  row.number = n;
  row.offset = offset_text(*s.test, n);
  row.due = clock_on(z.civil_at(anchor + s.test->offset_of(n)), first_day);
  if (t.taken) {
    const civil_time shown = shown_time(t.taken->closed, t.taken->offset);
    row.closed = clock_text(shown);
    row.closed_day = other_day(date_of(shown), first_day);
    row.how = words_of(t.taken->how);
  }
  if (s.grid || s.ended) row.late = late_in_words(s, n, now);
  row.scores = scores_shown(s, t.symptoms ? t.symptoms->scores : std::vector<symptom_score>{});
  if (t.symptoms) row.comment = t.symptoms->comment;
  row.corrections = corrections_of(s, z, [n](const noted_correction& c) { return c.sample == n; });
  return row;
}

void rows_after(const state& s, const zone& z, sheet_text& out) {
  for (const score_time t : both_score_times) {
    const auto due = due_since_anchor(s, t);
    if (!due) continue;
    const civil_date first_day = first_day_of(s, z);
    const scores_after& told = s.of(t);
    sheet_after row;
    row.what = t;
    row.name = with_capital(words_of(t));
    row.offset = "+" + length_in_words(*due);
    row.due = clock_on(z.civil_at(s.grid->anchor.wall + *due), first_day);
    if (told.given()) row.given = clock_on(shown_time(told.at->wall, told.at->offset), first_day);
    row.scores = scores_shown(s, told.told ? told.told->scores : std::vector<symptom_score>{});
    if (told.told) row.comment = told.told->comment;
    row.corrections = corrections_of(s, z, [t](const noted_correction& c) { return c.after == t; });
    out.after.push_back(std::move(row));
  }
}

std::string drink_text(const state& s, const zone& z) {
  if (!s.drink_start) return "not recorded";
  const auto clock = [&](const noted_moment& m) {
    return clock_on(shown_time(m.at.wall, m.at.offset), first_day_of(s, z));
  };
  if (!s.drink_end) return "begun " + clock(*s.drink_start) + ", end not recorded";
  return fmt::format("{} to {}{}", clock(*s.drink_start), clock(*s.drink_end),
                     !s.drink_troubles.empty() ? ", with trouble, told below"
                     : s.drank_all             ? ""
                                               : ", not all of it");
}

// How many things ask for a look: said at the top, told one by one below the table.
std::string problems_text(const std::vector<finding>& all) {
  const auto count = std::count_if(all.begin(), all.end(), [](const finding& f) {
    return f.weight == consequence::review && f.rule != "rehearsal";
  });
  if (count == 0) return "none";
  return fmt::format("{}, told below", count);
}

void first_facts(const state& s, const zone& z, const std::vector<finding>& all, sheet_text& out) {
  std::size_t taken = 0;
  for (const sample_state& t : s.samples)
    taken += t.taken ? 1U : 0U;
  const instant day = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  out.first = {{"Kit", s.person ? s.person->kit_number : ""},
               {"Test", s.test->title},
               {"Sugar", fmt::format("{}, {} g, {}", s.test->sugar.name, s.test->sugar.dose_g,
                                     s.planned->form)},
               {"Date", long_date(date_of(z.civil_at(day)))},
               {"Tubes filled", fmt::format("{} of {}", taken, s.samples.size())},
               {"Drink", drink_text(s, z)},
               {"Asks for a look", problems_text(all)}};
  const std::string spare = empty_tubes_text(*s.test);
  if (!spare.empty()) out.first.push_back({"Rest of the kit", spare});
}

// Windows of the same hours share a line, and so do washouts of one day, so that a long list stays
// short on paper.
void preparation_facts(const state& s, const zone& z, sheet_text& out) {
  const plan& planned = s.planned->what;
  for (const planned_window& w : planned.windows) {
    const std::string span = fmt::format("{} to {}", day_and_time(w.from, planned.start, z),
                                         day_and_time(w.until, planned.start, z));
    const auto same = std::find_if(out.preparation.begin(), out.preparation.end(),
                                   [&](const sheet_fact& f) { return f.value == span; });
    const std::string name = name_of_rule(*s.test, w.rule);
    if (same == out.preparation.end())
      out.preparation.push_back({name, span});
    else
      same->name += "; " + within_sentence(name);
  }
  std::vector<planned_washout> left = planned.washouts;
  std::stable_sort(left.begin(), left.end(), [](const auto& a, const auto& b) {
    return std::chrono::local_days{a.last_dose_on_or_before} <
           std::chrono::local_days{b.last_dose_on_or_before};
  });
  for (std::size_t i = 0; i < left.size();) {
    const civil_date day = left[i].last_dose_on_or_before;
    sheet_fact line{"Last by " + long_date(day), name_of_rule(*s.test, left[i].rule)};
    while (++i < left.size() && left[i].last_dose_on_or_before == day)
      line.value += "; " + within_sentence(name_of_rule(*s.test, left[i].rule));
    out.preparation.push_back(std::move(line));
  }
}

// A correction of a tube or of scores after them is told there.
bool stands_at_its_row(const state& s, const finding& f) {
  return f.rule == "corrected" &&
         std::any_of(s.corrections.begin(), s.corrections.end(), [&](const noted_correction& c) {
           return f.events.back() == c.seq && (c.sample || c.after);
         });
}

// What was noted, a line each; tubes of which the same is to be said share one.
void reported_lines(const state& s, const std::vector<finding>& all, sheet_text& out) {
  const std::vector<std::pair<std::string, std::string>> shared{
      {"sample-missed", "Tubes {} not taken."},
      {"scored-for", "Symptoms at tubes {} scored by somebody for the person."},
      {"symptoms-missing", "Symptoms at tubes {} not all scored."}};
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (stands_at_its_row(s, all[i])) continue;
    const auto same = [&](const finding& f) { return f.rule == all[i].rule && f.sample; };
    const auto words = std::find_if(shared.begin(), shared.end(),
                                    [&](const auto& x) { return x.first == all[i].rule; });
    const auto before = all.begin() + static_cast<std::ptrdiff_t>(i);
    const bool alone = !all[i].sample || std::count_if(all.begin(), all.end(), same) == 1;
    if (words == shared.end() || alone) {
      out.told.push_back(with_capital(all[i].words) + ".");
    } else if (std::none_of(all.begin(), before, same)) {
      std::vector<int> tubes;
      for (const finding& f : all) {
        if (same(f)) tubes.push_back(f.sample->value());
      }
      out.told.push_back(fmt::format(fmt::runtime(words->second), tubes_in_words(tubes)));
    }
  }
}

} // namespace

std::string offset_text(const protocol& p, sample_number n) {
  const auto offset = p.offset_of(n);
  if (offset.count() == 0) return "first";
  return "+" + length_in_words(offset);
}

std::string tubes_in_words(const std::vector<int>& tubes) {
  std::string out;
  for (std::size_t i = 0; i < tubes.size();) {
    std::size_t last = i;
    while (last + 1 < tubes.size() && tubes[last + 1] == tubes[last] + 1)
      ++last;
    if (last == i + 1) last = i; // two in a row are named one by one
    out += i == 0 ? "" : last + 1 == tubes.size() ? " and " : ", ";
    out += last == i ? fmt::format("{}", tubes[i]) : fmt::format("{} to {}", tubes[i], tubes[last]);
    i = last + 1;
  }
  return out;
}

std::string empty_tubes_text(const protocol& p) {
  const std::vector<int> tubes = spare_tubes(p);
  if (tubes.empty()) return {};
  if (tubes.size() == 1) return fmt::format("Tube {} stays empty.", tubes.front());
  return fmt::format("Tubes {} stay empty.", tubes_in_words(tubes));
}

std::string long_date(civil_date date) {
  return date_with(date, month_name(date));
}

std::string short_date(civil_date date) {
  constexpr std::size_t letters = 3;
  return date_with(date, month_name(date).substr(0, letters));
}

civil_time shown_time(instant t, std::chrono::seconds offset) {
  const auto local = t + offset;
  return std::chrono::floor<civil_minutes>(
      std::chrono::local_time<std::chrono::milliseconds>{local.time_since_epoch()});
}

label_text label_of(const state& s, sample_number n) {
  QB_BELIEVE(s.person && s.test);
  label_text out;
  out.number = n;
  out.name = s.person->name;
  out.birth_date = long_date(s.person->birth_date);
  out.birth_short = short_date(s.person->birth_date);
  out.doctor = s.person->doctor;
  out.kit_number = s.person->kit_number;
  out.offset = offset_text(*s.test, n);
  out.rehearsal = s.rehearsal();
  if (const auto& taken = s.of(n).taken) {
    const civil_time shown = shown_time(taken->closed, taken->offset);
    out.date = long_date(date_of(shown));
    out.date_short = short_date(date_of(shown));
    out.time = clock_text(shown);
    out.how = words_of(taken->how);
  }
  return out;
}

sheet_text sheet_of(const state& s, const clock_reading& now, const zone& z) {
  QB_BELIEVE(s.planned && s.test);
  sheet_text out;
  out.rehearsal = s.rehearsal();
  out.title = "Symptom and sample sheet";
  const std::vector<finding> all = findings_of(s, now, z);
  first_facts(s, z, all, out);
  if (s.person)
    out.person = {{"Name", s.person->name},
                  {"Born", long_date(s.person->birth_date)},
                  {"Doctor", s.person->doctor},
                  {"Laboratory", s.person->laboratory}};
  preparation_facts(s, z, out);
  for (const symptom& x : s.test->symptoms)
    out.symptoms.push_back(x.text);
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    out.rows.push_back(row_of(s, sample_number::from_index(i), now, z));
  rows_after(s, z, out);
  reported_lines(s, all, out);
  out.foot = {"Times are those of the person's device, in " + z.name() + ", cut to the minute.",
              "This sheet records what happened. It is not a result and not a diagnosis."};
  return out;
}

} // namespace qb::inline sheets
