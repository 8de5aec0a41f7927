// Any bytes as a table of readings, a curve, or a line of a batch.
// A table with one refusal gives no reading; a curve that is read has rising minutes.
#include "core/curve/curve_csv.hpp"
#include "core/curve/curve_line.hpp"
#include "core/receiving/readings.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

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
  return 0;
}
