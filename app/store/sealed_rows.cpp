// Rows framed and sealed, opened, and read where they are damaged.
#include "app/store/sealed_rows.hpp"

#include "app/machine/device_key.hpp"
#include "core/base/big_endian.hpp"
#include "core/base/json.hpp"
#include "core/seal/bytes.hpp"
#include "core/seal/sealed_row.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline store {

namespace {

constexpr std::size_t hash_digits = 64;
constexpr std::size_t number_size = 4;
constexpr std::size_t head_size = sealed_mark.size() + 2 * number_size;

std::string place_of_event(std::int64_t number) {
  return fmt::format("event {}", number);
}

std::string place_of_draft(const std::string& name) {
  return "draft " + name;
}

// Under a wrong nonce all of it is noise; with a byte of its own wrong it begins as every event,
// but for that byte.
bool begins_as_event(std::string_view text) {
  static const std::string whole = json::canonical(json::object{{"at", json::object{}}});
  const std::string_view begins = std::string_view(whole).substr(0, whole.size() - 2);
  std::size_t same = 0;
  for (std::size_t i = 0; i < std::min(begins.size(), text.size()); ++i)
    same += begins[i] == text[i] ? 1U : 0U;
  return same + 1 >= begins.size();
}

std::string sealed_text(std::string_view text, const std::string& place,
                        const journal_secret& key) {
  const auto chance = drawn_bytes();
  const auto nonce = seal::taken<std::tuple_size_v<seal::row_nonce>>(seal::seen(chance.bytes));
  return seal::seal_row(text, place, key, nonce);
}

} // namespace

std::string seal_event(const event_row& row, const journal_secret& key) {
  QB_BELIEVE(row.hash.size() == hash_digits);
  const std::string sealed = sealed_text(row.body + row.hash, place_of_event(row.seq), key);
  return std::string(sealed_mark) + four_bytes(static_cast<std::uint64_t>(row.seq)) +
         four_bytes(sealed.size()) + sealed;
}

std::optional<event_row> open_event(std::int64_t number, std::string_view sealed,
                                    const journal_secret& key) {
  if (sealed.size() < head_size) return std::nullopt;
  const auto text = seal::open_row(sealed.substr(head_size), place_of_event(number), key);
  if (!text || text->size() < hash_digits) return std::nullopt;
  const std::size_t body = text->size() - hash_digits;
  return event_row{number, text->substr(0, body), text->substr(body)};
}

std::string seal_draft(const std::string& name, const std::string& value,
                       const journal_secret& key) {
  return sealed_text(value, place_of_draft(name), key);
}

std::optional<std::string> open_draft(const std::string& name, std::string_view sealed,
                                      const journal_secret& key) {
  return seal::open_row(sealed, place_of_draft(name), key);
}

std::optional<sealed_head> sealed_head_at(std::string_view bytes) {
  if (bytes.size() < head_size || bytes.substr(0, sealed_mark.size()) != sealed_mark)
    return std::nullopt;
  const auto said = [&](std::size_t which) {
    return big_endian(bytes.substr(sealed_mark.size() + which * number_size, number_size));
  };
  const auto number = static_cast<std::int64_t>(said(0));
  const auto length = static_cast<std::size_t>(said(1));
  if (length > bytes.size() - head_size) return std::nullopt;
  return sealed_head{number, head_size + length};
}

found_row found_in_damage(std::int64_t number, std::string_view sealed, const journal_secret& key,
                          bool mend) {
  if (sealed.size() < head_size + hash_digits) return {};
  sealed.remove_prefix(head_size);
  std::string text = seal::unproved_row(sealed, key);
  std::optional<std::string> mended;
  if (mend && !begins_as_event(text))
    mended = seal::open_with_nonce_mended(std::string(sealed), place_of_event(number), key);
  if (mended) text = *mended;
  if (text.size() < hash_digits) return {};
  const std::size_t body = text.size() - hash_digits;
  return {number, text.substr(0, body), text.substr(body), mended.has_value()};
}

} // namespace qb::inline store
