// Whose a box or sheet is said to be, beside what the log says: name, birth date, hospital number
// and order number, as they stand on a label, a sheet or a request.
// One function holds any two of these against each other, so that every door means the same by
// "somebody else".
#pragma once

#include "core/time/civil.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// What was told of a person; what nobody told is empty.
struct told_person {
  std::string name;
  std::optional<civil_date> birth_date;
  std::string hospital_number;
  std::string order_number;
};

// How long each of these texts may be, in characters.
inline constexpr std::size_t most_person_text = 120;

// Whether anything at all was told.
[[nodiscard]] bool tells_anything(const told_person& p);

// In what two of them contradict each other: "name", "birth date", "hospital number", "order
// number". What only one of them tells contradicts nothing. Names are the same whatever the case of
// their letters and the order of their words.
[[nodiscard]] std::vector<std::string> person_differences(const told_person& a,
                                                          const told_person& b);

// Whether two of the four agree and none contradicts: two identifiers, as a bench asks for.
[[nodiscard]] bool is_same_person(const told_person& a, const told_person& b);

// As a row keeps it, one line of canonical JSON, and back; nothing where it is none of ours. The
// empty text is a person of whom nothing was told.
[[nodiscard]] std::string person_text(const told_person& p);
[[nodiscard]] std::optional<told_person> read_person(std::string_view text);

// "Odile Marchbank, born 1948-05-17, hospital number 12, order 34": what was told.
[[nodiscard]] std::string person_words(const told_person& p);

} // namespace qb::inline receiving
