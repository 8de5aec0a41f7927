// Texts of logs, packed: what many of them hold alike (the rules that they froze) is kept once, and
// the rest is compressed.
//
//   log_packed    test_id TEXT, events INTEGER, rules TEXT, body BLOB: of the row of that key in
//                 table log, whose own body is empty. A Zstandard frame of the log's text, in which
//                 the byte 1A, digits and the byte 1A stand for the text of that id among the rules
//                 (app/store/rule_copies.hpp). No JSON holds such a byte, so that it can mean
//                 nothing else. `rules` has the ids, each between spaces.
#pragma once

#include "app/store/database.hpp"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct ZSTD_CCtx_s;
struct ZSTD_DCtx_s;

namespace qb::inline store {

// Packs and unpacks the bodies of one store. Which ids are there may change between two
// transactions, and when one is taken back: whoever begins one to write calls `forget_ids`.
class packed_bodies {
public:
  packed_bodies();
  ~packed_bodies();
  packed_bodies(packed_bodies&&) noexcept;
  packed_bodies& operator=(packed_bodies&&) noexcept;

  // Makes the tables where they are not there. False where a step fails, here and below.
  [[nodiscard]] static bool make_tables(database& db);

  // Whether that text can be packed; else it is to be kept as it is.
  [[nodiscard]] static bool can_pack(std::string_view body);

  // Writes the row of that key; `shared` are pieces of the body that other logs hold too.
  [[nodiscard]] bool put(database& db, const std::string& test_id, std::int64_t events,
                         const std::string& body, const std::vector<std::string_view>& shared);
  [[nodiscard]] bool remove(database& db, const std::string& test_id, std::int64_t events);

  // The text of that key; nothing where there is no such row, or it is damaged.
  [[nodiscard]] std::optional<std::string> get(const database& db, const std::string& test_id,
                                               std::int64_t events) const;

  void forget_ids();

private:
  struct known {
    std::int64_t id;
    std::string text;
  };
  struct closer {
    void operator()(ZSTD_CCtx_s* c) const;
    void operator()(ZSTD_DCtx_s* d) const;
  };
  [[nodiscard]] std::optional<std::int64_t> id_of(database& db, std::string_view text);
  const std::string& remember(std::int64_t id, std::string text) const;
  [[nodiscard]] const std::string* text_of(const database& db, std::int64_t id) const;
  [[nodiscard]] std::optional<std::string> whole(const database& db, std::string_view packed) const;

  std::unique_ptr<ZSTD_CCtx_s, closer> packing_;
  std::unique_ptr<ZSTD_DCtx_s, closer> unpacking_;
  mutable std::vector<known> known_;
};

} // namespace qb::inline store
