// The strict reader of findings, and what a laboratory lets follow from one.
#include "core/findings/rules.hpp"

#include "core/protocol/rule_reader.hpp"

#include <algorithm>

namespace qb::inline findings {

namespace {

using json::fields;

constexpr std::size_t most_rules = 400;
constexpr std::size_t most_name = 100;
constexpr std::size_t most_plain = 200;

const std::vector<std::string>& consequence_keys() {
  static const std::vector<std::string> keys{consequence_text(consequence::note),
                                             consequence_text(consequence::review),
                                             consequence_text(consequence::cannot_be_used)};
  return keys;
}

finding_rule read_one(fields& f, rule_reader& rules) {
  finding_rule out;
  const rule_ref why = rules.ref(f);
  out.rule = why.rule;
  out.source = why.source;
  out.name = f.text("name", most_name);
  out.about = static_cast<finding_scope>(f.choice("about", {"test", "tube"}));
  out.weight = static_cast<consequence>(f.choice("consequence", consequence_keys()));
  if (const auto lesser = f.optional_text("lesser")) {
    out.lesser = read_consequence(*lesser);
    if (!out.lesser) f.refuse("lesser", "another text", "note, review or cannot-be-used");
  }
  out.plain = f.optional_text("plain", most_plain).value_or("");
  if (const auto when = f.optional_text("look")) {
    out.at_once = *when == "at-once";
    if (!out.at_once) f.refuse("look", "another text", "at-once");
  }
  return out;
}

// As graded: a note is the lesser where there is one.
consequence graded(consequence found, consequence weight, std::optional<consequence> lesser) {
  return found == consequence::note ? lesser.value_or(weight) : weight;
}

} // namespace

result<finding_rules> read_finding_rules(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-findings");
  finding_rules out;
  rule_reader rules(f, out.sources);
  rules.each(f, "findings", 1, most_rules,
             [&](fields& one) { out.rules.push_back(read_one(one, rules)); });
  if (auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

const finding_rule* find_rule(const finding_rules& all, std::string_view rule) {
  const auto found = std::find_if(all.rules.begin(), all.rules.end(),
                                  [&](const finding_rule& r) { return r.rule == rule; });
  return found == all.rules.end() ? nullptr : &*found;
}

consequence consequence_of(const finding& f, const finding_rules& all, const lab_profile& profile) {
  for (const own_consequence& own : profile.consequences) {
    if (own.finding == f.rule) return graded(f.weight, own.weight, own.lesser);
  }
  const finding_rule* rule = find_rule(all, f.rule);
  return rule == nullptr ? f.weight : graded(f.weight, rule->weight, rule->lesser);
}

} // namespace qb::inline findings
