// `quarterbreath plan`: the plan of a start, as text or JSON. Reads no clock, but for the date of
// files that it is asked to write.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "core/base/json.hpp"
#include "core/findings/findings.hpp"
#include "core/plan/plan.hpp"
#include "core/sheet/sheet.hpp"

#include <cstdio>
#include <fmt/core.h>

namespace qb::patient {

namespace {

using json::array;
using json::object;

result<fold> parse_fold(const std::string& text) {
  if (text.empty()) return fold::unasked;
  if (text == "first") return fold::first;
  if (text == "second") return fold::second;
  return tl::unexpected(
      refusal{refusal_kind::out_of_range, "", "--fold", "\"" + text + "\"", "first or second"});
}

// Texts of instants; the first that cannot be written is kept as the refusal.
struct instant_writer {
  const zone& z;
  std::optional<refusal> no;
  std::string operator()(instant t) {
    auto text = rfc3339(t, z);
    if (text) return *text;
    if (!no) no = text.error();
    return {};
  }
};

result<json::value> as_json(const plan& p, const std::vector<std::string>& during, const zone& z) {
  instant_writer at{z, std::nullopt};
  array windows;
  for (const planned_window& w : p.windows)
    windows.emplace_back(object{{"rule", w.rule}, {"from", at(w.from)}, {"until", at(w.until)}});
  array washouts;
  for (const planned_washout& w : p.washouts)
    washouts.emplace_back(
        object{{"rule", w.rule}, {"last_dose_on_or_before", date_text(w.last_dose_on_or_before)}});
  array samples;
  for (const planned_sample& s : p.samples)
    samples.emplace_back(object{{"number", std::int64_t{s.number.value()}}, {"due", at(s.due)}});
  object out{{"protocol", p.protocol_id},
             {"zone", p.zone_name},
             {"start", at(p.start)},
             {"windows", std::move(windows)},
             {"washouts", std::move(washouts)},
             {"samples", std::move(samples)},
             {"ends", at(p.ends)},
             {"during_test", json::list_of(during)},
             {"post_on_or_before", date_text(p.post_on_or_before)}};
  if (at.no) return tl::unexpected(*at.no);
  return out;
}

// A moment for a reader on paper: always the day and the date.
std::string moment(instant t, const zone& z) {
  const civil_time there = z.civil_at(t);
  return fmt::format("{} {} {}", date_text(date_of(there)), clock_text(there),
                     day_and_time(t, t, z).substr(0, 3));
}

std::string as_text(const plan& p, const protocol& test, const std::vector<std::string>& during,
                    const zone& z) {
  std::string out = fmt::format("{}\nStart  {}  ({})\n\nBefore the start\n", test.title,
                                moment(p.start, z), p.zone_name);
  for (const planned_washout& w : p.washouts)
    out +=
        fmt::format("  last dose on or before {}  {}\n      {}\n",
                    date_text(w.last_dose_on_or_before), w.rule, find_washout(test, w.rule)->text);
  for (const planned_window& w : p.windows)
    out += fmt::format("  {} to {}  {}\n      {}\n", moment(w.from, z), moment(w.until, z), w.rule,
                       find_window(test, w.rule)->text);
  out += "\nSamples\n";
  for (const planned_sample& s : p.samples)
    out += fmt::format("  tube {:2}  {}\n", s.number.value(), moment(s.due, z));
  out += "\nUntil the last sample\n";
  for (const std::string& text : during)
    out += "  " + text + "\n";
  out += fmt::format("\nPost on or before {}\n"
                     "Due times count from when tube 1 is really closed.\n"
                     "Never stop a prescribed medicine for the test: ask your prescriber.\n",
                     date_text(p.post_on_or_before));
  return out;
}

} // namespace

int plan_command(const shared_options& shared, const plan_options& o) {
  const auto test = load_offered_protocol(shared.assets, o.protocol);
  if (!test) return say_no(test.error());
  const auto profile = load_profile(shared.assets, o.profile);
  if (!profile) return say_no(profile.error());
  const auto z = load_zone(o.zone);
  if (!z) return say_no(z.error());
  const auto civil = parse_civil(o.start);
  if (!civil) {
    refusal no = civil.error();
    no.where = "--start";
    return say_no(no);
  }
  const auto choice = parse_fold(o.fold);
  if (!choice) return say_no(choice.error());
  const auto start = resolve_start(*civil, *z, *choice);
  if (!start) return say_no(start.error());
  const auto p = make_plan(test->value, *start, *z);
  if (!p) return say_no(p.error());
  const auto written = write_reminders(o, *p, test->value, profile->value, *z);
  if (!written) return say_no(written.error());
  const auto during = during_test_texts(test->value, profile->value);
  if (shared.format == "text") {
    tell("{}", as_text(*p, test->value, during, *z));
    for (const std::string& path : *written)
      tell("Written {}\n", path);
    return 0;
  }
  const auto out = as_json(*p, during, *z);
  if (!out) return say_no(out.error());
  tell("{}", json::pretty(*out));
  return 0;
}

} // namespace qb::patient
