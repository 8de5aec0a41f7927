// Splitting into numbered codes, and joining what was scanned.
#include "core/code/code_text.hpp"

#include "core/base/hex.hpp"
#include "core/base/text.hpp"
#include "core/code/base45.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <optional>

namespace qb::code {

namespace {

constexpr std::string_view family = "QB"; // of all versions
constexpr std::string_view mark = "QB1";
constexpr std::size_t set_at = 5;
constexpr std::size_t set_size = 6;
constexpr std::size_t data_at = set_at + set_size;
constexpr std::size_t check_size = 4;
constexpr std::size_t most_parts = 9;
constexpr std::size_t group_bytes = 2; // as three characters
constexpr std::size_t part_bytes = (most_code_characters - data_at - check_size) / 3 * group_bytes;

std::string set_of(std::string_view content) {
  constexpr std::size_t bytes = 4;
  return base45(*bytes_of_hex(sha256_hex(content).substr(0, 2 * bytes)));
}

std::string check_of(std::string_view text) {
  return fmt::format("{:04X}", crc16(text));
}

refusal no(const std::string& where, std::string found, std::string expected,
           refusal_kind kind = refusal_kind::malformed) {
  return {kind, "", where, std::move(found), std::move(expected)};
}

// One line read by itself.
struct part {
  std::size_t index{0}; // from 1
  std::size_t count{0};
  std::string set;
  std::string bytes;
};

bool is_small(char c) {
  return c >= 'a' && c <= 'z';
}

// What is wrong with a line before its check can be looked at.
std::optional<refusal> bad_form(std::string_view line, const std::string& where) {
  if (std::any_of(line.begin(), line.end(), is_small))
    return no(
        where, "small letters",
        "capitals, as they stand in the code: set the scanner's keyboard layout, or caps lock");
  if (line.substr(0, family.size()) != family)
    return no(where, "another text", "a code that begins with QB1");
  if (line.substr(0, mark.size()) != mark && line.size() > family.size() &&
      line[family.size()] >= '2' && line[family.size()] <= '9')
    return no(where, fmt::format("a code of version {}", line[family.size()]), "version 1",
              refusal_kind::newer);
  if (line.substr(0, mark.size()) != mark)
    return no(where, "another text", "a code that begins with QB1");
  if (line.size() <= data_at + check_size || line.size() > most_code_characters)
    return no(where, fmt::format("{} characters", line.size()),
              fmt::format("{} to {}", data_at + check_size + 1, most_code_characters));
  return std::nullopt;
}

result<part> read_line(std::string_view line, const std::string& where) {
  if (const auto bad = bad_form(line, where)) return tl::unexpected(*bad);
  const std::string_view body = line.substr(0, line.size() - check_size);
  if (line.substr(body.size()) != check_of(body))
    return tl::unexpected(no(where, "a code whose check does not fit",
                             "every character as it was scanned: scan it again"));
  part p;
  p.index = static_cast<std::size_t>(body[3] - '0');
  p.count = static_cast<std::size_t>(body[4] - '0');
  if (p.index < 1 || p.count < 1 || p.count > most_parts || p.index > p.count)
    return tl::unexpected(no(where, "numbers of parts that cannot be", "part i of n, 1 to 9"));
  p.set = std::string(body.substr(set_at, set_size));
  auto bytes = read_base45(body.substr(data_at));
  if (!bytes) {
    bytes.error().where = where + ", " + bytes.error().where;
    return tl::unexpected(bytes.error());
  }
  p.bytes = std::move(*bytes);
  return p;
}

// The parts of one set as they come in.
struct gathering {
  std::string set;
  std::size_t count{0};
  std::string where; // of its first line
  std::map<std::size_t, std::string> parts;
};

// Puts a part to those of its set. Two that claim the same place with other content are refused.
std::optional<refusal> gather(part p, const std::string& where, std::vector<gathering>& all) {
  auto at = std::find_if(all.begin(), all.end(),
                         [&](const gathering& g) { return g.set == p.set && g.count == p.count; });
  if (at == all.end()) at = all.insert(all.end(), {p.set, p.count, where, {}});
  const auto [there, fresh] = at->parts.emplace(p.index, p.bytes);
  if (fresh || there->second == p.bytes) return std::nullopt;
  return no(where, fmt::format("another code {} of {} than before", p.index, p.count),
            "one of each");
}

std::string missing_parts(const gathering& g) {
  std::string out;
  std::size_t many = 0;
  for (std::size_t i = 1; i <= g.count; ++i) {
    if (g.parts.count(i) != 0) continue;
    out += fmt::format("{}{}", out.empty() ? "" : ", ", i);
    ++many;
  }
  return fmt::format("code{} {} of {} {} missing", many == 1 ? "" : "s", out, g.count,
                     many == 1 ? "is" : "are");
}

void join(const std::vector<gathering>& all, scanned_codes& out) {
  const auto is_whole = [](const gathering& g) { return g.parts.size() == g.count; };
  const auto open =
      std::count_if(all.begin(), all.end(), [&](const gathering& g) { return !is_whole(g); });
  for (const gathering& g : all) {
    if (!is_whole(g)) {
      std::string expected = "all codes of one sheet or screen";
      if (open > 1) expected += fmt::format("; these are of {} different results", open);
      out.refused.push_back(no(g.where, missing_parts(g), expected, refusal_kind::missing));
      continue;
    }
    std::string content;
    for (const auto& [index, bytes] : g.parts)
      content += bytes;
    if (set_of(content) == g.set) {
      out.contents.push_back(std::move(content));
    } else {
      out.refused.push_back(no(g.where, "codes that do not belong together",
                               "the codes of one sheet or screen: scan them again"));
    }
  }
}

template <typename each_line>
void for_lines(std::string_view text, each_line each) {
  std::size_t number = 1;
  for (std::size_t from = 0; from <= text.size(); ++number) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    const std::string line = trimmed(text.substr(from, end - from));
    if (!line.empty()) each(line, number);
    from = end + 1;
  }
}

} // namespace

std::uint16_t crc16(std::string_view text) {
  constexpr std::uint32_t polynomial = 0x1021;
  std::uint32_t crc = 0xFFFF;
  for (const char c : text) {
    crc ^= static_cast<std::uint32_t>(static_cast<unsigned char>(c)) << 8U;
    for (int bit = 0; bit < 8; ++bit)
      crc = (crc & 0x8000U) != 0 ? crc << 1U ^ polynomial : crc << 1U;
    crc &= 0xFFFFU;
  }
  return static_cast<std::uint16_t>(crc);
}

result<std::vector<std::string>> code_texts(std::string_view content) {
  const std::size_t parts =
      std::max<std::size_t>(1, (content.size() + part_bytes - 1) / part_bytes);
  if (content.empty() || parts > most_parts)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code",
                                  fmt::format("{} bytes", content.size()),
                                  fmt::format("1 to {}", part_bytes * most_parts)});
  const std::string set = set_of(content);
  // Equal shares, so that no code is denser than it need be; whole groups, so that none is wasted.
  const std::size_t groups = (content.size() + group_bytes - 1) / group_bytes;
  const std::size_t share = (groups + parts - 1) / parts * group_bytes;
  std::vector<std::string> out;
  for (std::size_t i = 0; i < parts; ++i) {
    std::string text = fmt::format("{}{}{}{}", mark, i + 1, parts, set);
    text += base45(content.substr(std::min(i * share, content.size()), share));
    out.push_back(text + check_of(text));
  }
  return out;
}

scanned_codes read_codes(std::string_view text) {
  scanned_codes out;
  std::vector<gathering> all;
  for_lines(text, [&](std::string_view line, std::size_t number) {
    const std::string where = fmt::format("line {}", number);
    auto read = read_line(line, where);
    if (!read) {
      out.refused.push_back(read.error());
      return;
    }
    if (auto twice = gather(std::move(*read), where, all)) out.refused.push_back(*twice);
  });
  join(all, out);
  if (all.empty() && out.refused.empty())
    out.refused.push_back(no("", "no code", "one code a line", refusal_kind::missing));
  return out;
}

bool looks_scanned(std::string_view text) {
  bool first = true;
  bool ours = false;
  for_lines(text.substr(0, 4096), [&](std::string_view line, std::size_t) {
    if (!first) return;
    first = false;
    ours = line.size() >= family.size() && (line[0] == 'Q' || line[0] == 'q') &&
           (line[1] == 'B' || line[1] == 'b');
  });
  return ours;
}

} // namespace qb::code
