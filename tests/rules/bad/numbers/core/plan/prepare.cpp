// Clinical numbers without a source.
// Bad on purpose: tests/rules/run must find it.
#include <chrono>

namespace qb {

using namespace std::chrono_literals;

constexpr auto fast = std::chrono::hours{12};
constexpr auto washout = std::chrono::days{28};
constexpr auto grid = 15min;
constexpr int rise_ppm = 20;
constexpr int dose_g = 10;

bool enough(int samples) {
  return samples >= 10;
}

bool long_enough(int window) {
  return window == 135;
}

// Arithmetic of units, small steps and excused numbers are none of them.
constexpr auto step = std::chrono::hours{1};
constexpr int hour_minutes = 60;
constexpr int line_width = 75; // number: octets of a line in a calendar file
// A comment about 28 days and std::chrono::days{28}.
constexpr const char* text = "hours{12}";

} // namespace qb
