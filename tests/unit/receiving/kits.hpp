// Rows under one kit number for tests: a box, a reading, a sheet, a log; and what was made of them.
#pragma once

#include "core/receiving/whose.hpp"

#include <catch2/catch.hpp>

namespace qb::test {

inline instant told_at() {
  return parse_rfc3339_utc("2027-04-12T09:30:00Z").value();
}

inline civil_date test_day() {
  return std::chrono::year{2027} / 4 / 6;
}

inline known_test log_of(const std::string& id, const std::string& name,
                         civil_date day = test_day()) {
  return {id, {name, std::chrono::year{1948} / 5 / 17, {}, {}}, day, known_by::log};
}

// Enters rows as a bench does, each with the test it was entered for, or none.
class kit_of {
public:
  explicit kit_of(const std::string& number) { rows.kit = number; }

  std::int64_t box(const std::string& test, const told_person& who = {}) {
    arrival a;
    a.kit = rows.kit;
    a.at = told_at();
    a.identifiers = stated::yes;
    a.who = who;
    a.mark = {++entry_, test};
    rows.arrivals.push_back(a);
    for (int n = 1; n <= 3; ++n) {
      received_tube t;
      t.sample = n;
      t.box = entry_;
      rows.tubes.push_back(t);
    }
    return entry_;
  }
  std::int64_t reading(const std::string& test, int tube) {
    gas_reading r;
    r.kit = rows.kit;
    r.sample = tube;
    r.h2_ppm = exact(4);
    r.mark = {++entry_, test};
    rows.readings.push_back(r);
    return entry_;
  }
  std::int64_t sheet(const std::string& test, const told_person& who = {},
                     civil_date day = test_day()) {
    paper_record p;
    p.kit = rows.kit;
    p.protocol = "lactulose-10g";
    p.day = day;
    p.who = who;
    p.entered = told_at();
    p.mark = {++entry_, test};
    rows.papers.push_back(p);
    return entry_;
  }
  std::int64_t conclusion_for(const std::string& test) {
    conclusion c;
    c.kit = rows.kit;
    c.number = 0;
    c.mark = {++entry_, test};
    rows.conclusions.push_back(c);
    return entry_;
  }
  ruling& rule(ruled what, std::int64_t of, row_word says, const std::string& test = {}) {
    ruling r;
    r.kit = rows.kit;
    r.what = what;
    r.of = of;
    r.says = says;
    r.test = test;
    r.mark = {++entry_, {}};
    rows.rulings.push_back(r);
    return rows.rulings.back();
  }

  kit_rows rows;

private:
  std::int64_t entry_{0};
};

inline const received_kit& rows_of(const kit_file& file, const std::string& test) {
  for (const test_rows& t : file.tests)
    if (t.test.id == test) return t.rows;
  FAIL("no test " << test);
  return file.nobodys;
}

} // namespace qb::test
