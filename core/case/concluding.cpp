// The gate, and how a conclusion is spoken of.
#include "core/case/concluding.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb {

namespace {

// What stands between a box and a person.
constexpr std::array identity_rules{"kit-shared", "person-differs", "identifiers-differ",
                                    "identifiers-open"};

std::vector<int> unread_tubes(const test_case& c) {
  std::vector<int> out;
  for (const case_tube& t : c.tubes)
    if (t.minute && !t.gases) out.push_back(t.number);
  return out;
}

std::string listed(const std::vector<std::string>& all) {
  std::string out;
  for (const std::string& one : all)
    out += (out.empty() ? "" : "; ") + one;
  return out;
}

refusal no(const char* where, std::string found, std::string expected, refusal_kind kind) {
  return {kind, "", where, std::move(found), std::move(expected)};
}

std::string day_of(instant t) {
  return rfc3339_utc(t).substr(0, std::string("2027-04-12").size());
}

} // namespace

std::vector<std::string> bars_to_concluding(const test_case& c, const received_kit& received,
                                            bool lack_explained) {
  std::vector<std::string> out;
  if (received.arrivals.empty()) out.emplace_back("no box of it was received");
  for (const case_finding& f : c.findings) {
    const bool identity = std::any_of(identity_rules.begin(), identity_rules.end(),
                                      [&](const char* rule) { return f.what.rule == rule; });
    if (identity && f.stands()) out.push_back(f.what.words);
  }
  for (const std::string& rule : c.cannot_be_used)
    if (std::find(identity_rules.begin(), identity_rules.end(), rule) == identity_rules.end())
      out.push_back("it cannot be used: " + rule);
  const std::vector<int> unread = unread_tubes(c);
  if (!unread.empty() && !lack_explained) {
    std::string tubes;
    for (const int n : unread)
      tubes += fmt::format("{}{}", tubes.empty() ? "" : ", ", n);
    out.push_back(fmt::format("no reading of tube{} {}, and nobody said why",
                              unread.size() == 1 ? "" : "s", tubes));
  }
  return out;
}

std::optional<refusal> no_to_conclusion(const conclusion& next, const test_case& c,
                                        const received_kit& received) {
  if (trimmed(next.by).empty())
    return no("--by", "no name", "the reader's name", refusal_kind::malformed);
  if (trimmed(next.words).empty())
    return no("--words", "nothing", "the reader's own words", refusal_kind::malformed);
  const bool first = received.conclusions.empty();
  const bool barred = next.kind == conclusion_kind::cannot_be_reported;
  if (first && (next.kind == conclusion_kind::amended || next.kind == conclusion_kind::corrected))
    return no("--kind", "no earlier conclusion to amend or correct", "final, or none",
              refusal_kind::not_now);
  if (!first && next.kind == conclusion_kind::final_one)
    return no("--kind",
              fmt::format("report {} of {} is there already", received.conclusions.back().number,
                          day_of(received.conclusions.back().at)),
              "--kind amended or --kind corrected, with --reason", refusal_kind::not_now);
  if (!first && trimmed(next.reason).empty())
    return no("--reason", "no reason", "why there is a later conclusion", refusal_kind::malformed);
  if (barred) return std::nullopt;
  const auto bars = bars_to_concluding(c, received, !trimmed(next.lack).empty());
  if (bars.empty()) return std::nullopt;
  return no("conclusion", listed(bars),
            "that put right or set aside first (--lack WHY explains missing readings), or --kind "
            "cannot-be-reported",
            refusal_kind::not_now);
}

std::string report_number_words(const test_case& c) {
  if (!c.concluded) return {};
  if (!c.replaced) return fmt::format("Report {}.", c.concluded->number);
  return fmt::format("Report {}, {}: replaces report {} of {} ({}).", c.concluded->number,
                     conclusion_kind_text(c.concluded->kind), c.replaced->number,
                     day_of(c.replaced->at), c.concluded->reason);
}

std::string printed_conclusion(const conclusion& c) {
  const bool barred = c.kind == conclusion_kind::cannot_be_reported;
  return (barred ? "Cannot be reported, because: " : "") + c.words +
         (c.lack.empty() ? "" : " Readings that are missing: " + c.lack + ".");
}

} // namespace qb
