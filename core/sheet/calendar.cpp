// What the reminders say and when they ring.
#include "core/sheet/calendar.hpp"

#include "core/findings/findings.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/core.h>
#include <set>

namespace qb::inline sheets {

namespace {

// How long before a step a phone rings: time to finish a cup, too short to forget it again.
constexpr std::chrono::minutes shortly{15};
// Before the fast also this long: time to sit down to the last meal.
constexpr std::chrono::minutes for_a_meal{60};
// Before the days a medicine is about: time to reach whoever prescribed it, over a weekend too.
constexpr std::chrono::days to_ask{3};
constexpr int evening_hour = 20; // after supper, before bed
constexpr int morning_hour = 9;  // a medicine's day is marked from here, when people are up
constexpr int night_hour = 21;   // to here
constexpr std::chrono::minutes evening_length{30}; // time to lay things out

const char* title_of(const prepared_plan& p) {
  return p.rehearsal ? "Practice, not a test" : "Breath test";
}

std::string uid_of(const prepared_plan& p, const std::string& step) {
  return p.test_id + "." + step + "@quarterbreath.invalid";
}

// Whom to call, under every reminder.
std::string whom(const prepared_plan& p) {
  const std::string outside =
      p.lab.outside_hours.empty() ? "" : "Nobody answers? " + p.lab.outside_hours + "\n";
  return fmt::format("Questions? Call {}: {} ({}).\n{}In danger, call {}.", p.lab.name,
                     p.lab.telephone, p.lab.telephone_hours, outside, p.lab.emergency);
}

std::string by_the_clocks_of(const zone& z) {
  return " (by the clocks of " + z.name() + ")";
}

bool begins_the_fast(const plan_step& s) {
  return std::any_of(s.windows.begin(), s.windows.end(),
                     [](const preparation_window* w) { return w->eat && w->eat->empty(); });
}

calendar_event event_of(const prepared_plan& p, const plan_step& s, const zone& z) {
  const std::string words = within_sentence(step_words(s));
  calendar_event e;
  e.uid = uid_of(p, s.rule);
  e.from = s.from;
  e.until = s.until;
  e.summary = fmt::format("{}: {} from now", title_of(p), words);
  e.description = fmt::format("From {} to {}{}.\n", full_moment(s.from, z), full_moment(s.until, z),
                              by_the_clocks_of(z));
  for (const preparation_window* w : s.windows)
    e.description += w->text + "\n";
  if (begins_the_fast(s)) {
    e.description += "Take medicines as prescribed, or as you were told for this test.\n"
                     "If unsure, ask your prescriber or pharmacist.\n"
                     "If your blood sugar is low, treat it at once, even in the fast.\n";
    e.alarms.push_back({for_a_meal, fmt::format("{}, in {}: {}", title_of(p),
                                                length_in_words(for_a_meal), words)});
  }
  e.alarms.push_back(
      {shortly, fmt::format("{}, in {}: {}", title_of(p), length_in_words(shortly), words)});
  e.description += whom(p);
  return e;
}

calendar_event evening_of(const prepared_plan& p, const zone& z) {
  const civil_date day = plus_days(date_of(z.civil_at(p.what.start)), std::chrono::days{-1});
  calendar_event e;
  e.uid = uid_of(p, evening_step);
  e.from = moment_of(at(day, evening_hour, 0), z);
  e.until = std::min<instant>(e.from + evening_length, p.what.start);
  e.summary = std::string(title_of(p)) + ": lay out the kit for tomorrow";
  e.description = fmt::format("The evening's list is on the preparation page and in the program.\n"
                              "Set an ordinary alarm clock too.\nTube 1 is at {}{}.\n{}",
                              full_moment(p.what.start, z), by_the_clocks_of(z), whom(p));
  e.alarms.push_back({std::chrono::minutes{0}, e.summary});
  return e;
}

calendar_event start_of(const prepared_plan& p, const zone& z) {
  calendar_event e;
  e.uid = uid_of(p, start_step);
  e.from = p.what.start;
  e.until = p.what.ends;
  e.summary = std::string(title_of(p)) + ": tube 1 now";
  e.description = fmt::format("Tube 1 at {}, the last tube at about {}{}.\n"
                              "Open the program: it guides you from tube to tube.\n"
                              "Something went wrong? Keep the sugar closed and call first.\n{}",
                              full_moment(p.what.start, z), full_moment(p.what.ends, z),
                              by_the_clocks_of(z), whom(p));
  e.alarms.push_back(
      {shortly, fmt::format("{}, in {}: tube 1", title_of(p), length_in_words(shortly))});
  return e;
}

// What a medicine's reminder says. Nobody is told to leave out what was prescribed.
std::string about(const washout& w, washout_answer told) {
  const std::string name = within_sentence(w.name.empty() ? w.why.rule : w.name);
  if (w.kind == washout_kind::course)
    return fmt::format("From today the test asks that a course of {} is over.\n"
                       "Finish it as prescribed. If it is not over by now, call the laboratory: "
                       "the test can wait.",
                       name);
  if (told == washout_answer::cannot_stop)
    return fmt::format("You said that this has to go on: {}.\n"
                       "Keep taking it as prescribed, and tell the laboratory.",
                       name);
  return fmt::format("From today the test asks for none of this, but only if your prescriber "
                     "agreed: {}.\n"
                     "Not asked, or they said no? Keep taking it as prescribed and tell the "
                     "laboratory.",
                     name);
}

calendar_event washout_event(const prepared_plan& p, const std::string& rule, civil_date last,
                             const zone& z) {
  const civil_date day = plus_days(last, std::chrono::days{1});
  calendar_event e;
  e.uid = uid_of(p, rule);
  e.from = std::min(moment_of(at(day, morning_hour, 0), z), p.what.start);
  e.until = std::min(moment_of(at(day, night_hour, 0), z), p.what.start);
  e.summary = std::string(title_of(p)) + ": about a medicine";
  return e;
}

bool was_taken(const answered_washout* told) {
  return told != nullptr && told->answer != washout_answer::never;
}

void add_washouts(const prepared_plan& p, const zone& z, std::vector<calendar_event>& out) {
  for (const planned_washout& w : p.what.washouts) {
    const washout* rule = find_washout(p.test, w.rule);
    const answered_washout* told = answer_of(p, w.rule);
    if (rule == nullptr || rule->kind == washout_kind::happening || !was_taken(told)) continue;
    calendar_event e = washout_event(p, w.rule, w.last_dose_on_or_before, z);
    e.description = fmt::format("{}\nThis is for the test on {}{}.\n{}", about(*rule, told->answer),
                                full_moment(p.what.start, z), by_the_clocks_of(z), whom(p));
    e.alarms.push_back({to_ask, fmt::format("{}: ask about a medicine now. It matters in {} days",
                                            title_of(p), to_ask.count())});
    e.alarms.push_back({std::chrono::minutes{0}, e.summary});
    out.push_back(std::move(e));
  }
}

// Steps and medicines that a file written before may hold and this plan has not.
class leftovers {
public:
  leftovers(const prepared_plan& p, const zone& z, std::vector<calendar_event>& out)
      : p_(p), z_(z), out_(out) {
    for (const calendar_event& e : out)
      there_.insert(e.uid);
  }

  void add() {
    for (auto plan = p_.earlier.rbegin(); plan != p_.earlier.rend(); ++plan) {
      for (const planned_window& w : plan->windows)
        add_window(*plan, w);
      add_washouts_of(*plan, p_.washouts);
    }
    std::vector<answered_washout> changed;
    for (const std::string& rule : p_.retold)
      changed.push_back({rule, washout_answer::until, std::nullopt, false});
    add_washouts_of(p_.what, changed);
  }

private:
  // Only the first window of a step has an identity of its own.
  void add_window(const plan& was, const planned_window& w) {
    const auto first = std::find_if(was.windows.begin(), was.windows.end(),
                                    [&](const planned_window& x) { return x.from == w.from; });
    if (first->rule == w.rule) cancel(w.rule, w.from);
  }
  void add_washouts_of(const plan& was, const std::vector<answered_washout>& told) {
    for (const answered_washout& t : told) {
      for (const planned_washout& w : was.washouts) {
        const washout* rule = find_washout(p_.test, w.rule);
        if (w.rule != t.rule || !was_taken(&t)) continue;
        if (rule != nullptr && rule->kind == washout_kind::happening) continue;
        cancel(w.rule, washout_event(p_, w.rule, w.last_dose_on_or_before, z_).from);
      }
    }
  }
  void cancel(const std::string& step, instant from) {
    calendar_event e;
    e.uid = uid_of(p_, step);
    if (!there_.insert(e.uid).second) return;
    e.from = std::min(from, p_.what.start);
    e.summary = std::string(title_of(p_)) + ": no longer needed";
    e.description = "The plan was changed. " + whom(p_);
    e.cancelled = true;
    out_.push_back(std::move(e));
  }

  const prepared_plan& p_;
  const zone& z_;
  std::vector<calendar_event>& out_;
  std::set<std::string> there_;
};

} // namespace

std::vector<calendar_event> calendar_events(const prepared_plan& p, const zone& z) {
  std::vector<calendar_event> out;
  for (const plan_step& s : steps_of(p.test, p.what))
    out.push_back(event_of(p, s, z));
  out.push_back(evening_of(p, z));
  out.push_back(start_of(p, z));
  add_washouts(p, z, out);
  if (p.called_off) {
    for (calendar_event& e : out) {
      e.cancelled = true;
      e.description = "The test was called off. " + whom(p);
    }
  }
  leftovers(p, z, out).add();
  std::stable_sort(out.begin(), out.end(), [](const calendar_event& a, const calendar_event& b) {
    return a.from < b.from;
  });
  return out;
}

std::string calendar_of(const prepared_plan& p, const zone& z, instant stamp) {
  return calendar_bytes({stamp, p.revision, calendar_events(p, z)});
}

std::vector<second_alarm> second_alarms(const prepared_plan& p) {
  std::vector<second_alarm> out;
  for (const plan_step& s : steps_of(p.test, p.what))
    out.push_back({s.from - shortly, s.from, s.rule, step_words(s)});
  out.push_back({p.what.start - shortly, p.what.start, start_step, "Tube 1"});
  return out;
}

bool is_calendar_of(std::string_view bytes, const std::string& test_id) {
  constexpr std::size_t longest = 1024UL * 1024UL; // ours take some kilobytes
  if (bytes.size() > longest) return false;
  const std::string wanted = "UID:" + test_id + ".";
  const std::vector<std::string> lines = unfolded_lines(bytes);
  return !lines.empty() && lines.front() == "BEGIN:VCALENDAR" &&
         std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
           return line.compare(0, wanted.size(), wanted) == 0;
         });
}

bool is_calendar_identity(std::string_view test_id) {
  constexpr std::size_t longest = 64;
  return !test_id.empty() && test_id.size() <= longest &&
         std::all_of(test_id.begin(), test_id.end(), [](char c) {
           return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-';
         });
}

} // namespace qb::inline sheets
