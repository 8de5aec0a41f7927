// How a laboratory, and help in danger, are reached: the part of a profile that a person needs when
// something goes wrong. Read apart from its other choices, because the two versions differ here.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/protocol/profile.hpp"

namespace qb::inline protocols {

// Reads emergency number and hours of a profile's fields, as that version writes them.
void read_reached(json::fields& f, lab_profile& out, int version);

} // namespace qb::inline protocols
