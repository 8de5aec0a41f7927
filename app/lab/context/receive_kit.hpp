// Which kit a typed or scanned line names, and which tubes a maker's codes stand for.
#pragma once

#include "app/lab/context/lab_context.hpp"
#include "app/lab/intake/box_options.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// A refusal about the kit that was named.
[[nodiscard]] refusal no_kit(std::string found, std::string expected);

// The tube that a scanned text stands for: a maker's code of the list, or the code of our own
// labels
// ("FV-2071-04", core/sheet/labels.hpp). Nothing of another text.
[[nodiscard]] std::optional<known_tube> tube_scanned_as(const tube_codes& codes,
                                                        const std::string& text);

// The same of our own labels alone; nothing where the whole text is the number of a kit whose log,
// code or sheet is here.
[[nodiscard]] std::optional<known_tube> tube_on_label(const lab_context& at,
                                                      const std::string& text);

// One word that is a kit's number or code, and neither a test's id nor a tube's code.
[[nodiscard]] bool is_kit(const lab_context& at, const tube_codes& codes, const std::string& text);

// The number, and of a kit code the test that it names; a tube's label names its kit. Refuses
// another laboratory's kit, and a text of a kit code's form that is none.
[[nodiscard]] result<std::string> kit_number_in(const lab_context& at, const std::string& text,
                                                std::string& protocol);

// Each code's tube is here; where any was scanned, those that were not are missing, but for a box
// whose tubes are `settled`: told before, and not again now. Refuses a tube of another kit.
[[nodiscard]] std::optional<refusal> add_codes(const box_options& w, const tube_codes& codes,
                                               const std::string& kit, bool settled,
                                               std::vector<received_tube>& tubes);

} // namespace qb::lab
