// The lines of the preparation page. Every figure comes from the protocol or the plan.
#include "core/sheet/preparation.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

std::string joined(const std::vector<std::string>& all) {
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i)
    out += (i == 0 ? "" : i + 1 == all.size() ? " and " : ", ") + all[i];
  return out;
}

std::string clock_on(instant t, const zone& z) {
  return clock_text(z.civil_at(t));
}

void first_facts(const prepared_plan& p, preparation_text& out) {
  if (!p.name.empty()) out.first.push_back({"Name", p.name});
  if (!p.kit_number.empty()) out.first.push_back({"Kit", p.kit_number});
  out.first.push_back({"Test", p.test.title});
  out.first.push_back(
      {"Sugar packet", fmt::format("{}, {} g{}", p.test.sugar.name, p.test.sugar.dose_g,
                                   p.form.empty() ? "" : ", " + p.form)});
}

void add_moments(const prepared_plan& p, const zone& z, preparation_text& out) {
  for (const plan_step& s : steps_of(p.test, p.what)) {
    const bool same_day = date_of(z.civil_at(s.from)) == date_of(z.civil_at(s.until));
    std::string more =
        "Until " + (same_day ? clock_on(s.until, z) : short_moment(s.until, z)) + ".";
    for (const preparation_window* w : s.windows)
      more += " " + w->text;
    out.moments.push_back({short_moment(s.from, z), step_words(s), more});
  }
  std::string during;
  for (const std::string& rule : during_test_texts(p.test, p.lab))
    during += (during.empty() ? "" : " ") + rule;
  out.moments.push_back({short_moment(p.what.start, z), "Tube 1, then the sugar drink", during});
  out.moments.push_back({short_moment(p.what.ends, z),
                         fmt::format("Last tube, number {}", p.test.samples()),
                         "If tube 1 is later, all are later by as much. The program says when."});
  out.moments.push_back({short_day(p.what.post_on_or_before), "Last day to post the tubes", ""});
}

void add_food(const prepared_plan& p, const zone& z, preparation_text& out) {
  for (const plan_step& s : steps_of(p.test, p.what)) {
    for (const preparation_window* w : s.windows) {
      if (!w->eat || w->eat->empty()) continue;
      page_list list{"Food that fits the test",
                     "Leave out what you are allergic to or told to avoid. Nothing left for "
                     "you? Call the laboratory.",
                     *w->eat, false};
      if (w->drink && !w->drink->empty()) {
        std::vector<std::string> drinks;
        for (const std::string& one : *w->drink)
          drinks.push_back(within_sentence(one));
        list.lines.push_back("To drink: " + joined(drinks));
      }
      // Of several lists each says how long it holds.
      if (!out.food.empty()) list.title += ", until " + short_moment(s.until, z);
      out.food.push_back(std::move(list));
    }
  }
}

void add_evening(const prepared_plan& p, preparation_text& out) {
  page_list& list = out.evening;
  list.title = "The evening before";
  list.boxes = true;
  list.lines.push_back(fmt::format("The {} tubes and the straw", p.test.samples()));
  list.lines.push_back("Their labels, written: all but date and time");
  list.lines.push_back(fmt::format("The {} packet, closed", p.test.sugar.name));
  list.lines.push_back(fmt::format("A glass, and {} ml of water", p.test.sugar.water_ml));
  list.lines.push_back("A pen, the symptom sheet, this page");
  list.lines.push_back("The device, its charger, a clock you can see");
  list.lines.push_back("An ordinary alarm clock, set");
  list.note = empty_tubes_text(p.test);
}

void add_morning(const prepared_plan& p, const zone& z, preparation_text& out) {
  page_list& list = out.morning;
  list.title = "The morning";
  list.boxes = true;
  for (const plan_step& s : steps_of(p.test, p.what)) {
    if (s.until == p.what.start)
      list.lines.push_back(fmt::format("{}, since {}", step_words(s), clock_on(s.from, z)));
  }
  for (const advice& a : p.test.medicines)
    list.lines.push_back(a.text);
  if (p.test.medicines.empty()) list.lines.push_back("Medicines as prescribed");
  list.lines.push_back("The sugar still closed");
}

// Things of which the same is said, named together.
struct said_together {
  std::string day;
  std::string text;
  std::vector<std::string> names;
};

// Adds a name to those of the same day and text, or begins with it anew.
void add_name(const std::string& day, const std::string& text, const std::string& name,
              std::vector<said_together>& out) {
  const auto same = std::find_if(out.begin(), out.end(), [&](const said_together& s) {
    return s.day == day && s.text == text;
  });
  if (same == out.end())
    out.push_back({day, text, {name}});
  else
    same->names.push_back(within_sentence(name));
}

// What was told as taken stands there with its day; what nobody asked about yet, in one line.
void add_medicines(const prepared_plan& p, preparation_text& out) {
  page_list& list = out.medicines;
  list.title = "Medicines";
  list.lines.push_back(
      "Take all of them as prescribed or as told for this test. Not sure? Ask your "
      "prescriber or pharmacist. Never just leave one out.");
  std::vector<said_together> taken;
  std::vector<said_together> untold;
  for (const planned_washout& w : p.what.washouts) {
    const washout* rule = find_washout(p.test, w.rule);
    if (rule == nullptr) continue;
    const std::string& name = rule->name.empty() ? w.rule : rule->name;
    const std::string day = short_day(plus_days(w.last_dose_on_or_before, std::chrono::days{1}));
    const answered_washout* told = answer_of(p, w.rule);
    if (told == nullptr) {
      add_name(day, "", within_sentence(name), untold);
    } else if (told->answer == washout_answer::cannot_stop) {
      list.lines.push_back(name + ": keep taking it as prescribed, and tell the laboratory.");
    } else if (told->answer != washout_answer::never && rule->kind != washout_kind::happening) {
      add_name(day, rule->text, name, taken);
    }
  }
  for (const said_together& s : taken)
    list.lines.push_back(fmt::format("{}, from {}: {}", joined(s.names), s.day, s.text));
  if (untold.empty()) return;
  std::string named;
  for (const said_together& s : untold)
    named += fmt::format("{}{} ({})", named.empty() ? "" : "; ", joined(s.names), s.day);
  list.lines.push_back(
      fmt::format("The test asks about these, from the day shown: {}. Do not change anything "
                  "by yourself: ask first, and tell the laboratory.",
                  named));
}

// What may have changed by the morning.
std::string call_first(const protocol& test) {
  std::string out = "Call before you open anything, for: ";
  for (std::size_t i = 0; i < test.morning.size(); ++i)
    out += (i == 0 ? "" : "; ") + within_sentence(test.morning[i].name);
  return out + ".";
}

void add_trouble(const prepared_plan& p, preparation_text& out) {
  page_list& list = out.trouble;
  list.title = "If something goes wrong";
  list.lines.emplace_back("Low blood sugar: take your own sugar, then call.");
  if (!p.test.morning.empty()) list.lines.push_back(call_first(p.test));
  list.lines.push_back("You feel unwell: sit down, and call for help. In danger, call " +
                       p.lab.emergency + ".");
  list.lines.emplace_back("You ate, drank, smoked or slept: tell the program, or write it below. "
                          "Thank you.");
  list.lines.emplace_back("You are late or ill: keep the sugar closed. The test can be moved.");
}

} // namespace

preparation_text preparation_of(const prepared_plan& p, const zone& z, instant made_at) {
  preparation_text out;
  out.rehearsal = p.rehearsal;
  out.called_off = p.called_off;
  out.title = "How to prepare";
  if (p.lab.for_trying) out.title += fmt::format(". {}", for_trying_words);
  out.start = full_moment(p.what.start, z);
  first_facts(p, out);
  add_moments(p, z, out);
  add_food(p, z, out);
  add_evening(p, out);
  add_morning(p, z, out);
  add_medicines(p, out);
  add_trouble(p, out);
  out.whom = {{"The laboratory", p.lab.name},
              {"Telephone", p.lab.telephone},
              {"Hours", p.lab.telephone_hours},
              {"In danger", p.lab.emergency}};
  const instant first = p.what.windows.empty() ? p.what.start : p.what.windows.front().from;
  if (z.offset_at(first) != z.offset_at(p.what.ends))
    out.foot.emplace_back("The clocks change in these days. The times on this page are right.");
  out.foot.push_back(fmt::format("Times are those of {}. Page made on {}; a plan that was moved "
                                 "later has another page.",
                                 z.name(), full_moment(made_at, z)));
  if (!p.lab.outside_hours.empty()) out.foot.push_back("Nobody answers: " + p.lab.outside_hours);
  out.foot.emplace_back("This page guides. It is no diagnosis, and your doctor's word goes first.");
  return out;
}

} // namespace qb::inline sheets
