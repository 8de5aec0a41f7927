// Whether a kit number was issued, asked at every door through which a kit comes into the store.
#pragma once

#include "app/store/laboratory_store.hpp"
#include "core/laboratory/kit_register.hpp"
#include "core/receiving/received.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// The option that says on purpose that a kit was never issued here.
inline constexpr const char* not_issued_option = "--not-issued";

// All that were issued, by that store; none where the store is not there.
[[nodiscard]] result<std::vector<issued_kit>> load_issued(const std::string& store);

// Lot, last day and test of the kit of that number as it was issued; empty where none was.
[[nodiscard]] result<kit_supply> supply_issued(const laboratory_store& laboratory,
                                               const std::string& kit);

// Asks of one number after the other.
class kit_asker {
public:
  // `on_purpose`: nothing is asked. Refuses what the store refuses.
  [[nodiscard]] static result<kit_asker> open(const std::string& store, bool on_purpose);

  // Whether this laboratory keeps a register of what it issues.
  [[nodiscard]] bool has_register() const { return !all_.empty(); }

  // The question about that number (core/laboratory/kit_register.hpp), or nothing.
  [[nodiscard]] std::optional<refusal> ask(const std::string& kit) const;

private:
  explicit kit_asker(std::vector<issued_kit> all) : all_(std::move(all)) {}
  std::vector<issued_kit> all_;
};

} // namespace qb::lab
