// Wording what is known of a kit.
#include "app/lab/receive_text.hpp"

#include "app/lab/printable.hpp"
#include "core/lab/worklist.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <set>

namespace qb::lab {

namespace {

// Findings that tell of stopping, vomiting or feeling unwell, with their words here.
const std::vector<std::pair<std::string, std::string>>& stops() {
  static const std::vector<std::pair<std::string, std::string>> all{
      {"test-ended", "STOPPED"},
      {"drink-vomited", "VOMITED"},
      {"warning-signs", "WARNING SIGNS TOLD"},
      {"unwell-told", "unwell"},
      {"stopped-told", "STOPPED or vomited"}};
  return all;
}

std::set<std::string> told_rules(const known_kit& known, const std::vector<bench_finding>& box) {
  std::set<std::string> out;
  if (known.code) out = known.code->flags;
  if (known.log)
    for (const finding& f : known.log->findings)
      out.insert(f.rule);
  for (const bench_finding& f : box)
    out.insert(f.rule);
  return out;
}

const char* record_of(const bench_kit& bench, const known_kit& known) {
  if (known.log) return "log";
  if (known.code) return "code";
  return bench.papers.empty() ? "none" : "paper";
}

std::optional<civil_date> tested_on(const bench_kit& bench, const known_kit& known) {
  if (known.told && known.told->tested) return known.told->tested;
  return bench.arrivals.empty() ? std::nullopt : bench.arrivals.back().tested;
}

std::int64_t days_since(const desk& at, civil_date day) {
  const auto today = std::chrono::sys_days{date_of(at.place().civil_at(at.now()))};
  return (today - std::chrono::sys_days{day}).count();
}

std::int64_t taken(const told_tubes& told) {
  return std::count_if(told.labels.begin(), told.labels.end(),
                       [](const auto& l) { return l.has_value(); });
}

std::string protocol_of(const bench_kit& bench, const known_kit& known) {
  if (known.told) return known.told->protocol;
  return bench.arrivals.empty() ? "" : bench.arrivals.back().protocol;
}

std::string days_ago(std::int64_t days) {
  if (days == 0) return "today";
  return days == 1 ? "yesterday" : fmt::format("{} days ago", days);
}

} // namespace

std::string kit_line(const desk& at, const bench_kit& bench, const known_kit& known) {
  std::string out = bench.kit;
  const auto add = [&](const std::string& part) { out += "  " + part; };
  if (known.rehearsal) add("PRACTICE - not a test");
  if (known.log) {
    add(printable(known.log->name) +
        (known.log->birth_date ? ", born " + short_date(*known.log->birth_date) : ""));
  }
  const std::string test = protocol_of(bench, known);
  add(test.empty() ? "test not known" : printable(test));
  if (const auto day = tested_on(bench, known))
    add(fmt::format("tested {}, {}", short_date(*day), days_ago(days_since(at, *day))));
  if (known.told) {
    const auto all = static_cast<std::int64_t>(known.told->labels.size());
    const auto here = taken(*known.told);
    add(here == all ? fmt::format("completed, all {} tubes", all)
                    : fmt::format("NOT COMPLETED, {} of {} tubes", here, all));
  }
  const auto told = told_rules(known, check_box(bench, nullptr, {}, at.place()));
  for (const auto& [rule, words] : stops())
    if (told.count(rule) != 0) add(words);
  const std::string record = record_of(bench, known);
  add(record == "none" ? "no log yet" : record + " here");
  return out + "\n";
}

std::string box_lines(const desk& at, const bench_kit& bench, const known_kit& known) {
  std::string out;
  for (const bench_finding& f : at.findings_of(bench, known))
    out += fmt::format("  {} {}\n", f.weight == consequence::note ? '-' : '!', f.words);
  if (out.empty()) out = "  nothing amiss\n";
  if (bench.arrivals.empty()) return out;
  const civil_date arrived = date_of(at.place().civil_at(bench.arrivals.back().at));
  return out + fmt::format("  arrived {}, result due {}\n", short_date(arrived),
                           short_date(due_on(at.profile(), arrived)));
}

json::value box_json(const desk& at, const bench_kit& bench, const known_kit& known) {
  const auto text_or_null = [](const std::string& text) {
    return text.empty() ? json::value() : json::value(text);
  };
  const auto tested = tested_on(bench, known);
  const auto box = at.findings_of(bench, known);
  json::array findings;
  for (const bench_finding& f : box) {
    json::array tubes;
    for (const int n : f.samples)
      tubes.push_back(n);
    findings.push_back(json::object{{"rule", f.rule},
                                    {"weight", f.weight == consequence::note ? "note" : "review"},
                                    {"tubes", std::move(tubes)},
                                    {"words", f.words}});
  }
  json::array told;
  for (const auto& [rule, words] : stops())
    if (told_rules(known, box).count(rule) != 0) told.push_back(rule);
  const bool came = !bench.arrivals.empty();
  const auto day = [&](instant t) { return date_of(at.place().civil_at(t)); };
  const json::value none;
  return json::object{
      {"kit", bench.kit},
      {"protocol", text_or_null(protocol_of(bench, known))},
      {"name", known.log ? json::value(known.log->name) : none},
      {"birth_date",
       known.log && known.log->birth_date ? json::value(date_text(*known.log->birth_date)) : none},
      {"tested", tested ? json::value(date_text(*tested)) : none},
      {"age_days", tested ? json::value(days_since(at, *tested)) : none},
      {"tubes_taken", known.told ? json::value(taken(*known.told)) : none},
      {"tubes",
       known.told ? json::value(static_cast<std::int64_t>(known.told->labels.size())) : none},
      {"told", std::move(told)},
      {"record", record_of(bench, known)},
      {"rehearsal", known.rehearsal},
      {"arrived", came ? json::value(rfc3339_utc(bench.arrivals.back().at)) : none},
      {"due",
       came ? json::value(date_text(due_on(at.profile(), day(bench.arrivals.back().at)))) : none},
      {"findings", std::move(findings)}};
}

} // namespace qb::lab
