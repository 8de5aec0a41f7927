// Line by line, and back.
#include "core/seal/age_header.hpp"

#include "core/seal/base64.hpp"
#include "core/seal/bytes.hpp"

#include <algorithm>
#include <optional>

namespace qb::seal {

namespace {

constexpr std::string_view format = "age-encryption.org/";
constexpr std::string_view version_line = "age-encryption.org/v1";
constexpr std::string_view armour = "-----BEGIN AGE ENCRYPTED FILE-----";
constexpr std::string_view stanza_head = "-> ";
constexpr std::string_view end_head = "---";
constexpr std::size_t most_header = 65536;
constexpr std::size_t body_line = 64;

bool begins(std::string_view text, std::string_view head) {
  return text.substr(0, head.size()) == head;
}

// Reads the head from its beginning; the first refusal ends it.
class header_reader {
public:
  explicit header_reader(std::string_view file) : file_(file) {}

  result<age_header> read() {
    if (auto good = version(); !good) return tl::unexpected(good.error());
    age_header out;
    for (;;) {
      const std::size_t line_at = at_;
      const auto line = next();
      if (!line) return tl::unexpected(no("no end of the head within 64 KiB"));
      if (begins(*line, stanza_head)) {
        auto one = one_stanza(line->substr(stanza_head.size()));
        if (!one) return tl::unexpected(one.error());
        out.stanzas.push_back(std::move(*one));
        continue;
      }
      if (out.stanzas.empty() || !begins(*line, "--- "))
        return tl::unexpected(no("a line that belongs to no recipient"));
      const auto code = from_base64(line->substr(end_head.size() + 1), padding::without);
      if (!code || code->size() != out.code.size())
        return tl::unexpected(no("a code that is not base64 of its length"));
      out.code = taken<sizeof out.code>(*code);
      out.covered = line_at + end_head.size();
      out.size = at_;
      return out;
    }
  }

private:
  [[nodiscard]] refusal no(std::string found) const {
    return {refusal_kind::malformed, "", "head, line " + std::to_string(line_), std::move(found),
            "an age file as it was sealed"};
  }

  std::optional<std::string_view> next() {
    ++line_;
    const std::string_view within = file_.substr(0, most_header);
    const std::size_t end = within.find('\n', at_);
    if (end == std::string_view::npos) return std::nullopt;
    const std::string_view line = within.substr(at_, end - at_);
    at_ = end + 1;
    return line;
  }

  result<void> version() {
    if (begins(file_, armour))
      return tl::unexpected(refusal{refusal_kind::malformed, "", "head",
                                    "an age file in text armour",
                                    "the binary form (age without -a)"});
    const auto line = next();
    if (line && *line == version_line) return {};
    if (line && begins(*line, format))
      return tl::unexpected(refusal{refusal_kind::newer, "", "head",
                                    "another version of age's form", std::string(version_line)});
    return tl::unexpected(no("something else than an age file"));
  }

  result<stanza> one_stanza(std::string_view words) {
    std::vector<std::string> all;
    for (std::size_t from = 0; from <= words.size();) {
      const std::size_t end = std::min(words.find(' ', from), words.size());
      const std::string_view word = words.substr(from, end - from);
      const bool good =
          std::all_of(word.begin(), word.end(), [](char c) { return c >= '!' && c <= '~'; });
      if (word.empty() || !good) return tl::unexpected(no("a stanza with an unclear argument"));
      all.emplace_back(word);
      from = end + 1;
    }
    stanza out;
    out.kind = all.front();
    out.arguments.assign(all.begin() + 1, all.end());
    std::string text;
    for (std::size_t last = body_line; last == body_line;) {
      const auto line = next();
      if (!line || line->size() > body_line)
        return tl::unexpected(no("a stanza's body in lines of another length"));
      text += *line;
      last = line->size();
    }
    auto body = from_base64(text, padding::without);
    if (!body) return tl::unexpected(no("a stanza's body that is not base64"));
    out.body = std::move(*body);
    return out;
  }

  std::string_view file_;
  std::size_t at_{0};
  int line_{0};
};

} // namespace

result<age_header> read_age_header(std::string_view file) {
  return header_reader(file).read();
}

std::string covered_text(const std::vector<stanza>& stanzas) {
  std::string out(version_line);
  out += '\n';
  for (const stanza& s : stanzas) {
    const std::string body = to_base64(s.body, padding::without);
    QB_BELIEVE(body.size() < body_line);
    out.append(stanza_head).append(s.kind);
    for (const std::string& argument : s.arguments)
      out.append(" ").append(argument);
    out.append("\n").append(body).append("\n");
  }
  return out.append(end_head);
}

} // namespace qb::seal
