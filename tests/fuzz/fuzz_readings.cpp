// Any bytes as a table of readings, a curve, or a line of a batch.
// A table with one refusal gives no reading; a curve that is read has rising minutes.
#include "core/curve/curve_csv.hpp"
#include "core/curve/curve_line.hpp"
#include "core/receiving/readings.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

namespace {

// Of a table such as the corpus has one.
const reading_layout& a_layout() {
  static const reading_layout out =
      read_reading_layout(
          R"({"format": "quarterbreath-readings-layout", "version": 1, "parted_by": "semicolon",
 "decimal_mark": "comma", "moment": "DD.MM.YYYY hh:mm",
 "columns": {"label": "L", "day": "D", "time": "T", "mark": "S"},
 "gases": {"h2": {"column": "H", "unit": "ppb"}, "co2": {"column": "C", "unit": "ppm"}},
 "marks": [{"is": "bad", "means": "invalid"}], "cells": [{"is": "over", "means": ">200"}],
 "head": [{"begins": "Run", "is": "run"}], "ends_with": "End"})")
          .value();
  return out;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = test::text_of(data, size);
  static const curve_limits limits{*exact::parse("-1440"), *exact::parse("1440"),
                                   *exact::parse("5000"), *exact::parse("20")};
  const read_table table = read_readings(text, limits, {});
  test::promised(table.readings.size() == table.lines.size());
  const auto drawn = read_curve_csv(text, limits);
  if (drawn) {
    for (std::size_t i = 1; i < drawn->size(); ++i)
      test::promised((*drawn)[i - 1].minute < (*drawn)[i].minute);
  }
  (void)read_curve_line(text, limits);
  (void)read_tube_codes(text);
  (void)read_reading_layout(text);
  const read_table described = read_readings(text, limits, {}, &a_layout());
  test::promised(described.readings.size() == described.lines.size());
  return 0;
}
