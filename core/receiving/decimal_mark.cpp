// Two passes: which mark is sure, and what then does not fit it.
#include "core/receiving/decimal_mark.hpp"

#include "core/base/json_fields.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

constexpr std::string_view both = ".,";
constexpr std::size_t group = 3; // digits between marks of thousands

bool all_digits(std::string_view text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The one mark of a figure, and where; npos where it has none, or several, which no figure has.
std::size_t mark_in(std::string_view text) {
  const std::size_t at = text.find_first_of(both);
  return at == text.npos || text.find_first_of(both, at + 1) != text.npos ? text.npos : at;
}

// What it is if its mark parts thousands; nothing where it cannot.
std::optional<exact> in_thousands(const written_figure& f, std::size_t at) {
  const std::string before = f.text.substr(0, at);
  const std::string after = f.text.substr(at + 1);
  if (!all_digits(before) || before.size() > group || before.front() == '0') return std::nullopt;
  if (!all_digits(after) || after.size() != group) return std::nullopt;
  const auto n = exact::parse(before + after);
  return n && *n <= f.most ? n : std::nullopt;
}

refusal no_to(const written_figure& f, std::string expected) {
  return {refusal_kind::malformed, "", fmt::format("line {}, {}", f.line, f.column),
          json::shown(json::value(f.text)), std::move(expected)};
}

const char* words_of(char mark) {
  return mark == ',' ? "a decimal comma" : "a decimal point";
}

} // namespace

found_mark decimal_mark_of(const std::vector<written_figure>& all) {
  found_mark out;
  const written_figure* sure = nullptr; // the first that can be read one way only
  for (const written_figure& f : all) {
    const std::size_t at = mark_in(f.text);
    if (at == f.text.npos || in_thousands(f, at) || !read_figure(f.text, f.text[at])) continue;
    sure = &f;
    out.mark = f.text[at];
    break;
  }
  for (const written_figure& f : all) {
    const std::size_t at = mark_in(f.text);
    if (at == f.text.npos || !read_figure(f.text, f.text[at])) continue; // the reader says more
    if (sure == nullptr)
      out.refused.push_back(no_to(f, fmt::format("a figure that can be read one way: this may be "
                                                 "{} or {}.{}",
                                                 in_thousands(f, at)->text(), f.text.substr(0, at),
                                                 f.text.substr(at + 1))));
    else if (f.text[at] != out.mark)
      out.refused.push_back(no_to(f, fmt::format("{}, as in line {}: a table has one for all its "
                                                 "figures",
                                                 words_of(out.mark), sure->line)));
  }
  return out;
}

std::optional<exact> read_figure(std::string text, char mark) {
  if (text.find(mark == ',' ? '.' : ',') != text.npos) return std::nullopt;
  if (mark == ',') std::replace(text.begin(), text.end(), ',', '.');
  return exact::parse(text);
}

} // namespace qb::inline receiving
