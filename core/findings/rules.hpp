// Findings as data: what each is called, what it is about, where its rule comes from, and what
// follows from it. The file is assets/findings/findings.json, the contract
// assets/schema/findings.schema.json; a laboratory's profile may set consequences of its own.
// Code finds things and says how weighty they are; what follows is never in code.
#pragma once

#include "core/findings/findings.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::inline findings {

// What a finding speaks of.
enum class finding_scope { test, tube };

// One entry. `lesser` is the consequence where the code calls the finding a mere note: less than
// is asked but not under the least, or answered and agreed. None: always `weight`.
struct finding_rule {
  std::string rule;
  std::string name; // a few words
  finding_scope about{finding_scope::test};
  consequence weight{consequence::note};
  std::optional<consequence> lesser;
  std::string source; // of the rule; the consequence is always the laboratory's own
  // Somebody may need help, or the sugar was not what was meant: not to wait for the box.
  bool at_once{false};
  // The same to whoever was tested, without the trade's words; empty: the name will do.
  std::string plain{};
};

// All of them, with the sources they name.
struct finding_rules {
  std::vector<finding_rule> rules; // in the file's order, each id once
  std::vector<source> sources;
};

// Reads the file; refuses with line and field, as `read_protocol` does.
[[nodiscard]] result<finding_rules> read_finding_rules(std::string_view text);

// The entry of that rule, or nullptr.
[[nodiscard]] const finding_rule* find_rule(const finding_rules& all, std::string_view rule);

// What follows from a finding: by the profile where it says, else by the entry; where neither knows
// the rule (a laboratory's own protocol may have others), as the code weighed it.
[[nodiscard]] consequence consequence_of(const finding& f, const finding_rules& all,
                                         const lab_profile& profile);

} // namespace qb::inline findings
