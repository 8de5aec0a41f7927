// Wording what is known of a kit.
#include "app/lab/render/receive_text.hpp"

#include "app/lab/context/case_file.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/intake/evidence.hpp"
#include "app/lab/intake/versions.hpp"
#include "app/lab/render/finding_json.hpp"
#include "core/case/worklist.hpp"
#include "core/receiving/specimens.hpp"
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

std::set<std::string> reported_rules(const known_kit& known,
                                     const std::vector<receiving_finding>& box) {
  std::set<std::string> out;
  if (known.code) out = known.code->flags;
  if (known.log)
    for (const finding& f : known.log->findings)
      out.insert(f.rule);
  for (const receiving_finding& f : box)
    out.insert(f.rule);
  return out;
}

const char* record_of(const received_kit& received, const known_kit& known) {
  if (known.log) return "log";
  if (known.code) return "code";
  return received.papers.empty() ? "none" : "paper";
}

std::optional<civil_date> tested_on(const received_kit& received, const known_kit& known) {
  if (known.told && known.told->tested) return known.told->tested;
  return received.arrivals.empty() ? std::nullopt : received.arrivals.back().tested;
}

std::int64_t days_since(const lab_context& at, civil_date day) {
  const auto today = std::chrono::sys_days{date_of(at.place().civil_at(at.now()))};
  return (today - std::chrono::sys_days{day}).count();
}

std::int64_t taken(const recorded_tubes& told) {
  return std::count_if(told.labels.begin(), told.labels.end(),
                       [](const auto& l) { return l.has_value(); });
}

std::string protocol_of(const received_kit& received, const known_kit& known) {
  if (known.told) return known.told->protocol;
  return received.arrivals.empty() ? "" : received.arrivals.back().protocol;
}

std::string days_ago(std::int64_t days) {
  if (days < 0) return fmt::format("{} days from now", -days);
  if (days == 0) return "today";
  return days == 1 ? "yesterday" : fmt::format("{} days ago", days);
}

// The words of a finding, or its rule's name where it has none.
const std::string& said(const case_finding& f) {
  return f.what.words.empty() ? f.name : f.what.words;
}

// What the record itself tells a reader to look at: its findings from which more follows than a
// note, each once. Those of box and readings stand in the lines
// above.
std::vector<case_finding> record_findings(const lab_context& at, const case_rules& rules,
                                          const received_kit& received, const known_kit& known) {
  std::set<std::string> told;
  for (const receiving_finding& f : at.findings_of(received, known))
    told.insert(f.rule);
  std::vector<case_finding> out;
  for (case_finding& f : facts_of(at, rules, received, known).findings) {
    if (f.weight == consequence::note || !f.stands() || told.count(f.what.rule) != 0) continue;
    const auto same = [&](const case_finding& b) {
      return b.what.rule == f.what.rule && said(b) == said(f);
    };
    if (std::none_of(out.begin(), out.end(), same)) out.push_back(std::move(f));
  }
  return out;
}

// What is wrong with the signature beside the log; empty where nothing is, or none came.
std::string signature_fault(const lab_context& at, const known_kit& known) {
  if (!known.log) return {};
  const auto from = provenance_in(at.logs(), known.log->test_id, &*known.events);
  if (!from) return sentence(from.error());
  const signature_state s = from->signature().state;
  const bool none = s == signature_state::none || s == signature_state::good;
  return none ? std::string() : evidence_text(from->signature());
}

std::string record_lines(const lab_context& at, const received_kit& received,
                         const known_kit& known) {
  if (!known.told) return {};
  const auto rules = load_case_rules(at);
  if (!rules)
    return "  ! the record was not looked at: " + printable(sentence(rules.error())) + "\n";
  std::string out;
  for (const case_finding& f : record_findings(at, *rules, received, known))
    out += fmt::format("  ! {}\n", printable(said(f)));
  return out.empty() ? "  record: nothing amiss\n" : out;
}

// Beyond the last day of the profile's calendar nobody said which days are closed.
std::string calendar_note(const lab_profile& lab, civil_date due) {
  const auto& closed = lab.receiving.closed_days;
  if (closed.empty()) return {};
  const civil_date last = *std::max_element(closed.begin(), closed.end());
  if (due <= last) return {};
  return fmt::format(" (closed days are known until {} only)", short_date(last));
}

} // namespace

std::string kit_line(const lab_context& at, const received_kit& received, const known_kit& known) {
  std::string out = received.kit;
  const auto add = [&](const std::string& part) { out += "  " + part; };
  if (known.rehearsal) add("PRACTICE - not a test");
  if (known.log) {
    add(printable(known.log->name) +
        (known.log->birth_date ? ", born " + short_date(*known.log->birth_date) : ""));
  }
  const std::string test = protocol_of(received, known);
  add(test.empty() ? "test not known" : printable(test));
  if (const auto day = tested_on(received, known))
    add(fmt::format("tested {}, {}", short_date(*day), days_ago(days_since(at, *day))));
  if (known.told) {
    const auto all = static_cast<std::int64_t>(known.told->labels.size());
    const auto here = taken(*known.told);
    add(here == all ? fmt::format("completed, all {} tubes", all)
                    : fmt::format("NOT COMPLETED, {} of {} tubes", here, all));
  }
  if (const kit_supply supply = supply_of(received, known.supply); !supply.lot.empty())
    add("lot " + printable(supply.lot));
  const auto told = reported_rules(known, check_box(received, nullptr, {}, at.place()));
  for (const auto& [rule, words] : stops())
    if (told.count(rule) != 0) add(words);
  const std::string record = record_of(received, known);
  add(record == "none" ? "no log yet" : record + " here");
  return out + "\n";
}

std::string box_lines(const lab_context& at, const received_kit& received, const known_kit& known) {
  std::string out;
  for (const receiving_finding& f : at.findings_of(received, known))
    out += fmt::format("  {} {}\n", f.weight == consequence::note ? '-' : '!', f.words);
  if (out.empty()) out = "  box: nothing amiss\n";
  out += record_lines(at, received, known);
  if (received.arrivals.empty()) return out;
  const civil_date arrived = date_of(at.place().civil_at(received.arrivals.back().at));
  const civil_date due = due_on(at.profile(), arrived);
  return out + fmt::format("  arrived {}, result due {}{}\n", short_date(arrived), short_date(due),
                           calendar_note(at.profile(), due));
}

json::value receive_json(const lab_context& at, const received_kit& received,
                         const known_kit& known) {
  const auto tested = tested_on(received, known);
  const auto box = at.findings_of(received, known);
  const auto rules = load_case_rules(at);
  const auto of_record = known.told && rules ? record_findings(at, *rules, received, known)
                                             : std::vector<case_finding>();
  const std::string signature = signature_fault(at, known);
  json::array told;
  for (const auto& [rule, words] : stops())
    if (reported_rules(known, box).count(rule) != 0) told.push_back(rule);
  const bool came = !received.arrivals.empty();
  const auto day = [&](instant t) { return date_of(at.place().civil_at(t)); };
  const json::value none;
  return json::object{
      {"kit", received.kit},
      {"protocol", json::text_or_null(protocol_of(received, known))},
      {"name", known.log ? json::value(known.log->name) : none},
      {"birth_date",
       known.log && known.log->birth_date ? json::value(date_text(*known.log->birth_date)) : none},
      {"tested", tested ? json::value(date_text(*tested)) : none},
      {"age_days", tested ? json::value(days_since(at, *tested)) : none},
      {"tubes_taken", known.told ? json::value(taken(*known.told)) : none},
      {"tubes",
       known.told ? json::value(static_cast<std::int64_t>(known.told->labels.size())) : none},
      {"told", std::move(told)},
      {"record", record_of(received, known)},
      {"rehearsal", known.rehearsal},
      {"arrived", came ? json::value(rfc3339_utc(received.arrivals.back().at)) : none},
      {"due", came ? json::value(date_text(due_on(at.profile(), day(received.arrivals.back().at))))
                   : none},
      {"findings", findings_json(as_findings(box))},
      {"record_findings", findings_json(of_record)},
      {"signature_fault", json::text_or_null(signature)}};
}

} // namespace qb::lab
