// One pass, with a count for each rule.
#include "core/findings/bounded.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::inline findings {

namespace {

void cut(finding& f) {
  if (f.events.size() > most_finding_events) f.events.resize(most_finding_events);
  if (f.words.size() <= most_finding_words) return;
  std::size_t end = 0; // of the last whole character that has room
  for (std::size_t at = 0; at <= most_finding_words; (void)next_character(f.words, at))
    end = at;
  f.words.resize(end);
  f.words += " (and more, which stands in the record)";
}

// Those of one rule that are not told one by one.
struct rest {
  std::size_t at{0}; // in the list
  std::int64_t count{0};
  std::int64_t first{0};
  std::int64_t last{0};
};

void add(rest& to, finding& sum, const finding& one) {
  ++to.count;
  sum.weight = std::max(sum.weight, one.weight);
  if (one.events.empty()) return;
  if (to.first == 0) to.first = one.events.front();
  to.last = one.events.back();
}

} // namespace

std::vector<finding> bounded_findings(std::vector<finding> all) {
  std::vector<finding> out;
  std::map<std::string, std::size_t> told;
  std::map<std::string, rest> rests;
  for (finding& f : all) {
    if (++told[f.rule] <= most_of_a_rule) {
      cut(f);
      out.push_back(std::move(f));
      continue;
    }
    const auto [of, is_first] = rests.try_emplace(f.rule, rest{out.size()});
    if (is_first) out.push_back({f.rule, f.weight, {}, {}, {}, ""});
    add(of->second, out[of->second.at], f);
  }
  for (const auto& [rule, more] : rests) {
    finding& sum = out[more.at];
    sum.figures = {more.count};
    if (more.first != 0) sum.events = {more.first, more.last};
    sum.words = fmt::format("{} more of the kind before, which stand in the record", more.count);
  }
  return out;
}

} // namespace qb::inline findings
