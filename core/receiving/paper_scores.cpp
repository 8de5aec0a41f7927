// The scores of a paper sheet, group by group.
#include "core/receiving/paper.hpp"
#include "core/receiving/typed_place.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

refusal no_scores(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "scores", std::move(found), std::move(expected)};
}

// The same with the place of the word in the text.
refusal at_word(refusal no, std::string_view text, std::string_view word) {
  no.where = typed_place("scores", text, word);
  return no;
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

// `what`: "tube 4", "row A".
result<tube_scores> read_group(std::string_view group, const std::string& what,
                               std::size_t symptoms, int most) {
  if (group == "-") return tube_scores(symptoms);
  const auto parts = parts_of(group);
  if (parts.size() != symptoms)
    return tl::unexpected(no_scores(fmt::format("{} scores for {}", parts.size(), what),
                                    fmt::format("{}, as the sheet's columns stand", symptoms)));
  tube_scores out;
  for (const std::string_view part : parts) {
    const auto n = number_in(part);
    if (part != "-" && (!n || *n > most))
      return tl::unexpected(no_scores("no such score for " + what,
                                      fmt::format("0 to {}, or - where none was given", most)));
    out.push_back(n);
  }
  return out;
}

// The row that such a word begins: "A", "B@13:30".
std::optional<score_time> row_of(std::string_view word) {
  for (const score_time t : both_score_times) {
    if (word.substr(0, word.find('@')) == paper_row_of(t)) return t;
  }
  return std::nullopt;
}

// One row from its word and its group, which are of `rows`.
result<paper_after> read_row(std::string_view rows, std::string_view word, std::string_view group,
                             std::size_t symptoms, int most) {
  const auto what = row_of(word);
  if (!what)
    return tl::unexpected(
        at_word(no_scores("another word after row A or B", "A or B"), rows, word));
  const std::string name = std::string("row ") + paper_row_of(*what);
  paper_after out{*what, std::nullopt, {}};
  if (const std::size_t at = word.find('@'); at != word.npos) {
    out.at = read_day_minute(word.substr(at + 1));
    if (!out.at)
      return tl::unexpected(at_word(
          no_scores("no time for " + name, "A@10:45, or A where none is written"), rows, word));
  }
  const std::size_t wanted = symptoms != 0 || group == "-" ? symptoms : parts_of(group).size();
  auto scores = read_group(group, name, wanted, most);
  if (!scores) return tl::unexpected(at_word(scores.error(), rows, group));
  out.scores = std::move(*scores);
  return out;
}

} // namespace

std::string_view paper_rows_in(std::string_view scores) {
  for (const std::string_view word : typed_words(scores, between_typed)) {
    if (row_of(word)) return scores.substr(static_cast<std::size_t>(word.data() - scores.data()));
  }
  return {};
}

result<std::vector<paper_after>> read_paper_after(std::string_view rows, std::size_t symptoms,
                                                  int most, const std::vector<score_time>& asked) {
  const std::vector<std::string_view> words = typed_words(rows, between_typed);
  std::vector<paper_after> out;
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const std::string_view end = rows.substr(rows.size());
    auto one = read_row(rows, words[i], i + 1 < words.size() ? words[i + 1] : end, symptoms, most);
    if (!one) return tl::unexpected(one.error());
    const auto same = [&](const paper_after& x) { return x.what == one->what; };
    if (std::any_of(out.begin(), out.end(), same) ||
        std::find(asked.begin(), asked.end(), one->what) == asked.end())
      return tl::unexpected(at_word(no_scores(fmt::format("row {}", paper_row_of(one->what)),
                                              "each row once, of those on this test's sheet"),
                                    rows, words[i]));
    out.push_back(std::move(*one));
  }
  return out;
}

std::string paper_after_text(const std::vector<paper_after>& after) {
  std::string out;
  for (const paper_after& row : after) {
    out += (out.empty() ? "" : " ") + std::string(paper_row_of(row.what));
    if (row.at) out += "@" + day_minute_text(*row.at);
    out += " " + paper_scores_text({row.scores});
  }
  return out;
}

result<std::vector<tube_scores>> read_paper_scores(std::string_view text, std::size_t samples,
                                                   std::size_t symptoms, int most) {
  const std::vector<std::string_view> groups = typed_words(text, between_typed);
  if (groups.size() != samples)
    return tl::unexpected(no_scores(fmt::format("scores of {} tubes", groups.size()),
                                    fmt::format("{}, one group a tube, - for none", samples)));
  std::vector<tube_scores> out;
  for (const std::string_view group : groups) {
    auto one = read_group(group, fmt::format("tube {}", out.size() + 1), symptoms, most);
    if (!one) return tl::unexpected(at_word(one.error(), text, group));
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

} // namespace qb::inline receiving
