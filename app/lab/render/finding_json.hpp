// A finding as JSON: written here alone, so that it has the same fields whichever command shows it.
//
//   rule, weight ("note" or "review": how weighty it is as it was found), tube (its number; null:
//   the whole test), words, events, figures (the numbers of its words)
// and where the laboratory's rules were asked, beside them
//   name, source (the rule's, in full), consequence ("note", "review", "cannot-be-used": what
//   follows from it), set_aside {by, reason, at}
// What is not known is null: a code tells the rule alone.
#pragma once

#include "core/base/json.hpp"
#include "core/case/case.hpp"

#include <string>

namespace qb::lab {

// As it was found; with what follows from it; and as it is noted in a code.
[[nodiscard]] json::value finding_json(const finding& f);
[[nodiscard]] json::value finding_json(const case_finding& f);
[[nodiscard]] json::value finding_json(const std::string& rule);

// A list of them.
template <typename List>
[[nodiscard]] json::value findings_json(const List& all) {
  json::array out;
  for (const auto& one : all)
    out.push_back(finding_json(one));
  return out;
}

} // namespace qb::lab
