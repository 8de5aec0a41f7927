// A person at the question for the kit, and a test of fewer tubes than the kit has.
// Shared by the tests of the kit's pages.
#pragma once

#include "core/protocol/kit_code.hpp"
#include "tests/unit/screens/stage.hpp"

namespace qb::test {

inline constexpr std::size_t lactose = 2; // of made_view's tests; seven samples

inline std::string code_of(const std::string& test_letters, const char* expires = "2027-12-31",
                           const std::string& laboratory = "FV") {
  return kit_code_text({laboratory, "2C7H", test_letters, *parse_date(expires)});
}

// At the question for the kit, with the pages before it answered.
inline void at_kit(stage& s) {
  s.m.open();
  s.u.drafts.who.name = {"Marguerite Fennimore", true};
  s.u.drafts.who.birth = {"11 02 1957", true};
  s.u.drafts.who.doctor = {"", true};
}

inline void tell_kit(stage& s, std::size_t test) {
  s.m.tell(reported_kit{code_of(s.m.tests[test].test.kit_letters), "FV-2C7H", s.m.tests[test].id,
                        *parse_date("2027-12-31")});
}

inline void plan_lactose(stage& s) {
  s.m.open();
  s.m.introduce();
  s.m.plan_for("2027-04-06 07:30", lactose);
}

// Tubes that were closed, as told afterwards; tube 1 sets the times of the others.
inline void tell_tubes(stage& s, const std::vector<int>& tubes) {
  for (const int n : tubes)
    s.m.tell(reported_breath{sample_number(n), s.m.at.wall});
}

} // namespace qb::test
