// The gate, and how a conclusion is spoken of.
#include "core/case/concluding.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::inline cases {

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

bool is_of_identity(const case_finding& f) {
  return std::any_of(identity_rules.begin(), identity_rules.end(),
                     [&](const char* rule) { return f.what.rule == rule; });
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
    if (is_of_identity(f) && f.stands()) out.push_back(f.what.words);
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

namespace {

// "The lid of a tube was not closed well (tubes 4 and 7)."
std::string plain_sentence(const std::string& words, std::vector<int> tubes) {
  std::sort(tubes.begin(), tubes.end());
  tubes.erase(std::unique(tubes.begin(), tubes.end()), tubes.end());
  std::string list;
  for (std::size_t i = 0; i < tubes.size(); ++i)
    list += fmt::format("{}{}", i == 0 ? "" : i + 1 < tubes.size() ? ", " : " and ", tubes[i]);
  if (list.empty()) return words + ".";
  return fmt::format("{} (tube{} {}).", words, tubes.size() == 1 ? "" : "s", list);
}

// A sentence a rule, of the standing findings for which `is` holds.
template <typename Is>
std::vector<std::string> sentences_of(const test_case& c, Is is) {
  std::vector<std::string> out;
  for (const case_finding& f : c.findings) {
    if (!f.stands() || !is(f)) continue;
    std::vector<int> tubes;
    for (const case_finding& g : c.findings)
      if (g.what.rule == f.what.rule && g.stands() && is(g) && g.what.sample)
        tubes.push_back(g.what.sample->value());
    const std::string one = plain_sentence(f.plain, tubes);
    if (std::find(out.begin(), out.end(), one) == out.end()) out.push_back(one);
  }
  return out;
}

} // namespace

std::vector<std::string> plain_reasons(const test_case& c, const received_kit& received) {
  auto out = sentences_of(c, [&](const case_finding& f) {
    const bool bars = std::find(c.cannot_be_used.begin(), c.cannot_be_used.end(), f.what.rule) !=
                      c.cannot_be_used.end();
    return bars || is_of_identity(f) || f.weight == consequence::cannot_be_used;
  });
  if (received.arrivals.empty()) out.emplace_back("No box of tubes reached us.");
  const std::vector<int> unread = unread_tubes(c);
  if (!received.arrivals.empty() && unread.size() == c.tubes.size())
    out.emplace_back("We have no measurement of any tube.");
  else if (!received.arrivals.empty() && !unread.empty())
    out.push_back(plain_sentence("We have no measurement of a tube", unread));
  if (!out.empty()) return out;
  return sentences_of(c, [](const case_finding& f) {
    return f.weight == consequence::review && f.plain != f.name;
  });
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

} // namespace qb::inline cases
