// The labels of a test: of a record, or of a kit before anything is recorded.
// What is drawn, and what the code on a tube says, is decided here.
#pragma once

#include "core/sheet/sheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline sheets {

// Who a kit is for, as far as paper needs it; any of it may be empty.
struct paper_person {
  std::string name;
  std::optional<civil_date> birth_date;
  std::string doctor;
  std::string kit_number;
};

// One label a sample, with date and time where the tube was closed.
[[nodiscard]] std::vector<label_text> labels_of(const state& s);

// The same before the test: date and time are left to the pen.
[[nodiscard]] std::vector<label_text> labels_ahead(const protocol& p, const paper_person& who);

// The label without name, birth date and doctor, for laboratories that use the kit number alone.
[[nodiscard]] label_text without_name(label_text label);

// What the code on a tube says: the kit number as it is printed, a hyphen, and the sample's number
// in two digits, "FV-2071-04"; printable ASCII. Empty where there is no kit number, or one with
// other characters. Carried by a DataMatrix (ISO/IEC 16022, ECC 200): 14 x 14 modules for the kit
// numbers of kit codes, more for longer ones.
[[nodiscard]] std::string tube_code_text(const label_text& label);

} // namespace qb::inline sheets
