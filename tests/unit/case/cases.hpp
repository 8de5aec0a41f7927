// A kit's case for tests: the shipped rules, a made log or sheet, readings of round numbers.
#pragma once

#include "core/case/case.hpp"
#include "tests/unit/curve/curves.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

// The shipped ones, without a correction by carbon dioxide.
inline case_rules house_rules() {
  case_rules out;
  out.profile = read_profile(asset_text("laboratories/fenwick-vale.json")).value();
  out.profile.receiving.co2_reference_tenths.reset();
  out.findings = read_finding_rules(asset_text("findings/findings.json")).value();
  out.judging = shipped_rules();
  return out;
}

// Hydrogen of tube 1, 2, 3…; methane is 1 ppm.
inline received_kit with_readings(const std::vector<int>& h2) {
  received_kit out;
  out.kit = "FV-3001";
  for (std::size_t i = 0; i < h2.size(); ++i) {
    gas_reading r;
    r.kit = out.kit;
    r.sample = static_cast<int>(i) + 1;
    r.h2_ppm = exact(h2[i]);
    r.ch4_ppm = exact(1);
    r.mark.entry = static_cast<std::int64_t>(i) + 1;
    out.readings.push_back(r);
  }
  return out;
}

// Twenty above the baseline from tube 7 on.
inline const std::vector<int> rising{4, 5, 6, 7, 9, 12, 26, 30, 31, 30};

inline test_case case_with(const received_kit& received, const case_rules& rules = house_rules(),
                           const made_test& how = {}, const std::vector<finding>& found = {}) {
  const auto log = read_log(make_log(how)).value();
  return case_of(log, report_of(log, london_only), received, rules, found).value();
}

inline const judged_criterion& criterion_in(const test_case& c, const std::string& id) {
  for (const judged_criterion& j : c.judged.criteria)
    if (j.by->id == id) return j;
  FAIL("no criterion " << id);
  return c.judged.criteria.front();
}

inline bool has(const test_case& c, const std::string& rule) {
  for (const case_finding& f : c.findings)
    if (f.what.rule == rule && f.stands()) return true;
  return false;
}

// Minutes after 07:30, less than 0 for a gap.
inline paper_record sheet(const std::vector<int>& minutes) {
  paper_record out;
  out.kit = "FV-3001";
  out.protocol = "lactulose-10g";
  out.day = std::chrono::year{2027} / 4 / 6;
  for (const int m : minutes)
    out.times.push_back(m < 0 ? std::nullopt : std::optional(day_minute{7 * 60 + 30 + m}));
  out.drink = {day_minute{7 * 60 + 32}, day_minute{7 * 60 + 34}};
  return out;
}

} // namespace qb::test
