// What was asked for, kit by kit: who the kit was meant for, by the hospital's own list.
// Read from a table whose columns are described by data, or from FHIR ServiceRequests, so that
// nobody types what a system knows; held against log, sheet and label by who receives.
//
// The description of a table (JSON, assets/schema/request-columns.schema.json):
//   format "quarterbreath-request-columns", version 1, kit, name, birth_date, hospital_number,
//   order_number: each the name of its column (in any case); all but kit may be left out;
//   day: "YYYY-MM-DD" (without it), "DD.MM.YYYY" or "DD/MM/YYYY", how birth dates stand.
//
// Of FHIR R4, a ServiceRequest alone, or a Bundle of them with their Patients:
//   kit              specimen[0].identifier.value
//   order_number     identifier[0].value
//   name, birth_date, hospital_number    of the Patient that `subject` names in the bundle
//                    (name[0].text, or given and family; birthDate; identifier[0].value); else
//                    subject.display and subject.identifier.value
#pragma once

#include "core/base/result.hpp"
#include "core/time/civil.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// One kit as it was asked for; a text that was not told is empty.
struct requested {
  std::string kit; // as it is kept (core/protocol/kit_number.hpp)
  std::string name;
  std::optional<civil_date> birth_date;
  std::string hospital_number;
  std::string order_number;
};

// How a table's birth dates stand.
enum class day_form { year_first, day_first_points, day_first_strokes };

// Which column is what; an empty name is a column that the table has not.
struct request_columns {
  std::string kit;
  std::string name;
  std::string birth_date;
  std::string hospital_number;
  std::string order_number;
  day_form day{day_form::year_first};
};

inline constexpr std::size_t most_requests = 100000;

// Reads the description; refuses unknown fields and two fields of one column.
[[nodiscard]] result<request_columns> read_request_columns(std::string_view text);

// All rows or none: refuses, with its line, what is no kit number or no day, a kit twice, a row
// that tells nothing but its kit, and a column that is not there. No message holds a person's data.
[[nodiscard]] result<std::vector<requested>> read_request_table(std::string_view text,
                                                                const request_columns& columns);

// The same of FHIR JSON.
[[nodiscard]] result<std::vector<requested>> read_service_requests(std::string_view text);

} // namespace qb::inline receiving
