// What a sample must be to stand in a curve.
#include "core/curve/curve.hpp"

#include <fmt/core.h>

namespace qb::inline curves {

namespace {

refusal beyond(const char* what, exact found, exact least, exact most) {
  return {refusal_kind::out_of_range, "", "", fmt::format("{} {}", what, found.text()),
          fmt::format("{} to {}", least.text(), most.text())};
}

std::optional<refusal> no_to_reading(const char* what, const std::optional<exact>& reading,
                                     exact most) {
  if (!reading || (*reading >= exact() && *reading <= most)) return std::nullopt;
  return beyond(what, *reading, exact(), most);
}

} // namespace

std::string reading_text(const exact& figure, reading_range is) {
  const char* sign = is == reading_range::below ? "<" : is == reading_range::above ? ">" : "";
  return sign + figure.text();
}

std::optional<ranged_reading> read_reading(std::string_view text) {
  ranged_reading out;
  if (!text.empty() && (text.front() == '<' || text.front() == '>')) {
    out.is = text.front() == '<' ? reading_range::below : reading_range::above;
    text.remove_prefix(1);
    while (!text.empty() && text.front() == ' ')
      text.remove_prefix(1);
  }
  const auto figure = exact::parse(text);
  if (!figure) return std::nullopt;
  out.figure = *figure;
  return out;
}

reading_range range_of(const curve_sample& s, std::optional<exact> curve_sample::*gas) {
  return gas == &curve_sample::ch4 ? s.ch4_is : s.h2_is;
}

std::optional<refusal> no_to_sample(const curve& c, const curve_sample& next,
                                    const curve_limits& limits) {
  if (next.minute < limits.minute_least || next.minute > limits.minute_most)
    return beyond("minute", next.minute, limits.minute_least, limits.minute_most);
  if (!c.empty() && next.minute <= c.back().minute)
    return refusal{
        refusal_kind::malformed, "", "",
        fmt::format("minute {} after minute {}", next.minute.text(), c.back().minute.text()),
        "minutes that rise from sample to sample"};
  if (c.size() >= longest_curve)
    return refusal{refusal_kind::out_of_range, "", "", "more samples",
                   fmt::format("at most {}", longest_curve)};
  if (auto no = no_to_reading("h2_ppm", next.h2, limits.gas_most)) return no;
  if (auto no = no_to_reading("ch4_ppm", next.ch4, limits.gas_most)) return no;
  return no_to_reading("co2_pct", next.co2, limits.co2_most);
}

} // namespace qb::inline curves
