// Cutting the shared pieces out, and Zstandard's calls.
#include "app/store/packed_bodies.hpp"

#include "app/store/rule_copies.hpp"
#include "app/store/statement.hpp"
#include "core/base/json.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <zstd.h>

namespace qb::inline store {

namespace {

constexpr char mark = '\x1a';
constexpr int level = 1;               // the text is mostly names and digits, said again
constexpr std::size_t most_known = 64; // of rules, in memory
constexpr std::size_t most_text = json::most_bytes; // as much as is read of a log

} // namespace

void packed_bodies::closer::operator()(ZSTD_CCtx_s* c) const {
  ZSTD_freeCCtx(c);
}
void packed_bodies::closer::operator()(ZSTD_DCtx_s* d) const {
  ZSTD_freeDCtx(d);
}

packed_bodies::packed_bodies() : packing_(ZSTD_createCCtx()), unpacking_(ZSTD_createDCtx()) {
  QB_BELIEVE(packing_ && unpacking_); // they fail as memory does
}
packed_bodies::~packed_bodies() = default;
packed_bodies::packed_bodies(packed_bodies&&) noexcept = default;
packed_bodies& packed_bodies::operator=(packed_bodies&&) noexcept = default;

bool packed_bodies::make_tables(database& db) {
  return make_rule_tables(db) &&
         db.run("CREATE TABLE IF NOT EXISTS log_packed(test_id TEXT NOT NULL,"
                " events INTEGER NOT NULL, rules TEXT NOT NULL, body BLOB NOT NULL,"
                " PRIMARY KEY(test_id, events)) STRICT");
}

bool packed_bodies::can_pack(std::string_view body) {
  return !body.empty() && body.size() <= most_text && body.find(mark) == body.npos;
}

std::optional<std::int64_t> packed_bodies::id_of(database& db, std::string_view text) {
  const auto found =
      std::find_if(known_.begin(), known_.end(), [&](const known& k) { return k.text == text; });
  if (found != known_.end()) return found->id;
  const auto id = keep_rules(db, text);
  if (id) remember(*id, std::string(text));
  return id;
}

bool packed_bodies::put(database& db, const std::string& test_id, std::int64_t events,
                        const std::string& body, const std::vector<std::string_view>& shared) {
  std::string text;
  text.reserve(body.size());
  std::string rules = " ";
  std::size_t from = 0;
  for (const std::string_view piece : shared) {
    const std::size_t at = piece.empty() ? body.npos : body.find(piece, from);
    if (at == body.npos) continue;
    const auto id = id_of(db, piece);
    if (!id) return false;
    text.append(body, from, at - from);
    text += fmt::format("{}{}{}", mark, *id, mark);
    rules += fmt::format("{} ", *id);
    from = at + piece.size();
  }
  text.append(body, from);
  std::string packed(ZSTD_compressBound(text.size()), '\0');
  const std::size_t size = ZSTD_compressCCtx(packing_.get(), packed.data(), packed.size(),
                                             text.data(), text.size(), level);
  if (ZSTD_isError(size) != 0) return false;
  packed.resize(size);
  kept_statement row = db.kept("INSERT INTO log_packed VALUES(?1,?2,?3,?4)");
  row->bind(1, test_id).bind(2, events).bind(3, rules).bind_bytes(4, packed);
  return row->step() == SQLITE_DONE;
}

bool packed_bodies::remove(database& db, const std::string& test_id, std::int64_t events) {
  kept_statement out = db.kept("DELETE FROM log_packed WHERE test_id=?1 AND events=?2");
  out->bind(1, test_id).bind(2, events);
  return out->step() == SQLITE_DONE;
}

const std::string* packed_bodies::text_of(const database& db, std::int64_t id) const {
  const auto found =
      std::find_if(known_.begin(), known_.end(), [&](const known& k) { return k.id == id; });
  if (found != known_.end()) return &found->text;
  auto text = kept_rules(db, id);
  return text ? &remember(id, std::move(*text)) : nullptr;
}

const std::string& packed_bodies::remember(std::int64_t id, std::string text) const {
  if (known_.size() == most_known) known_.erase(known_.begin());
  known_.push_back({id, std::move(text)});
  return known_.back().text;
}

// With the shared pieces where their marks are.
std::optional<std::string> packed_bodies::whole(const database& db, std::string_view text) const {
  std::string out;
  for (;;) {
    const std::size_t at = text.find(mark);
    out += text.substr(0, at);
    if (at == text.npos) return out;
    std::int64_t id = 0;
    const char* end = text.data() + text.size();
    const auto [after, error] = std::from_chars(text.data() + at + 1, end, id);
    if (error != std::errc() || after == end || *after != mark) return std::nullopt;
    const std::string* piece = text_of(db, id);
    if (piece == nullptr || out.size() + piece->size() > most_text) return std::nullopt;
    out += *piece;
    text.remove_prefix(static_cast<std::size_t>(after + 1 - text.data()));
  }
}

std::optional<std::string> packed_bodies::get(const database& db, const std::string& test_id,
                                              std::int64_t events) const {
  kept_statement ask = db.kept("SELECT body FROM log_packed WHERE test_id=?1 AND events=?2");
  ask->bind(1, test_id).bind(2, events);
  if (ask->step() != SQLITE_ROW) return std::nullopt;
  const std::string packed = ask->bytes(0);
  const auto size = ZSTD_getFrameContentSize(packed.data(), packed.size());
  if (size > most_text) return std::nullopt; // and what says that it is not known
  std::string text(static_cast<std::size_t>(size), '\0');
  const std::size_t got =
      ZSTD_decompressDCtx(unpacking_.get(), text.data(), text.size(), packed.data(), packed.size());
  if (ZSTD_isError(got) != 0 || got != text.size()) return std::nullopt;
  return whole(db, text);
}

void packed_bodies::forget_ids() {
  known_.clear();
}

} // namespace qb::inline store
