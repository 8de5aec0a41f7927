// The rules that records froze, each read once by whoever reads many records.
#pragma once

#include "core/base/canonical_text.hpp"
#include "core/base/shared_text.hpp"
#include "core/protocol/frozen.hpp"
#include "core/protocol/profile.hpp"
#include "core/protocol/protocol.hpp"

#include <list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline records {

// Remembers protocols and profiles by their canonical texts, byte for byte; of too many the one
// that was asked for longest ago is forgotten.
class frozen_rules {
public:
  template <typename Rules>
  struct known {
    shared_text text;
    std::string digest; // SHA-256 of it
    frozen<Rules> rules;
  };

  // As `read_profile` and `read_protocol`; what is answered holds until the next question.
  [[nodiscard]] result<const known<lab_profile>*> profile(std::string_view text);
  [[nodiscard]] result<const known<protocol>*> plan(std::string_view text);

  // The texts that are known, under the field of an event in which each stands.
  [[nodiscard]] const std::vector<json::proved_object>& proved() const { return proved_; }

private:
  void prove();

  std::list<known<lab_profile>> profiles_; // what was asked for last stands first
  std::list<known<protocol>> protocols_;
  std::vector<json::proved_object> proved_;
};

} // namespace qb::inline records
