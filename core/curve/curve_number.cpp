// Reading and writing exact numbers, digit by digit.
#include "core/curve/curve_number.hpp"

#include <fmt/format.h>

namespace qb::inline curves {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// The digits from `at` on, taken into `value`; answers how many there were. A value that has grown
// beyond all bounds stays there: it is refused in any case.
int take_digits(std::string_view text, std::size_t& at, exact::wide& value, exact::wide beyond) {
  int count = 0;
  for (; at < text.size() && is_digit(text[at]); ++at, ++count)
    if (value < beyond) value = value * 10 + (text[at] - '0');
  return count;
}

// "e5", "E-3"; nothing where what stands there is no exponent. Two digits are enough for any number
// that is read.
std::optional<int> take_exponent(std::string_view text, std::size_t& at) {
  if (at == text.size()) return 0;
  if (text[at] != 'e' && text[at] != 'E') return std::nullopt;
  ++at;
  const bool minus = at < text.size() && text[at] == '-';
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) ++at;
  exact::wide value = 0;
  const int count = take_digits(text, at, value, 100);
  if (count == 0 || count > 2 || at != text.size()) return std::nullopt;
  return minus ? -static_cast<int>(value) : static_cast<int>(value);
}

} // namespace

std::optional<exact> exact::parse(std::string_view text) {
  constexpr wide beyond = decimal_one * 10000000000; // times ten, it still fits
  std::size_t at = 0;
  const bool minus = !text.empty() && text.front() == '-';
  if (minus) ++at;
  wide value = 0;
  if (take_digits(text, at, value, beyond) == 0) return std::nullopt;
  int after_point = 0;
  if (at < text.size() && text[at] == '.') {
    ++at;
    // Zeros at the end of a fraction say nothing, however many they are.
    std::string_view fraction = text.substr(at, text.find_first_not_of("0123456789", at) - at);
    if (fraction.empty()) return std::nullopt;
    at += fraction.size();
    while (!fraction.empty() && fraction.back() == '0')
      fraction.remove_suffix(1);
    std::size_t within = 0;
    after_point = take_digits(fraction, within, value, beyond);
  }
  const auto exponent = take_exponent(text, at);
  if (!exponent || value >= beyond) return std::nullopt;
  // How often the digits still are to be taken times ten to count in 10^-18.
  int tens = most_digits - after_point + *exponent;
  for (; tens < 0 && value % 10 == 0 && value != 0; ++tens)
    value /= 10;
  if (value == 0) return exact();
  if (tens < 0) return std::nullopt;
  for (; tens > 0; --tens) {
    if (value > decimal_one * largest) return std::nullopt;
    value *= 10;
  }
  if (value > decimal_one * largest) return std::nullopt;
  constexpr int sixths = 6;
  return of_units((minus ? -value : value) * sixths);
}

double exact::rounded() const {
  return static_cast<double>(units_) / static_cast<double>(units_in_one);
}

std::string exact::text() const {
  constexpr int sixths = 6;
  constexpr wide shown_one = 1000000; // six digits after the point
  const bool minus = units_ < 0;
  const wide size = minus ? -units_ : units_;
  const auto whole = static_cast<std::int64_t>(size / units_in_one);
  const wide rest = size % units_in_one;
  if (rest == 0) return fmt::format("{}", minus ? -whole : whole);
  wide fraction = rest / sixths;
  int digits = most_digits;
  std::int64_t shown_whole = whole;
  if (rest % sixths != 0) {
    constexpr wide step = units_in_one / shown_one;
    fraction = (rest + step / 2) / step;
    digits = 6;
    if (fraction == shown_one) {
      ++shown_whole;
      fraction = 0;
    }
  }
  std::string out = fmt::format("{}{}.{:0{}}", minus ? "-" : "", shown_whole,
                                static_cast<std::int64_t>(fraction), digits);
  while (out.back() == '0')
    out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

} // namespace qb::inline curves
