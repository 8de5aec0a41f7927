// The command `which`: for the day on which a rule, a criterion or a lot turns out wrong.
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/own/own_commands.hpp"
#include "core/receiving/specimens.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

// What one test used.
struct used {
  std::string kit;
  std::string test; // empty: none is known under the kit number
  bool alone{true}; // no other test bears that number
  std::string protocol;
  std::string profile; // frozen in the log; of a code or sheet the laboratory's own
  std::vector<std::string> criteria;
  std::string lot;
  std::vector<std::string> runs; // of the analyser, of readings that count or do not
  std::string concluded;         // "no", or when
};

// The id of the profile that a log was made by.
std::optional<std::string> frozen_profile(const read_log_result& log) {
  for (const event& e : log.events) {
    const auto* open = std::get_if<opened>(&e.what);
    if (open == nullptr) continue;
    const auto v = json::parse(open->profile_text);
    const json::value* id = v ? v->find("id") : nullptr;
    if (id != nullptr && id->text() != nullptr) return *id->text();
  }
  return std::nullopt;
}

used used_by(const lab_context& at, const case_rules& rules, const kept_test& one) {
  const auto& [received, known] = one;
  used out;
  out.kit = received.kit;
  out.test = received.test;
  out.protocol = known.told                  ? known.told->protocol
                 : received.arrivals.empty() ? std::string()
                                             : received.arrivals.back().protocol;
  out.profile = at.profile().id;
  if (known.events) out.profile = frozen_profile(*known.events).value_or(out.profile);
  if (known.told) {
    if (const auto c = case_of_known(at, rules, received, known))
      for (const judged_criterion& j : c->judged.criteria)
        out.criteria.push_back(j.by->id);
  }
  out.lot = supply_of(received, known.supply).lot;
  for (const gas_reading& r : received.readings)
    if (!r.of.run.empty() &&
        std::find(out.runs.begin(), out.runs.end(), r.of.run) == out.runs.end())
      out.runs.push_back(r.of.run);
  out.concluded = "no";
  if (!received.conclusions.empty()) out.concluded = rfc3339_utc(received.conclusions.back().at);
  return out;
}

bool is_meant(const used& u, const which_options& o) {
  if (!o.protocol.empty()) return u.protocol == o.protocol;
  if (!o.profile.empty()) return u.profile == o.profile;
  if (!o.lot.empty()) return u.lot == o.lot;
  if (!o.run.empty()) return std::find(u.runs.begin(), u.runs.end(), o.run) != u.runs.end();
  return std::find(u.criteria.begin(), u.criteria.end(), o.criterion) != u.criteria.end();
}

} // namespace

int show_which(const shared_options& shared, const lab_context_options& options,
               const which_options& o, const console& to) {
  const auto given = {!o.protocol.empty(), !o.profile.empty(), !o.criterion.empty(), !o.lot.empty(),
                      !o.run.empty()};
  if (std::count(given.begin(), given.end(), true) != 1)
    return say_no({refusal_kind::missing, "", "which", "none of them, or several",
                   "one of --protocol, --used-profile, --criterion, --lot and --run"},
                  to);
  const auto at = lab_context::open(shared, options, false);
  if (!at) return say_no(at.error(), to);
  const auto rules = load_case_rules(*at);
  if (!rules) return say_no(rules.error(), to);
  const auto issued = load_issued(shared.store);
  if (!issued) return say_no(issued.error(), to);
  std::vector<used> found;
  const auto done = every_test(*at, [&](const kept_kit& of, const kept_test& one) {
    used u = used_by(*at, *rules, one);
    u.alone = of.tests.size() == 1;
    if (is_meant(u, o)) found.push_back(std::move(u));
    return result<void>();
  });
  if (!done) return say_no(done.error(), to);
  int status = 0;
  for (const damaged_kit& one : *done)
    status = say_no(in_file(one.why, shared.store), to);
  // Kits of a lot that are still with people count too: they are to be called back.
  std::vector<std::string> out_there;
  for (const issued_kit& k : *issued) {
    const bool here =
        std::any_of(found.begin(), found.end(), [&](const used& u) { return u.kit == k.number; });
    if (!o.lot.empty() && k.lot == o.lot && !here) out_there.push_back(k.number);
  }
  if (shared.format == output_format::json) {
    json::array tests;
    for (const used& u : found)
      tests.push_back(json::object{{"kit", u.kit},
                                   {"test", json::text_or_null(u.test)},
                                   {"protocol", json::text_or_null(u.protocol)},
                                   {"profile", u.profile},
                                   {"criteria", json::list_of(u.criteria)},
                                   {"lot", json::text_or_null(u.lot)},
                                   {"runs", json::list_of(u.runs)},
                                   {"concluded", u.concluded}});
    to.out(json::pretty(
        json::object{{"tests", std::move(tests)}, {"not_here", json::list_of(out_there)}}));
    return status;
  }
  std::string text;
  for (const used& u : found)
    text +=
        fmt::format("{}{}  {}  {}\n", printable(u.kit), u.alone ? "" : " test " + printable(u.test),
                    u.protocol.empty() ? "test not known" : printable(u.protocol),
                    u.concluded == "no" ? "not concluded" : "concluded " + u.concluded);
  for (const std::string& kit : out_there)
    text += fmt::format("{}  issued, nothing of it is here\n", kit);
  to.out(text.empty() ? "no test used it\n" : text);
  return status;
}

} // namespace qb::lab
