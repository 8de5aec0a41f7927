// What a protocol text of version 1 means where it is silent: what the program did then.
// Apart from the reader, because a frozen text in an old record must keep that meaning for ever.
#pragma once

#include "core/protocol/protocol.hpp"

namespace qb::inline protocols {

// The six signs that were asked about whatever the protocol, none of them final; how far a score
// must rise stood in the laboratory's profile alone. They have no source, and their references are
// empty.
[[nodiscard]] warning_rules warnings_of_version_1();

// The three ways in which a breath could go wrong, each blown again; without a source.
[[nodiscard]] std::vector<breath_spoil> spoils_of_version_1();

} // namespace qb::inline protocols
