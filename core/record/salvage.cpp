// From the first row on: each is proved by the one before it, or its place is kept.
#include "core/record/salvage.hpp"

#include "core/record/codec.hpp"
#include "core/record/mended_row.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <map>

namespace qb::inline records {

namespace {

std::optional<event> read_event(const std::string& body) {
  const auto parsed = json::parse(body);
  if (!parsed) return std::nullopt;
  auto e = decode_event(*parsed, "event");
  if (!e) return std::nullopt;
  return std::move(*e);
}

// Whether a hash is another's with a few digits damaged.
bool is_nearly(const std::string& hash, const std::string& right) {
  constexpr std::size_t least_digits = 48; // 192 bits: nobody meets them by chance
  if (hash.size() != right.size()) return false;
  std::size_t same = 0;
  for (std::size_t i = 0; i < right.size(); ++i)
    same += hash[i] == right[i] ? 1 : 0;
  return same >= least_digits;
}

// One place in the record: what it holds, and the hash that the next is proved by.
struct place {
  std::optional<event> what;
  std::string hash; // empty: not known
};

// What the place before says: its hash, and whether that was proved.
struct link {
  std::string hash;
  bool sure{false};
};

using rows_by_number = std::map<std::int64_t, std::vector<found_row>>;

rows_by_number by_number(const std::vector<found_row>& found) {
  constexpr std::size_t most_alike = 64; // of a file that was made to be slow
  rows_by_number out;
  for (const found_row& row : found) {
    const auto e = read_event(row.body);
    const std::int64_t number = e ? e->seq : row.number;
    if (number < 1 || number > static_cast<std::int64_t>(most_events)) continue;
    auto& same = out[number];
    if (same.size() >= most_alike) continue;
    if (std::find(same.begin(), same.end(), row) == same.end()) same.push_back(row);
  }
  return out;
}

class walk {
public:
  explicit walk(const std::vector<found_row>& trusted) : trusted_(by_number(trusted)) {}

  // What stands at that number, proved by the hash before it; where that is in doubt, by its seal.
  place at(std::int64_t number, const link& before, const std::vector<found_row>& rows) {
    for (const found_row& row : rows) {
      if (auto proved = prove(number, before, row)) return note_found(*proved);
    }
    const auto kept = trusted_.find(number);
    if (kept != trusted_.end())
      return {read_event(kept->second.front().body), kept->second.front().hash};
    for (const found_row& row : rows) {
      if (auto mended = mend(number, before, row)) return note_found(*mended);
    }
    const auto said = std::find_if(rows.begin(), rows.end(),
                                   [](const found_row& row) { return is_hash(row.hash); });
    return {std::nullopt, said == rows.end() ? std::string() : said->hash};
  }
  [[nodiscard]] const rows_by_number& trusted() const { return trusted_; }
  [[nodiscard]] bool found_any() const { return found_any_; }

private:
  static std::optional<place> prove(std::int64_t number, const link& before, const found_row& row) {
    const std::string right = before.hash.empty() ? "" : chain_next(before.hash, row.body);
    const bool fits = is_nearly(row.hash, right);
    if (!fits && (before.sure || !row.sealed)) return std::nullopt;
    auto e = read_event(row.body);
    if (!e || e->seq != number) return std::nullopt;
    return place{std::move(e), fits ? right : row.hash};
  }

  std::optional<place> mend(std::int64_t number, const link& before, const found_row& row) {
    constexpr int most_tried = 8; // of a file that is all noise
    if (before.hash.empty() || !is_hash(row.hash) || tried_ >= most_tried) return std::nullopt;
    ++tried_;
    const auto body = mended_row(before.hash, row.body, row.hash);
    if (!body) return std::nullopt;
    return prove(number, before, {number, *body, row.hash});
  }

  place note_found(place found) {
    found_any_ = true;
    return found;
  }

  rows_by_number trusted_;
  bool found_any_{false};
  int tried_{0};
};

} // namespace

salvaged_record salvage(const std::vector<found_row>& found, const std::vector<found_row>& trusted,
                        std::optional<std::int64_t> sure_last,
                        const std::vector<std::string>& ask_again) {
  walk on(trusted);
  const rows_by_number rows = by_number(found);
  std::int64_t last = rows.empty() ? 0 : rows.rbegin()->first;
  if (!on.trusted().empty()) last = std::max(last, on.trusted().rbegin()->first);
  std::vector<place> places;
  std::size_t kept = 0; // up to the last that was proved
  link before{chain_start(), true};
  for (std::int64_t number = 1; number <= last; ++number) {
    const auto here = rows.find(number);
    places.push_back(
        on.at(number, before, here == rows.end() ? std::vector<found_row>{} : here->second));
    before = {places.back().hash, places.back().what.has_value()};
    if (places.back().what) kept = places.size();
  }
  salvaged_record out;
  out.found_any = on.found_any();
  if (kept == 0) return out;
  // A row that was seen behind the last proved one was there, and is lost.
  while (kept < places.size() && rows.count(static_cast<std::int64_t>(kept) + 1) != 0)
    ++kept;
  places.resize(kept);
  const auto first =
      std::find_if(places.begin(), places.end(), [](const place& x) { return x.what.has_value(); });
  clock_reading at = first->what->at;
  for (place& x : places) {
    if (!x.what) ++out.lost;
    if (x.what) at = x.what->at;
    const auto number = static_cast<std::int64_t>(out.events.size()) + 1;
    out.events.push_back(x.what ? std::move(*x.what) : event{number, at, entry_lost{}});
  }
  const auto number = static_cast<std::int64_t>(out.events.size()) + 1;
  const bool complete = out.lost == 0 && sure_last == number - 1;
  out.events.push_back({number, at, record_salvaged{out.lost, complete, ask_again}});
  return out;
}

bool is_key_event(const event& e) {
  const payload& p = e.what;
  if (const auto* closed = std::get_if<tube_closed>(&p)) return closed->sample == sample_number(1);
  if (const auto* told = std::get_if<reported_breath>(&p)) return told->sample == sample_number(1);
  return std::holds_alternative<opened>(p) || std::holds_alternative<plan_made>(p) ||
         std::holds_alternative<plan_called_off>(p) || std::holds_alternative<drink_started>(p) ||
         std::holds_alternative<reported_drink>(p) || std::holds_alternative<test_ended>(p);
}

std::vector<found_row> key_rows(const std::vector<event>& events) {
  std::vector<found_row> out;
  std::string head = chain_start();
  for (const event& e : events) {
    std::string body = json::canonical(encode_event(e));
    head = chain_next(head, body);
    if (is_key_event(e)) out.push_back({e.seq, std::move(body), head});
  }
  return out;
}

namespace {
constexpr const char* key_rows_format = "quarterbreath-key-rows 1\n";
} // namespace

std::string key_rows_text(const std::vector<found_row>& rows) {
  std::string out = key_rows_format;
  for (const found_row& row : rows)
    out += row.hash + " " + row.body + "\n";
  return out + sha256_hex(out) + "\n";
}

std::vector<found_row> read_key_rows(const std::string& text) {
  const std::size_t end = chain_start().size() + 1; // the last line
  if (text.size() < end || text.back() != '\n') return {};
  const std::string all = text.substr(0, text.size() - end);
  if (all.rfind(key_rows_format, 0) != 0 || sha256_hex(all) + "\n" != text.substr(all.size()))
    return {};
  std::vector<found_row> out;
  for (std::size_t at = all.find('\n') + 1; at < all.size();) {
    const std::size_t line_end = all.find('\n', at);
    const std::size_t blank = all.find(' ', at);
    if (line_end == std::string::npos || blank >= line_end) return {};
    out.push_back({0, all.substr(blank + 1, line_end - blank - 1), all.substr(at, blank - at)});
    at = line_end + 1;
  }
  return out;
}

} // namespace qb::inline records
