// The files of `quarterbreath plan`: reminders and the preparation page of a plan without a record.
// Kept apart from the plan itself, which needs no file and no clock.
#include "app/handover/export_plan.hpp"
#include "app/machine/clocks.hpp"
#include "app/patient/command/commands.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/sheet/calendar.hpp"

#include <algorithm>

namespace qb::patient {

namespace {

result<instant> moment_asked(const plan_options& o) {
  if (o.made_at.empty()) return from_unix_ms(read_clocks().wall_ms);
  auto t = parse_rfc3339_utc(o.made_at);
  if (!t) t.error().where = "--made-at";
  return t;
}

result<std::vector<answered_washout>> taken(const plan_options& o, const protocol& test) {
  std::vector<answered_washout> out;
  if (o.taking.empty()) return out;
  for (const std::string& rule : o.taking) {
    if (find_washout(test, rule) != nullptr) continue;
    std::string known;
    for (const washout& w : test.washouts)
      known += (known.empty() ? "" : ", ") + w.why.rule;
    return tl::unexpected(
        refusal{refusal_kind::out_of_range, "", "--taking", "\"" + rule + "\"", known});
  }
  // Once something is said, what is not named is not taken.
  for (const washout& w : test.washouts) {
    const bool named = std::find(o.taking.begin(), o.taking.end(), w.why.rule) != o.taking.end();
    out.push_back({w.why.rule, named ? washout_answer::until : washout_answer::never, {}, false});
  }
  return out;
}

} // namespace

result<std::vector<std::string>> write_reminders(const plan_options& o, const plan& p,
                                                 const protocol& test, const lab_profile& lab,
                                                 const zone& z) {
  if (o.calendar.empty() && o.page.empty()) return std::vector<std::string>{};
  const auto made_at = moment_asked(o);
  if (!made_at) return tl::unexpected(made_at.error());
  const std::string identity = o.identity.empty() ? test.id : o.identity;
  if (!is_calendar_identity(identity))
    return tl::unexpected(refusal{refusal_kind::malformed, "", "--identity", "\"" + identity + "\"",
                                  "at most 64 letters, digits and hyphens"});
  auto washouts = taken(o, test);
  if (!washouts) return tl::unexpected(washouts.error());
  prepared_plan out;
  out.test_id = identity;
  out.called_off = o.called_off;
  out.revision = o.sequence;
  out.test = test;
  out.lab = lab;
  out.what = p;
  out.kit_number = kit_key(o.kit);
  out.washouts = std::move(*washouts);
  own_disk device;
  auto files = handover::write_plan(device, {o.calendar, o.page}, out, z, *made_at);
  if (!files) return tl::unexpected(files.error());
  return std::move(files->paths);
}

} // namespace qb::patient
