// The scores of a paper sheet, group by group.
#include "core/receiving/paper.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

namespace {

refusal no_scores(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "scores", std::move(found), std::move(expected)};
}

std::vector<std::string_view> split(std::string_view text, std::string_view at) {
  std::vector<std::string_view> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(at), text.size());
    out.push_back(text.substr(0, end));
    if (end == text.size()) break;
    text.remove_prefix(end + 1);
    if (text.empty()) out.push_back(text);
  }
  return out;
}

// The scores of a group as texts: between slashes, or a character each.
std::vector<std::string_view> parts_of(std::string_view group) {
  if (group.find('/') != group.npos) return split(group, "/");
  std::vector<std::string_view> out;
  for (std::size_t i = 0; i < group.size(); ++i)
    out.push_back(group.substr(i, 1));
  return out;
}

// A number of one or two digits; nothing of another text.
std::optional<int> number_in(std::string_view text) {
  constexpr std::size_t most_digits = 2;
  if (text.empty() || text.size() > most_digits) return std::nullopt;
  int n = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    n = n * 10 + (c - '0');
  }
  return n;
}

result<tube_scores> read_group(std::string_view group, std::size_t tube, std::size_t symptoms,
                               int most) {
  if (group == "-") return tube_scores(symptoms);
  const auto parts = parts_of(group);
  if (parts.size() != symptoms)
    return tl::unexpected(no_scores(fmt::format("{} scores for tube {}", parts.size(), tube),
                                    fmt::format("{}, as the sheet's columns stand", symptoms)));
  tube_scores out;
  for (const std::string_view part : parts) {
    const auto n = number_in(part);
    if (part != "-" && (!n || *n > most))
      return tl::unexpected(no_scores(fmt::format("no such score for tube {}", tube),
                                      fmt::format("0 to {}, or - where none was given", most)));
    out.push_back(n);
  }
  return out;
}

} // namespace

result<std::vector<tube_scores>> read_paper_scores(std::string_view text, std::size_t samples,
                                                   std::size_t symptoms, int most) {
  std::vector<std::string_view> groups = split(text, " \t\r,;");
  groups.erase(std::remove_if(groups.begin(), groups.end(), [](auto g) { return g.empty(); }),
               groups.end());
  if (groups.size() != samples)
    return tl::unexpected(no_scores(fmt::format("scores of {} tubes", groups.size()),
                                    fmt::format("{}, one group a tube, - for none", samples)));
  std::vector<tube_scores> out;
  for (const std::string_view group : groups) {
    auto one = read_group(group, out.size() + 1, symptoms, most);
    if (!one) return tl::unexpected(one.error());
    out.push_back(std::move(*one));
  }
  return out;
}

std::string paper_scores_text(const std::vector<tube_scores>& scores) {
  std::string out;
  for (const tube_scores& group : scores) {
    const bool none = std::none_of(group.begin(), group.end(), [](const auto& s) { return s; });
    std::string text;
    for (const auto& score : group)
      text += (text.empty() ? "" : "/") + (score ? fmt::format("{}", *score) : std::string("-"));
    out += (out.empty() ? "" : " ") + (none ? std::string("-") : text);
  }
  return out;
}

} // namespace qb
