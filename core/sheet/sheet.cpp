// The lines of labels and sheets.
#include "core/sheet/sheet.hpp"

#include <array>
#include <cctype>
#include <fmt/core.h>

namespace qb {

namespace {

// "plain-diet" as a person reads it: "Plain diet".
std::string rule_in_words(std::string rule) {
  for (char& c : rule)
    c = c == '-' ? ' ' : c;
  rule.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(rule.front())));
  return rule;
}

std::string clock_on(const zone& z, instant t, civil_date first_day) {
  const civil_time there = z.civil_at(t);
  if (date_of(there) == first_day) return clock_text(there);
  return clock_text(there) + " on " + long_date(date_of(there));
}

std::string late_in_words(const state& s, sample_number n, const reading& now) {
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

std::vector<std::string> scores_of(const state& s, sample_number n) {
  std::vector<std::string> out(s.test->symptoms.size(), "-");
  const sample_state& t = s.of(n);
  if (!t.symptoms) return out;
  for (std::size_t i = 0; i < out.size(); ++i) {
    for (const symptom_score& x : t.symptoms->scores) {
      if (x.id == s.test->symptoms[i].id && x.score) out[i] = fmt::format("{}", *x.score);
    }
  }
  return out;
}

sheet_row row_of(const state& s, sample_number n, const reading& now, const zone& z) {
  const instant anchor = s.grid ? s.grid->anchor.wall : s.planned->what.start;
  const civil_date first_day = date_of(z.civil_at(anchor));
  const sample_state& t = s.of(n);
  sheet_row row;
  row.number = n;
  row.offset = offset_text(*s.test, n);
  row.due = clock_on(z, anchor + s.test->offset_of(n), first_day);
  if (t.taken) {
    row.closed = clock_text(shown_time(t.taken->closed, t.taken->offset));
    row.how = words_of(t.taken->how);
  }
  if (s.grid || s.ended) row.late = late_in_words(s, n, now);
  row.scores = scores_of(s, n);
  if (t.symptoms) row.comment = t.symptoms->comment;
  return row;
}

std::string drink_text(const state& s) {
  if (!s.drink_start) return "not recorded";
  const auto clock = [](const marked_reading& m) {
    return clock_text(shown_time(m.at.wall, m.at.offset));
  };
  if (!s.drink_end) return "begun " + clock(*s.drink_start) + ", end not recorded";
  return fmt::format("{} to {}{}", clock(*s.drink_start), clock(*s.drink_end),
                     s.drank_all ? "" : ", not all of it");
}

void first_facts(const state& s, const zone& z, sheet_text& out) {
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
               {"Drink", drink_text(s)}};
  std::string spare;
  for (const int n : spare_tubes(*s.test))
    spare += fmt::format("{}{}", spare.empty() ? "" : ", ", n);
  if (!spare.empty()) out.first.push_back({"Not used in this test", "tubes " + spare});
}

} // namespace

std::string offset_text(const protocol& p, sample_number n) {
  const auto offset = p.offset_of(n);
  if (offset.count() == 0) return "first";
  return "+" + length_in_words(offset);
}

std::vector<int> spare_tubes(const protocol& p) {
  std::vector<int> out;
  for (int n = static_cast<int>(p.samples()) + 1; n <= p.tubes_in_kit; ++n)
    out.push_back(n);
  return out;
}

std::string long_date(civil_date date) {
  static const std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1),
                     static_cast<int>(date.year()));
}

civil_time shown_time(instant t, std::chrono::seconds offset) {
  const auto local = t + offset;
  return std::chrono::floor<std::chrono::minutes>(
      std::chrono::local_time<std::chrono::milliseconds>{local.time_since_epoch()});
}

label_text label_of(const state& s, sample_number n) {
  QB_BELIEVE(s.person && s.test);
  label_text out;
  out.number = n;
  out.name = s.person->name;
  out.birth_date = long_date(s.person->birth_date);
  out.doctor = s.person->doctor;
  out.kit_number = s.person->kit_number;
  out.offset = offset_text(*s.test, n);
  out.rehearsal = s.rehearsal();
  if (const auto& taken = s.of(n).taken) {
    const civil_time shown = shown_time(taken->closed, taken->offset);
    out.date = long_date(date_of(shown));
    out.time = clock_text(shown);
  }
  return out;
}

sheet_text sheet_of(const state& s, const reading& now, const zone& z) {
  QB_BELIEVE(s.planned && s.test);
  sheet_text out;
  out.rehearsal = s.rehearsal();
  out.title = "Symptom and sample sheet";
  first_facts(s, z, out);
  if (s.person)
    out.person = {{"Name", s.person->name},
                  {"Born", long_date(s.person->birth_date)},
                  {"Doctor", s.person->doctor},
                  {"Laboratory", s.person->laboratory}};
  const instant start = s.planned->what.start;
  for (const planned_window& w : s.planned->what.windows)
    out.preparation.push_back(
        {rule_in_words(w.rule),
         fmt::format("{} to {}", day_and_time(w.from, start, z), day_and_time(w.until, start, z))});
  for (const planned_washout& w : s.planned->what.washouts)
    out.preparation.push_back(
        {rule_in_words(w.rule), "last dose on or before " + long_date(w.last_dose_on_or_before)});
  for (const symptom& x : s.test->symptoms)
    out.symptoms.push_back(x.text);
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    out.rows.push_back(row_of(s, sample_number::from_index(i), now, z));
  for (const finding& f : findings_of(s, now, z)) {
    std::string words = f.words;
    words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
    out.told.push_back(words + ".");
  }
  out.foot = {"Times are those of the person's device, in " + z.name() + ", cut to the minute.",
              "This sheet records what happened. It is not a result and not a diagnosis."};
  return out;
}

} // namespace qb
