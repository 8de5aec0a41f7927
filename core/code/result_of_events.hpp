// The packed result of a record, and what two of them say differently.
// The laboratory makes it again from the log when the log comes: both must be the same.
#pragma once

#include "core/code/packed_result.hpp"

#include <functional>
#include <string>
#include <vector>

namespace qb::code {

// What the events add up to, without a seal. Refuses (as `not_now`) a record without a first tube
// or a drink, where there is no time zero yet, and one that the form cannot hold: a kit number,
// test or protocol with too long a name, too many symptoms.
[[nodiscard]] result<packed_result> packed_of(const std::vector<event>& events);

// Signs: what `to_be_signed` makes of those bytes; nothing where there is no key.
using packed_signer = std::function<std::optional<packed_seal>(std::string_view packed)>;

// The texts of the codes of that record, sealed where there is a key.
[[nodiscard]] result<std::vector<std::string>> codes_of(const std::vector<event>& events,
                                                        const packed_signer& sign = {});

// Each thing that differs, in words: "tube 3: closed 962 s after tube 1 in the code, 965 s in the
// log". Empty where all but the seal is the same.
[[nodiscard]] std::vector<std::string> differences(const packed_result& code,
                                                   const packed_result& log);

// What is wrong between a code and the log's events, which may go on after the code was made:
// `differences` to the record as it stood then; the chain's hash first. Nothing can be said where
// the log ends before that (`log_is_older`).
struct comparison {
  bool log_is_older{false};
  std::vector<std::string> differences;
};
[[nodiscard]] comparison compare_with_log(const packed_result& code,
                                          const std::vector<event>& events);

} // namespace qb::code
