// Figures in, a date out.
#include "app/patient/screens/typed_date.hpp"

#include <fmt/core.h>
#include <vector>

namespace qb::inline screens {

namespace {

bool is_figure(char c) {
  return c >= '0' && c <= '9';
}

// Runs of figures; one run of eight stands for day, month and year written together.
std::vector<std::string> groups_of(const std::string& typed) {
  std::vector<std::string> out;
  bool inside = false;
  for (const char c : typed) {
    if (!is_figure(c)) {
      inside = false;
      continue;
    }
    if (!inside) out.emplace_back();
    inside = true;
    out.back() += c;
  }
  constexpr std::size_t together = 8;
  if (out.size() == 1 && out.front().size() == together)
    return {out.front().substr(0, 2), out.front().substr(2, 2), out.front().substr(4)};
  return out;
}

} // namespace

std::optional<civil_date> parse_typed_date(const std::string& typed) {
  const auto groups = groups_of(typed);
  const bool shape =
      groups.size() == 3 && groups[0].size() <= 2 && groups[1].size() <= 2 && groups[2].size() == 4;
  if (!shape) return std::nullopt;
  const auto date = parse_date(fmt::format("{}-{:0>2}-{:0>2}", groups[2], groups[1], groups[0]));
  if (!date) return std::nullopt;
  return *date;
}

std::string typed_text(civil_date date) {
  return fmt::format("{:02} {:02} {:04}", static_cast<unsigned>(date.day()),
                     static_cast<unsigned>(date.month()), static_cast<int>(date.year()));
}

} // namespace qb::inline screens
