// What a label, sheet or request says of a person, as it is typed.
#pragma once

#include "core/base/result.hpp"
#include "core/receiving/person.hpp"

#include <string>

namespace qb::lab {

// As options; empty where it was not told.
struct person_options {
  std::string name{};
  std::string born{};     // 1948-05-17
  std::string hospital{}; // the hospital's number of the person
  std::string order{};    // the number of the request
};

// Refuses what is no date, and what is no plain line or too long.
[[nodiscard]] result<told_person> person_in(const person_options& o);

// The same in one line, with commas between: "Odile Marchbank, born 1948-05-17, hospital 77,
// order 34"; a name with a comma needs the options.
[[nodiscard]] result<told_person> read_person_line(const std::string& line);

// What was told later stands in place of what was told before; what was not told again stays.
[[nodiscard]] told_person told_again(told_person before, const told_person& later);

} // namespace qb::lab
