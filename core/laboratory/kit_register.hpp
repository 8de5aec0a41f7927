// The kits that a laboratory issued, and what is said of a number that none of them has.
// A mistyped number must not become a kit: it is asked about, with the issued one it may have
// meant.
#pragma once

#include "core/base/result.hpp"
#include "core/time/civil.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline laboratories {

// One issued kit.
struct issued_kit {
  std::string number; // as it is kept: "FV-2C7H"
  std::string protocol;
  std::string lot;       // of tubes and sugar; empty: none was told
  civil_date expires{};  // the last day of use
  std::string by;        // who issued it
  std::string issued_at; // RFC 3339 UTC
};

// The kit of that number; nullptr where none was issued.
[[nodiscard]] const issued_kit* find_issued(const std::vector<issued_kit>& all,
                                            const std::string& number);

// Up to three issued numbers that are fewest slips away (a character wrong, left out, added, or two
// swapped), nearest first; empty where none is near.
[[nodiscard]] std::vector<std::string> nearest_issued(const std::vector<issued_kit>& all,
                                                      const std::string& number);

// Whether one slip makes the one number the other.
[[nodiscard]] bool is_one_slip(const std::string& a, const std::string& b);

// The question about a number: nothing where the register is empty, or that kit was issued. Else as
// a refusal (`ambiguous`): that it was never issued, whether it cannot be one of this laboratory's
// (letters of issued ones, characters of the kit alphabet), the nearest issued, and `option`, which
// says it on purpose.
[[nodiscard]] std::optional<refusal> asked_of_kit(const std::vector<issued_kit>& all,
                                                  const std::string& number,
                                                  const std::string& option);

// What is told where no register is kept, of a number of which nothing is here: nothing unless it
// is one slip away from one that sent a log or a code and whose box did not come yet. Those are
// among `waiting`. It is no question: numbers that are given in a row differ by one character as
// well.
[[nodiscard]] std::optional<std::string> told_beside(const std::vector<std::string>& waiting,
                                                     const std::string& number);

} // namespace qb::inline laboratories
