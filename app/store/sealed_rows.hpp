// The rows of a journal as they are sealed in it (core/seal/sealed_row.hpp), each by itself.
//
// An event: "QbR1", its number and the length of what follows (four bytes each, the highest first),
// then its canonical JSON and its chained hash behind it as one sealed text, at the place "event
// N". What stands before the seal is for who must find a row in a damaged file, and is believed by
// nobody else. A draft is a sealed text at the place "draft KEY".
#pragma once

#include "app/store/journal_file.hpp"
#include "core/record/salvage.hpp"
#include "core/seal/secret.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace qb::inline store {

using journal_secret = seal::secret<32>;

// Sealed with a nonce drawn from the system's chance.
[[nodiscard]] std::string seal_event(const event_row& row, const journal_secret& key);
[[nodiscard]] std::optional<event_row> open_event(std::int64_t number, std::string_view sealed,
                                                  const journal_secret& key);

[[nodiscard]] std::string seal_draft(const std::string& name, const std::string& value,
                                     const journal_secret& key);
[[nodiscard]] std::optional<std::string>
open_draft(const std::string& name, std::string_view sealed, const journal_secret& key);

// What stands before an event's seal; `size` is of the whole. Nothing where no row begins.
struct sealed_head {
  std::int64_t number{0};
  std::size_t size{0};
};
[[nodiscard]] std::optional<sealed_head> sealed_head_at(std::string_view bytes);

// The first bytes of every sealed event.
inline constexpr std::string_view sealed_mark = "QbR1";

// A row that does not open, as far as it can be had: with its nonce mended, where that is to be
// tried; or what its bytes say unproved, for the chain of hashes to judge.
[[nodiscard]] found_row found_in_damage(std::int64_t number, std::string_view sealed,
                                        const journal_secret& key, bool mend);

} // namespace qb::inline store
