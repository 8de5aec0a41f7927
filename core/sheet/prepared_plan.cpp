// Cutting the plan out of the state, and the moments and steps it is told in.
#include "core/sheet/prepared_plan.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

// Which of two, where clocks go back over it.
std::string which_of_two(instant t, const zone& z) {
  const civil_meaning meaning = z.meaning_of(z.civil_at(t));
  const auto* twice = std::get_if<twofold_time>(&meaning);
  if (twice == nullptr) return {};
  return t < twice->second ? " (before the clocks go back)" : " (after the clocks go back)";
}

bool answered_after(const state& s, std::int64_t seq) {
  return std::any_of(s.washouts.begin(), s.washouts.end(),
                     [&](const noted_washout& w) { return w.seqs.back() > seq; });
}

} // namespace

std::optional<prepared_plan> prepared_plan_of(const state& s) {
  prepared_plan out;
  std::vector<earlier_plan> earlier = s.earlier_plans;
  if (s.planned && s.test) {
    out.test = *s.test;
    out.what = s.planned->what;
    out.form = s.planned->form;
  } else {
    if (earlier.empty() || !earlier.back().called_off) return std::nullopt;
    auto read = read_protocol(earlier.back().what.protocol_text);
    if (!read) return std::nullopt;
    out.called_off = true;
    out.test = std::move(*read);
    out.what = earlier.back().what.what;
    out.form = earlier.back().what.form;
    earlier.pop_back();
  }
  if (!s.opening || !s.profile) return std::nullopt;
  out.test_id = s.opening->test_id;
  out.rehearsal = s.rehearsal();
  out.lab = *s.profile;
  if (s.person) {
    out.name = s.person->name;
    out.kit_number = s.person->kit_number;
  }
  out.revision = static_cast<std::int64_t>(s.earlier_plans.size());
  for (const noted_washout& w : s.washouts) {
    out.washouts.push_back(w.what.what);
    if (w.seqs.size() < 2) continue;
    out.retold.push_back(w.what.what.rule);
    out.revision += static_cast<std::int64_t>(w.seqs.size() - 1);
  }
  for (const earlier_plan& e : earlier)
    out.earlier.push_back(e.what.what);
  return out;
}

reminders_state reminders_of(const state& s) {
  const auto last = std::find_if(s.checklists.rbegin(), s.checklists.rend(),
                                 [](const noted_list& c) { return c.what.name == reminders_list; });
  if (last == s.checklists.rend()) return reminders_state::none;
  const bool moved = !s.earlier_plans.empty() &&
                     between(last->at, s.earlier_plans.back().until).length > duration{0};
  return moved || answered_after(s, last->seq) ? reminders_state::old : reminders_state::fresh;
}

const answered_washout* answer_of(const prepared_plan& p, const std::string& rule) {
  for (const answered_washout& w : p.washouts) {
    if (w.rule == rule) return &w;
  }
  return nullptr;
}

std::vector<plan_step> steps_of(const protocol& p, const plan& what) {
  std::vector<plan_step> out;
  for (const planned_window& w : what.windows) {
    const preparation_window* rule = find_window(p, w.rule);
    if (rule == nullptr) continue;
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const plan_step& s) { return s.from == w.from; });
    if (same == out.end()) {
      out.push_back({w.rule, w.from, w.until, {rule}});
    } else {
      same->until = std::max(same->until, w.until);
      same->windows.push_back(rule);
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const plan_step& a, const plan_step& b) { return a.from < b.from; });
  return out;
}

std::string step_words(const plan_step& s) {
  std::string out;
  for (const preparation_window* w : s.windows) {
    const std::string& name = w->name.empty() ? w->why.rule : w->name;
    out += out.empty() ? name : "; " + within_sentence(name);
  }
  return out;
}

std::string within_sentence(std::string name) {
  const auto letter = [&](std::size_t i) { return static_cast<unsigned char>(name[i]); };
  // An abbreviation ("PPI") keeps its capitals.
  if (name.size() > 1 && std::isupper(letter(0)) != 0 && std::isupper(letter(1)) == 0)
    name.front() = static_cast<char>(std::tolower(letter(0)));
  return name;
}

instant moment_of(civil_time t, const zone& z) {
  const civil_meaning meaning = z.meaning_of(t);
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
  return std::get<missing_time>(meaning).jump;
}

std::string short_day(civil_date date) {
  static const std::array<const char*, 7> days{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                               "Thursday", "Friday", "Saturday"};
  static const std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};
  return fmt::format("{} {} {}", days.at(weekday_of(date).c_encoding()),
                     static_cast<unsigned>(date.day()),
                     months.at(static_cast<unsigned>(date.month()) - 1));
}

std::string short_moment(instant t, const zone& z) {
  const civil_time there = z.civil_at(t);
  return short_day(date_of(there)) + ", " + clock_text(there) + which_of_two(t, z);
}

std::string full_moment(instant t, const zone& z) {
  const civil_time there = z.civil_at(t);
  return fmt::format("{} {}, {}{}", short_day(date_of(there)),
                     static_cast<int>(date_of(there).year()), clock_text(there),
                     which_of_two(t, z));
}

} // namespace qb::inline sheets
