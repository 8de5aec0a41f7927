// Line by line, so that each refusal has its line.
#include "core/curve/curve_csv.hpp"

#include "core/base/json_fields.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb {

namespace {

constexpr std::array<const char*, 4> names{"minute", "h2_ppm", "ch4_ppm", "co2_pct"};
constexpr std::size_t required = 3;
constexpr std::size_t co2_column = 3;

std::string_view trimmed(std::string_view text) {
  const auto bare = [](std::string_view t) {
    while (!t.empty() && (t.front() == ' ' || t.front() == '\t'))
      t.remove_prefix(1);
    while (!t.empty() && (t.back() == ' ' || t.back() == '\t' || t.back() == '\r'))
      t.remove_suffix(1);
    return t;
  };
  text = bare(text);
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"')
    text = bare(text.substr(1, text.size() - 2));
  return text;
}

std::vector<std::string_view> cells_of(std::string_view line) {
  std::vector<std::string_view> out;
  for (std::size_t at = 0; at <= line.size();) {
    const std::size_t end = std::min(line.find(',', at), line.size());
    out.push_back(trimmed(line.substr(at, end - at)));
    at = end + 1;
  }
  return out;
}

std::string shown(std::string_view cell) {
  return json::shown(json::value(std::string(cell)));
}

refusal no_at(int line, std::string found, std::string expected) {
  return {refusal_kind::malformed, "", fmt::format("line {}", line), std::move(found),
          std::move(expected)};
}

// Where each of `names` stands in a row; nothing where the file has no such column.
using columns = std::array<std::optional<std::size_t>, names.size()>;

result<columns> read_header(std::string_view line, int number) {
  columns out;
  const auto cells = cells_of(line);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto at = std::find(names.begin(), names.end(), cells[i]);
    if (at == names.end())
      return tl::unexpected(no_at(number, "the column " + shown(cells[i]),
                                  "the columns minute, h2_ppm, ch4_ppm and, if any, co2_pct"));
    auto& place = out[static_cast<std::size_t>(at - names.begin())];
    if (place)
      return tl::unexpected(no_at(number, fmt::format("{} twice", *at), "each column once"));
    place = i;
  }
  for (std::size_t i = 0; i < required; ++i) {
    if (!out[i])
      return tl::unexpected(no_at(number, fmt::format("no column {}", names[i]),
                                  "the columns minute, h2_ppm and ch4_ppm"));
  }
  return out;
}

result<curve_sample> read_row(std::string_view line, int number, const columns& where,
                              std::size_t cells_expected) {
  const auto cells = cells_of(line);
  if (cells.size() != cells_expected)
    return tl::unexpected(no_at(number, fmt::format("{} cells", cells.size()),
                                fmt::format("{}, as the header has", cells_expected)));
  std::array<std::optional<exact>, names.size()> numbers;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (!where[i] || cells[*where[i]].empty()) continue;
    numbers[i] = exact::parse(cells[*where[i]]);
    if (!numbers[i])
      return tl::unexpected(no_at(
          number, fmt::format("{} {}", names[i], shown(cells[*where[i]])),
          fmt::format("a number with a point and at most {} digits after it, or an empty cell",
                      exact::most_digits)));
  }
  if (!numbers[0]) return tl::unexpected(no_at(number, "no minute", "a minute in every row"));
  return curve_sample{*numbers[0], numbers[1], numbers[2], numbers[co2_column], std::nullopt};
}

} // namespace

result<curve> read_curve_csv(std::string_view text, const curve_limits& limits) {
  constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
    text.remove_prefix(byte_order_mark.size());
  curve out;
  std::optional<columns> where;
  std::size_t header_cells = 0;
  int number = 0;
  while (!text.empty()) {
    ++number;
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (trimmed(line).empty()) continue;
    if (!where) {
      const auto header = read_header(line, number);
      if (!header) return tl::unexpected(header.error());
      where = *header;
      header_cells = cells_of(line).size();
      continue;
    }
    const auto row = read_row(line, number, *where, header_cells);
    if (!row) return tl::unexpected(row.error());
    if (auto no = no_to_sample(out, *row, limits)) {
      no->where = fmt::format("line {}", number);
      return tl::unexpected(*no);
    }
    out.push_back(*row);
  }
  if (!where)
    return tl::unexpected(
        refusal{refusal_kind::missing, "", "", "an empty file", "a header: minute,h2_ppm,ch4_ppm"});
  return out;
}

} // namespace qb
