// What the tests of judging share: curves written as the reference texts write them, and the
// shipped criteria and tests.
#pragma once

#include "core/curve/judge_curve.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <memory>
#include <sstream>
#include <string>

namespace qb::test {

inline std::string asset_text(const std::string& path) {
  return source_file("assets/" + path);
}

inline exact number(const std::string& text) {
  const auto n = exact::parse(text);
  QB_BELIEVE(n.has_value());
  return *n;
}

// "0:4/1 30:10/1": minute:H2/CH4, "-" for a missing reading, "<1" and ">200" as analysers have
// them;
// "/CH4" may be left out.
inline curve curve_of(const std::string& text) {
  curve out;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    const auto colon = word.find(':');
    const auto slash = word.find('/');
    const auto reading = [](const std::string& cell, reading_range& is) -> std::optional<exact> {
      if (cell == "-" || cell.empty()) return std::nullopt;
      const auto read = read_reading(cell);
      QB_BELIEVE(read.has_value());
      is = read->is;
      return read->figure;
    };
    curve_sample s;
    s.minute = number(word.substr(0, colon));
    s.h2 = reading(word.substr(colon + 1, slash - colon - 1), s.h2_is);
    if (slash != word.npos) s.ch4 = reading(word.substr(slash + 1), s.ch4_is);
    out.push_back(s);
  }
  return out;
}

// Read once: what is judged by them points into them.
inline const std::shared_ptr<const judging_rules>& shipped_rules() {
  static const std::shared_ptr<const judging_rules> rules = [] {
    auto out = std::make_shared<judging_rules>();
    for (const char* id : {"hovde-farup-2009-combined", "kerlin-wong-1988-h2-12", "nac-2017-ch4",
                           "nac-2017-h2-90", "nac-2017-h2-sugar"})
      out->criteria.push_back(
          read_criterion(asset_text(std::string("criteria/") + id + ".json")).value());
    out->flags = read_flag_rules(asset_text("flags/gases.json")).value();
    return out;
  }();
  return rules;
}

inline const lab_profile& shipped_profile() {
  static const lab_profile profile =
      read_profile(asset_text("laboratories/fenwick-vale.json")).value();
  return profile;
}

// By the shipped laboratory, with that slack in place of its own.
inline test_judging shipped_test(const std::string& id, const std::string& slack = "0") {
  test_judging out = ready_for(shipped_rules(), shipped(id), shipped_profile());
  out.terms.slack = number(slack);
  return out;
}

// A bare curve, as the command line judges one.
inline judgement judgement_of(const std::string& test, const std::string& samples,
                              const std::string& slack = "0") {
  const test_judging by = shipped_test(test, slack);
  return judge_curve(as_of_grid(curve_of(samples), by), by);
}

// What one criterion says of a curve of that test.
inline judged_criterion judged(const std::string& test, const std::string& id,
                               const std::string& samples, const std::string& slack = "0") {
  judgement all = judgement_of(test, samples, slack);
  for (judged_criterion& one : all.criteria) {
    if (one.by->id == id) return one;
  }
  FAIL("no criterion " << id << " for " << test);
  return {};
}

// "meets 90 20": answer, minute and value of the sample that decided.
inline std::string said(const criterion_verdict& v) {
  std::string out = answer_text(v.what);
  if (const auto m = v.deciding()) out += " " + m->minute.text() + " " + m->value.text();
  return out;
}

inline std::string said(const std::string& test, const std::string& id, const std::string& samples,
                        const std::string& slack = "0") {
  return said(judged(test, id, samples, slack).says);
}

} // namespace qb::test
