// A reading's gases as they are judged: corrected for carbon dioxide where the laboratory asks for
// it, and as they were measured where that would blow a breath of air up to an answer.
#pragma once

#include "core/protocol/profile.hpp"
#include "core/receiving/received.hpp"

#include <optional>

namespace qb::inline receiving {

// What is judged. A reading outside the analyser's range stays that, its figure corrected.
struct judged_gases {
  std::optional<exact> h2;
  std::optional<exact> ch4;
  bool corrected{false};
};

// By the profile's reference. Nothing is corrected without a reference, without a measured share
// above zero, or where the factor would be greater than the profile's greatest.
[[nodiscard]] judged_gases judged_gases_of(const gas_reading& r, const lab_profile& profile);

// Why a tube with that reading decides nothing.
enum class undeciding { low_co2, great_factor, marked_invalid };

// Nothing where it decides: the first of its carbon dioxide under the profile's least, a greater
// factor than the profile's greatest, and the analyser's own mark.
[[nodiscard]] std::optional<undeciding> undeciding_of(const gas_reading& r,
                                                      const lab_profile& profile);

} // namespace qb::inline receiving
