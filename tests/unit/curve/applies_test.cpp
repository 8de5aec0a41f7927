// Which criteria a test is judged by: by its sugar, dose and grid, and what is said where none is.
#include "tests/unit/curve/curves.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// The shipped lactulose test as a laboratory might change it.
protocol changed(const std::string& sugar, int grams, std::chrono::minutes last = {}) {
  protocol out = shipped("lactulose-10g");
  out.id = "a-test-of-our-own";
  out.sugar.name = sugar;
  out.sugar.dose_g = grams;
  while (last.count() > 0 && out.offsets.back() > last)
    out.offsets.pop_back();
  return out;
}

std::string judged_by(const protocol& test) {
  std::string out;
  for (const ready_criterion& r : ready_for(shipped_rules(), test, shipped_profile()).criteria)
    out += (out.empty() ? "" : " ") + r.by->id;
  return out;
}

std::string unjudged_in(const protocol& test) {
  std::string out;
  for (const unjudged_gas& u : unjudged_gases(shipped_rules()->criteria, test))
    out += unjudged_words(u) + ".";
  return out;
}

} // namespace

TEST_CASE("a laboratory's own test is judged by what is for its sugar and dose, whatever its id") {
  CHECK(judged_by(changed("lactulose", 10)) == "nac-2017-ch4 nac-2017-h2-90");
  CHECK(judged_by(changed("Glucose", 75)) == "nac-2017-ch4 nac-2017-h2-90");
  CHECK(judged_by(changed("glucose", 50)) == "kerlin-wong-1988-h2-12 nac-2017-ch4");
  CHECK(judged_by(changed("lactulose", 12)) == "nac-2017-ch4");
  CHECK(judged_by(changed("sorbitol", 10)).empty());
}

TEST_CASE("a gas that no criterion asks about is said to be not judged, and why") {
  CHECK(unjudged_in(changed("lactulose", 10)).empty());
  CHECK(unjudged_in(changed("lactulose", 12)) ==
        "Not judged: hydrogen, no criterion here is for 12 g of lactulose; nac-2017-h2-90 is for "
        "10 g.");
  CHECK(unjudged_in(changed("sorbitol", 10)) ==
        "Not judged: hydrogen, no criterion here is for 10 g of sorbitol."
        "Not judged: methane, no criterion here is for 10 g of sorbitol.");
  const auto j =
      judge_curve(curve_of("0:4/1 90:88/1"),
                  ready_for(shipped_rules(), changed("sorbitol", 10), shipped_profile()));
  CHECK(j.criteria.empty());
  CHECK(j.unjudged.size() == 2);
}

TEST_CASE("a grid that ends before a criterion's window says nothing about it") {
  using std::chrono::minutes;
  CHECK(unjudged_in(changed("lactulose", 10, minutes{90})).empty());
  CHECK(unjudged_in(changed("lactulose", 10, minutes{75})) ==
        "Not judged: hydrogen, nac-2017-h2-90 asks until minute 90, and the last sample of this "
        "test is due at minute 75.");
  protocol wide = changed("lactulose", 10, minutes{75});
  wide.offsets = {minutes{0}, minutes{40}, minutes{80}}; // the next would be at 120
  CHECK(unjudged_in(wide).empty());
}

TEST_CASE("beside a criterion stands no other sugar's") {
  const auto beside = [](const protocol& test) {
    std::string out;
    for (const ready_criterion& r : ready_for(shipped_rules(), test, shipped_profile()).criteria)
      for (const auto& other : r.others)
        out += other.first->id + " ";
    return out;
  };
  CHECK(beside(shipped("glucose-75g")) == "kerlin-wong-1988-h2-12 ");
  CHECK(beside(shipped("lactulose-10g")).empty());
  CHECK(beside(shipped("lactose-25g")) == "nac-2017-h2-sugar hovde-farup-2009-combined ");
  CHECK(beside(shipped("fructose-25g")).empty());
}
