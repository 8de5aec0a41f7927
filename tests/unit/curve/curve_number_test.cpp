// Exact numbers: what is read, what is refused, and that nothing is rounded on the way.
#include "core/curve/curve_number.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace std::chrono_literals;

namespace {

std::string read_again(const char* text) {
  const auto n = exact::parse(text);
  return n ? n->text() : "refused";
}

} // namespace

TEST_CASE("decimals are read and written without loss, to the eighteenth digit") {
  CHECK(read_again("0") == "0");
  CHECK(read_again("-0") == "0");
  CHECK(read_again("90") == "90");
  CHECK(read_again("-12.5") == "-12.5");
  CHECK(read_again("0.1") == "0.1");
  CHECK(read_again("15.033333333333333") == "15.033333333333333");
  CHECK(read_again("19.999999999999999999") == "19.999999999999999999");
  CHECK(read_again("-0.000000000000000001") == "-0.000000000000000001");
  CHECK(read_again("1.50000000000000000000000") == "1.5");
  CHECK(read_again("1000000") == "1000000");
  CHECK(read_again("1.25e1") == "12.5");
  CHECK(read_again("120E-1") == "12");
  CHECK(read_again("1e-05") == "0.00001");
}

TEST_CASE("what is no decimal, too large or too fine is refused") {
  for (const char* text : {"",
                           "-",
                           "+1",
                           ".5",
                           "5.",
                           "1,5",
                           "nan",
                           "NaN",
                           "inf",
                           "0x10",
                           "1e",
                           "1e5x",
                           "1 ",
                           " 1",
                           "1000001",
                           "1e7",
                           "1e99",
                           "1e100",
                           "0.1234567890123456789",
                           "1e-19",
                           "--1",
                           "1.2.3",
                           "99999999999999999999999999999999999999999999",
                           "-1000000.1"}) {
    INFO(text);
    CHECK_FALSE(exact::parse(text).has_value());
  }
}

TEST_CASE("a tenth added ten times is one, and a sum on an edge is on the edge") {
  exact sum;
  for (int i = 0; i < 10; ++i)
    sum = sum + *exact::parse("0.1");
  CHECK(sum == exact(1));
  CHECK(*exact::parse("24.3") - *exact::parse("4.3") == exact(20));
  CHECK(*exact::parse("24.299999999999999999") - *exact::parse("4.3") < exact(20));
  CHECK(exact(15).half() == *exact::parse("7.5"));
  CHECK(exact(7).times(2) == exact(14));
}

TEST_CASE("a time in milliseconds is a number of minutes without rounding") {
  CHECK(exact::minutes_of(90min) == exact(90));
  CHECK(exact::minutes_of(1ms).times(60000) == exact(1));
  CHECK(exact::minutes_of(90min + 1ms) > exact(90));
  CHECK(exact::minutes_of(-30s) == *exact::parse("-0.5"));
  CHECK(exact::minutes_of(1ms).text() == "0.000017"); // no decimal writes it: six digits
  CHECK(exact::minutes_of(-20s).text() == "-0.333333");
  CHECK(exact::minutes_of(1min - 1ms).text() == "0.999983");
  CHECK(exact::minutes_of(20s).rounded() == Approx(1.0 / 3));
}
