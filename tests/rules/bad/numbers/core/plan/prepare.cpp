// Clinical numbers without a source.
// Bad on purpose: tests/rules/run must find it.
#include <chrono>

namespace qb::inline plans {

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

// A name, and a comment with a reason, make a clinical number no better.
constexpr std::chrono::hours night_fast{12};
constexpr int most_days = 366; // a year
constexpr int most_meals = 14;

constexpr std::chrono::minutes without_a_reason{15};

int waited() {
  std::chrono::minutes changeable{15}; // with a reason
  return static_cast<int>(changeable.count());
}

constexpr auto excused = std::chrono::hours{12}; // number: an excuse is none

// Arithmetic of units, small steps and lengths of text are none of them.
constexpr auto step = std::chrono::hours{1};
constexpr int hour_minutes = 60;
constexpr int most_ppm = 1'000'000;
constexpr int line_octets = 75;
// A phone rings so long before: time to finish a cup.
constexpr std::chrono::minutes shortly{15};
constexpr std::chrono::seconds patience{5}; // how long another may hold the file
// A comment about 28 days and std::chrono::days{28}.
constexpr const char* text = "hours{12}";

} // namespace qb::inline plans
