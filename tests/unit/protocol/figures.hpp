// What the tests of shipped figures share: the five protocols asked one question.
// Each test names the rule it holds and the published source of its figure; rules_named_test.cpp
// sees to it that no shipped rule goes without.
#pragma once

#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <string>

namespace qb::test {

// The window, washout, holding rule or question of that id in that protocol; it must be there.
inline const preparation_window& window_in(const std::string& id, const std::string& rule) {
  const auto* found = find_window(shipped(id), rule);
  QB_BELIEVE(found != nullptr);
  return *found;
}
inline const washout& washout_in(const std::string& id, const std::string& rule) {
  const auto* found = find_washout(shipped(id), rule);
  QB_BELIEVE(found != nullptr);
  return *found;
}
inline const caution& caution_in(const std::string& id, const std::string& rule) {
  const auto* found = find_caution(shipped(id), rule);
  QB_BELIEVE(found != nullptr);
  return *found;
}
inline const holding_rule& holding_in(const std::string& id, const std::string& rule) {
  for (const holding_rule& h : shipped(id).during_test) {
    if (h.why.rule == rule) return h;
  }
  QB_BELIEVE(false);
  return shipped(id).during_test.front();
}

// Whether it is one of the two that look for a sugar that does not agree with the person.
inline bool is_intolerance(const std::string& id) {
  return id == "lactose-25g" || id == "fructose-25g";
}

// How a source of that protocol is known: "read", "memory", "common-practice", "inferred" or
// "laboratory".
inline std::string basis_of(const std::string& id, const std::string& source_id) {
  const source* found = find_source(shipped(id), source_id);
  return found == nullptr ? "" : found->basis;
}

inline bool contains(const std::string& text, const std::string& piece) {
  return text.find(piece) != std::string::npos;
}

} // namespace qb::test
