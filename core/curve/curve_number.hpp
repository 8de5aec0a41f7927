// Minutes and readings as exact numbers: a value on an edge must not be moved by binary fractions.
// The unit is a sixth of 10^-18. So a decimal of up to 18 digits after the point is whole, and so
// is a millisecond as a part of a minute (1/60000), which no decimal can write.
#pragma once

#include "core/time/instant.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace qb::inline curves {

// A number without rounding. Sums and differences of what `parse` gives, and its products with
// small whole numbers, stay far inside the range: it parses up to a million, and there is room for
// 10^19.
class exact {
public:
  __extension__ using wide = __int128;

  // What a decimal may have after its point, and how large it may be.
  static constexpr int most_digits = 18;
  static constexpr std::int64_t largest = 1000000;

  constexpr exact() = default;
  constexpr explicit exact(std::int64_t whole) : units_(wide{whole} * units_in_one) {}

  // Reads "-12", "12.5", "1.25e1": an optional minus, digits, an optional point with digits after
  // it, an optional exponent. Nothing where the text is something else, is larger than `largest`,
  // or has more than `most_digits` digits after the point that are not zero.
  [[nodiscard]] static std::optional<exact> parse(std::string_view text);

  // An elapsed time in minutes.
  [[nodiscard]] static constexpr exact minutes_of(duration d) {
    return of_units(wide{d.count()} * (units_in_one / ms_in_minute));
  }

  [[nodiscard]] constexpr exact half() const { return of_units(units_ / 2); }
  [[nodiscard]] constexpr exact tenth() const { return of_units(units_ / 10); } // of whole numbers
  [[nodiscard]] constexpr exact times(std::int64_t n) const { return of_units(units_ * n); }

  // For areas, which are no edges.
  [[nodiscard]] double rounded() const;

  // The shortest decimal, "12.5"; a number that no decimal writes is rounded to six digits after
  // the point. It is a JSON number.
  [[nodiscard]] std::string text() const;

  friend constexpr exact operator+(exact a, exact b) { return of_units(a.units_ + b.units_); }
  friend constexpr exact operator-(exact a, exact b) { return of_units(a.units_ - b.units_); }
  friend constexpr bool operator==(exact a, exact b) { return a.units_ == b.units_; }
  friend constexpr bool operator!=(exact a, exact b) { return a.units_ != b.units_; }
  friend constexpr bool operator<(exact a, exact b) { return a.units_ < b.units_; }
  friend constexpr bool operator>(exact a, exact b) { return a.units_ > b.units_; }
  friend constexpr bool operator<=(exact a, exact b) { return a.units_ <= b.units_; }
  friend constexpr bool operator>=(exact a, exact b) { return a.units_ >= b.units_; }

private:
  static constexpr wide decimal_one = wide{1000000000} * 1000000000;
  static constexpr wide units_in_one = decimal_one * 6;
  static constexpr std::int64_t ms_in_minute = 60000;

  [[nodiscard]] static constexpr exact of_units(wide units) {
    exact out;
    out.units_ = units;
    return out;
  }

  wide units_{0};
};

} // namespace qb::inline curves
