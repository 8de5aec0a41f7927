// What every test on this device is made of: sentences, tests, the laboratory, its labels.
#pragma once

#include "app/assets/assets.hpp"
#include "app/patient/screens/view.hpp"

#include <string>
#include <vector>

namespace qb::inline shells {

// Read once, when the window opens.
struct device_data {
  words texts;
  std::vector<offered_test> tests;  // at least one
  std::vector<refusal> not_offered; // tests whose figures are not sane (core/protocol/figures.hpp)
  loaded<lab_profile> profile;      // the device's own; a test has its own once it is opened
  label_sheet labels;               // that the laboratory sends
};

// Reads the folder of assets and the profile (an id or a path). Refuses what cannot be read.
[[nodiscard]] result<device_data> load_device_data(const std::string& assets,
                                                   const std::string& profile);

} // namespace qb::inline shells
