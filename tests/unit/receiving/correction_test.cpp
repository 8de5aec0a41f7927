// What is judged of a reading, and by which of them a tube decides nothing.
#include "core/receiving/correction.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

lab_profile house(std::optional<int> reference, int least, int factor) {
  lab_profile out;
  out.receiving.co2_reference_tenths = reference;
  out.judging.co2 = co2_bounds{{}, least, factor};
  return out;
}

gas_reading reading(const std::string& co2, reading_range is = reading_range::within) {
  gas_reading out;
  out.h2_ppm = exact(8);
  out.ch4_ppm = exact(2);
  if (!co2.empty()) out.co2_pct = exact::parse(co2);
  out.co2_is = is;
  return out;
}

std::string judged(const gas_reading& r, const lab_profile& by) {
  const judged_gases out = judged_gases_of(r, by);
  return out.h2->text() + "/" + out.ch4->text() + (out.corrected ? " corrected" : "");
}

} // namespace

TEST_CASE("readings are corrected to the reference, up to the greatest factor and no further") {
  CHECK(judged(reading("4"), house(50, 20, 25)) == "10/2.5 corrected");
  CHECK(judged(reading("2"), house(50, 20, 25)) == "20/5 corrected");
  CHECK(judged(reading("1.999999"), house(50, 20, 25)) == "8/2");
  CHECK(judged(reading("0"), house(50, 20, 25)) == "8/2");
  CHECK(judged(reading(""), house(50, 20, 25)) == "8/2");
  CHECK(judged(reading("4", reading_range::above), house(50, 20, 25)) == "8/2");
  CHECK(judged(reading("4"), house(std::nullopt, 20, 25)) == "8/2");
  lab_profile unbounded = house(50, 20, 25);
  unbounded.judging.co2.reset();
  CHECK(judged(reading("0.1"), unbounded) == "400/100 corrected");
}

TEST_CASE("a tube decides nothing with too little carbon dioxide, too great a factor, or a mark") {
  const lab_profile by = house(50, 20, 25);
  CHECK_FALSE(undeciding_of(reading("2"), by));
  CHECK(undeciding_of(reading("1.999999"), by) == undeciding::low_co2);
  CHECK(undeciding_of(reading("2", reading_range::below), by) == undeciding::low_co2);
  CHECK_FALSE(undeciding_of(reading("2.1", reading_range::below), by) == undeciding::low_co2);
  CHECK_FALSE(undeciding_of(reading("1", reading_range::above), by));
  CHECK(undeciding_of(reading("1.9"), house(50, 10, 25)) == undeciding::great_factor);
  CHECK_FALSE(undeciding_of(reading("1.9"), house(std::nullopt, 10, 25)));
  CHECK_FALSE(undeciding_of(reading(""), by));
  gas_reading marked = reading("5");
  marked.invalid = true;
  CHECK(undeciding_of(marked, by) == undeciding::marked_invalid);
}
