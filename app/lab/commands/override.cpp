// The command `override`.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/receiving_values.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal no_override(const char* where, std::string found, std::string expected) {
  return {refusal_kind::missing, "", where, std::move(found), std::move(expected)};
}

// The findings that it is about.
std::vector<const case_finding*> about(const test_case& c, const override_options& o) {
  std::vector<const case_finding*> out;
  for (const case_finding& f : c.findings) {
    const bool tube = !o.tube || (f.what.sample && f.what.sample->value() == *o.tube);
    if (f.what.rule == o.rule && tube) out.push_back(&f);
  }
  return out;
}

std::string rules_found(const test_case& c) {
  std::vector<std::string> rules;
  for (const case_finding& f : c.findings) {
    if (std::find(rules.begin(), rules.end(), f.what.rule) == rules.end())
      rules.push_back(f.what.rule);
  }
  std::string out;
  for (const std::string& r : rules)
    out += (out.empty() ? "one of: " : ", ") + r;
  return out.empty() ? "a finding; there is none" : out;
}

std::optional<refusal> no_to(const test_case& c, const override_options& o) {
  const auto found = about(c, o);
  if (found.empty())
    return no_override("RULE", "a rule that was not found of this kit or tube", rules_found(c));
  const auto stands = [&](const case_finding* f) { return f->aside && f->aside->sample == o.tube; };
  if (o.withdraw && std::none_of(found.begin(), found.end(), stands))
    return no_override("--withdraw", "a finding that nobody set aside so",
                       "one that was, with the same --tube or none");
  return std::nullopt;
}

} // namespace

int override_finding(const shared_options& shared, const lab_context_options& options,
                     const override_options& o, const console& to) {
  const auto by = named_person(shared, options, work_act::set_aside);
  if (!by) return say_no(by.error(), to);
  if (const auto why = reason_given(o.reason); !why) return say_no(why.error(), to);
  auto open = open_case(shared, options, o.kit);
  if (!open) return say_no(open.error(), to);
  if (const auto no = no_to(open->kept.what, o)) return say_no(*no, to);
  const kept_case& kept = open->kept;
  const override_of entry{kept.looked_at.kit, o.rule,         o.tube,     *by,
                          o.reason,           open->at.now(), o.withdraw, {0, kept.received.test}};
  if (const auto put = open->at.received().put(row_of(entry), kept.looked_at.seen); !put) {
    to.out(came_since_look(open->at, kept.looked_at, put.error()));
    return say_no(put.error(), to);
  }
  const std::string tube = o.tube ? fmt::format(" of tube {}", *o.tube) : std::string();
  to.out(fmt::format("{}{} {} by {}\n", o.rule, tube, o.withdraw ? "stands again," : "set aside",
                     *by));
  return 0;
}

} // namespace qb::lab
