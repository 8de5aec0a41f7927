// Row by row, so that each refusal has its line.
#include "core/curve/curve_csv.hpp"

#include "core/base/csv.hpp"
#include "core/base/json_fields.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::inline curves {

namespace {

constexpr std::array<const char*, 4> names{"minute", "h2_ppm", "ch4_ppm", "co2_pct"};
constexpr std::size_t required = 3;
constexpr std::size_t co2_column = 3;

std::string shown(const std::string& cell) {
  return json::shown(json::value(cell));
}

refusal no_at(int line, std::string found, std::string expected) {
  return {refusal_kind::malformed, "", fmt::format("line {}", line), std::move(found),
          std::move(expected)};
}

// Where each of `names` stands in a row; nothing where the file has no such column.
using columns = std::array<std::optional<std::size_t>, names.size()>;

result<columns> read_header(const csv::row& header) {
  columns out;
  const int number = header.line;
  for (std::size_t i = 0; i < header.cells.size(); ++i) {
    const auto at = std::find(names.begin(), names.end(), header.cells[i]);
    if (at == names.end())
      return tl::unexpected(no_at(number, "the column " + shown(header.cells[i]),
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

result<curve_sample> read_row(const csv::row& row, const columns& where,
                              std::size_t cells_expected) {
  const auto& [number, text, cells] = row;
  if (cells.size() != cells_expected)
    return tl::unexpected(no_at(number, fmt::format("{} cells", cells.size()),
                                fmt::format("{}, as the header has", cells_expected)));
  std::array<std::optional<exact>, names.size()> numbers;
  std::array<reading_range, names.size()> ranges{};
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (!where[i] || cells[*where[i]].empty()) continue;
    const auto read = read_reading(cells[*where[i]]);
    const bool is_gas = i == 1 || i == 2;
    if (read && (is_gas || read->is == reading_range::within)) {
      numbers[i] = read->figure;
      ranges[i] = read->is;
    }
    if (!numbers[i])
      return tl::unexpected(no_at(
          number, fmt::format("{} {}", names[i], shown(cells[*where[i]])),
          fmt::format("a number with a point and at most {} digits after it, or an empty cell",
                      exact::most_digits)));
  }
  if (!numbers[0]) return tl::unexpected(no_at(number, "no minute", "a minute in every row"));
  return curve_sample{*numbers[0],  numbers[1],   numbers[2], numbers[co2_column],
                      std::nullopt, std::nullopt, ranges[1],  ranges[2]};
}

} // namespace

result<curve> read_curve_csv(std::string_view text, const curve_limits& limits) {
  auto rows = csv::reader::open(text, ",");
  if (!rows) return tl::unexpected(rows.error());
  const auto header = rows->next();
  if (!header) return tl::unexpected(header.error());
  if (!*header)
    return tl::unexpected(
        refusal{refusal_kind::missing, "", "", "an empty file", "a header: minute,h2_ppm,ch4_ppm"});
  const auto where = read_header(**header);
  if (!where) return tl::unexpected(where.error());
  curve out;
  auto row = rows->next();
  for (; row && *row; row = rows->next()) {
    const auto sample = read_row(**row, *where, (*header)->cells.size());
    if (!sample) return tl::unexpected(sample.error());
    if (auto no = no_to_sample(out, *sample, limits)) {
      no->where = fmt::format("line {}", (*row)->line);
      return tl::unexpected(*no);
    }
    out.push_back(*sample);
  }
  if (!row) return tl::unexpected(row.error());
  return out;
}

} // namespace qb::inline curves
