// Cells by their shape, then rows by their text.
#include "app/store/found_rows.hpp"

#include "app/store/sealed_rows.hpp"
#include "core/base/big_endian.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <set>
#include <string_view>

namespace qb::inline store {

namespace {

constexpr std::size_t hash_digits = 64;
constexpr std::uint64_t longest_row = 4U << 20U; // of bytes: far beyond any event

// SQLite's integers of no fixed size: seven bits a byte, the highest first.
std::optional<std::uint64_t> take_varint(std::string_view bytes, std::size_t& at) {
  constexpr int most = 5; // longer ones are far beyond what our rows hold
  std::uint64_t out = 0;
  for (int i = 0; i < most && at < bytes.size(); ++i) {
    const auto byte = static_cast<unsigned char>(bytes[at++]);
    out = out << 7U | (byte & 0x7FU);
    if ((byte & 0x80U) == 0) return out;
  }
  return std::nullopt;
}

// The shape of a row: seq is the row's own number and stands as NULL, then two texts, or one blob.
struct shape {
  std::size_t head{0};
  std::size_t body{0}; // of the sealed row, where there is no hash
  std::size_t hash{0};
};

// What stands in one cell.
struct cell {
  std::int64_t number{0};
  std::string body;
  std::string hash; // empty: the body is a sealed row
};

std::optional<shape> shape_of(std::string_view payload) {
  constexpr std::uint64_t first_blob = 12; // serial types of blobs are even from here on
  constexpr std::uint64_t first_text = 13; // and those of texts odd
  std::size_t at = 0;
  const auto head = take_varint(payload, at);
  const auto seq = take_varint(payload, at);
  const auto body = take_varint(payload, at);
  if (!head || !seq || !body || *seq != 0) return std::nullopt;
  if (*head == at && *body >= first_blob && *body % 2 == 0)
    return shape{at, static_cast<std::size_t>((*body - first_blob) / 2), 0};
  const auto hash = take_varint(payload, at);
  if (!hash || *head != at) return std::nullopt;
  if (*body < first_text || *body % 2 == 0 || *hash != first_text + 2 * hash_digits)
    return std::nullopt;
  return shape{at, static_cast<std::size_t>((*body - first_text) / 2), hash_digits};
}

// The file as pages of that size. Ours reserve nothing at a page's end.
class pages {
public:
  pages(std::string_view file, std::size_t size) : file_(file), size_(size) {}

  // The row whose cell begins there; nothing where none does.
  [[nodiscard]] std::optional<cell> cell_at(std::size_t from) const {
    const std::size_t page_end = std::min(file_.size(), (from / size_ + 1) * size_);
    const std::string_view page = file_.substr(0, page_end);
    std::size_t at = from;
    const auto length = take_varint(page, at);
    if (!length || *length < hash_digits || *length > longest_row) return std::nullopt;
    const auto number = take_varint(page, at);
    if (!number || *number < 1 || *number > most_events) return std::nullopt;
    const auto row = shape_of(page.substr(at));
    if (!row || row->head + row->body + row->hash != *length) return std::nullopt;
    const std::string payload = payload_at(at, page_end, *length);
    if (payload.size() != *length) return std::nullopt;
    return cell{static_cast<std::int64_t>(*number), payload.substr(row->head, row->body),
                payload.substr(row->head + row->body)};
  }

private:
  // What of a payload lies in the leaf itself.
  [[nodiscard]] std::uint64_t local_part(std::uint64_t length) const {
    const std::uint64_t most = size_ - 35;
    if (length <= most) return length;
    const std::uint64_t least = (size_ - 12) * 32 / 255 - 23;
    const std::uint64_t wanted = least + (length - least) % (size_ - 4);
    return wanted <= most ? wanted : least;
  }

  [[nodiscard]] std::string payload_at(std::size_t at, std::size_t page_end,
                                       std::uint64_t length) const {
    constexpr std::size_t number_size = 4;
    const auto local = static_cast<std::size_t>(local_part(length));
    if (at + local > page_end) return {};
    std::string out(file_.substr(at, local));
    if (local == length || at + local + number_size > page_end) return out;
    std::uint64_t next = big_endian(file_.substr(at + local, number_size));
    while (next > 0 && out.size() < length) {
      const std::uint64_t begins = (next - 1) * size_;
      if (begins + size_ > file_.size()) break;
      const std::string_view page = file_.substr(static_cast<std::size_t>(begins), size_);
      out += page.substr(number_size, static_cast<std::size_t>(length) - out.size());
      next = big_endian(page.substr(0, number_size));
    }
    return out;
  }

  std::string_view file_;
  std::size_t size_;
};

using sealed_rows = std::set<std::pair<std::int64_t, std::string>>; // number and row

// What is held of rows in all. Each row of a file of ours is found a few times at most; one that is
// made so that its rows overlap could hold as many bytes as it has, squared.
class room {
public:
  explicit room(std::size_t file) : bytes_(file * times_found + at_least) {}
  [[nodiscard]] bool takes(std::size_t row) {
    if (rows_ == 0 || row > bytes_) return false;
    --rows_;
    bytes_ -= row;
    return true;
  }

private:
  static constexpr std::size_t times_found = 4;
  static constexpr std::size_t at_least = 65536;
  std::size_t rows_{times_found * most_events};
  std::size_t bytes_;
};

void add_cells(const std::string& file, std::size_t page_size, std::vector<found_row>& out,
               sealed_rows& sealed, room& left) {
  const pages all(file, page_size);
  for (std::size_t at = 0; at < file.size(); ++at) {
    auto row = all.cell_at(at);
    if (row && !left.takes(row->body.size())) return;
    if (row && row->hash.empty())
      sealed.emplace(row->number, std::move(row->body));
    else if (row)
      out.push_back({row->number, std::move(row->body), std::move(row->hash)});
  }
}

void add_marked(const std::string& file, sealed_rows& out, room& left) {
  for (std::size_t at = file.find(sealed_mark); at != std::string::npos;
       at = file.find(sealed_mark, at + 1)) {
    const std::string_view rest = std::string_view(file).substr(at);
    const auto head = sealed_head_at(rest);
    if (head && !left.takes(head->size)) return;
    if (head) out.emplace(head->number, rest.substr(0, head->size));
  }
}

// The canonical text of an event begins with its clocks and ends with its number; its hash follows.
void add_texts(const std::string& file, std::vector<found_row>& out) {
  constexpr std::string_view begins = "{\"at\":{";
  constexpr std::string_view number = "\"seq\":";
  for (std::size_t at = file.find(begins); at != std::string::npos;) {
    const std::size_t next = file.find(begins, at + 1);
    const std::size_t until = std::min(next, file.size());
    const std::size_t seq = file.substr(at, until - at).rfind(number);
    const std::size_t end = seq == std::string::npos ? seq : file.find('}', at + seq);
    if (end != std::string::npos && end + 1 + hash_digits <= until)
      out.push_back({0, file.substr(at, end + 1 - at), file.substr(end + 1, hash_digits)});
    at = next;
  }
}

// What the file's head says, and what our files have where the head is damaged.
std::vector<std::size_t> page_sizes(const std::string& file) {
  constexpr std::size_t ours = 4096;
  constexpr std::size_t smallest = 512;
  constexpr std::size_t size_at = 16;
  std::vector<std::size_t> out{ours};
  if (file.size() < size_at + 2) return out;
  const auto said = static_cast<std::size_t>(big_endian(std::string_view(file).substr(size_at, 2)));
  const bool is_power = (said & (said - 1)) == 0;
  if (said >= smallest && is_power && said != ours) out.push_back(said);
  return out;
}

} // namespace

std::vector<found_row> rows_in_bytes(const std::string& file,
                                     const std::optional<journal_secret>& key) {
  std::vector<found_row> out;
  sealed_rows sealed;
  room left(file.size());
  for (const std::size_t size : page_sizes(file))
    add_cells(file, size, out, sealed, left);
  add_texts(file, out);
  add_marked(file, sealed, left);
  std::size_t to_be_mended = 262144; // bytes of rows, each of which is tried thousands of times
  for (const auto& [number, row] : sealed) {
    if (!key) {
      out.push_back({number, "", "", false});
      continue;
    }
    auto whole = open_event(number, row, *key);
    if (whole) {
      out.push_back({number, std::move(whole->body), std::move(whole->hash), true});
      continue;
    }
    const bool mend = row.size() <= to_be_mended;
    if (mend) to_be_mended -= row.size();
    out.push_back(found_in_damage(number, row, *key, mend));
  }
  return out;
}

} // namespace qb::inline store
