// How well patients keep time, over all tests: by test and tube.
// Only records that a clock kept are counted; what was written by hand has no lateness of its own.
#pragma once

#include "core/report/report.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline reports {

// Counts of one tube of one test, or of all its tubes.
struct audit_counts {
  std::int64_t due{0}; // tests that have this tube
  std::int64_t on_time{0};
  std::int64_t early{0};
  std::int64_t late{0};
  std::int64_t missed{0};
  std::vector<std::int64_t> late_s; // of each taken tube, elapsed seconds after its time

  // The least lateness that half, or nine tenths, of the taken tubes do not pass, by nearest rank;
  // nothing where none was taken.
  [[nodiscard]] std::optional<std::int64_t> median_s() const;
  [[nodiscard]] std::optional<std::int64_t> ninth_tenth_s() const;
  [[nodiscard]] std::optional<std::int64_t> largest_s() const;
};

// One test's tubes, by number, and their sum without tube 1, which is on time by definition.
struct audit_test {
  std::int64_t tests{0};
  std::int64_t whole{0}; // tests whose every tube was on time
  std::map<int, audit_counts> tubes;
  audit_counts later; // tubes 2 and on
};

// Adds a finished test; one without tube 1 is left out, as it has no times.
class audit {
public:
  void add(const report& r);
  [[nodiscard]] const std::map<std::string, audit_test>& tests() const { return tests_; }

private:
  std::map<std::string, audit_test> tests_; // by protocol id
};

} // namespace qb::inline reports
