// Text to lines, lines to cells.
#include "core/base/csv.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::csv {

namespace {

// The next line, taken off the text.
std::string_view take_line(std::string_view& text) {
  const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
  const std::string_view line = text.substr(0, end);
  const bool both = text.substr(end, 2) == "\r\n";
  text.remove_prefix(std::min(end + (both ? 2 : 1), text.size()));
  return line;
}

char most_frequent(std::string_view marks, std::string_view in) {
  return *std::max_element(marks.begin(), marks.end(), [&](char a, char b) {
    return std::count(in.begin(), in.end(), a) < std::count(in.begin(), in.end(), b);
  });
}

// One line's cells, from left to right.
class line_reader {
public:
  line_reader(std::string_view line, int number, char separator)
      : line_(line), number_(number), separator_(separator) {}

  result<std::vector<std::string>> cells() {
    std::vector<std::string> out;
    while (at_ <= line_.size()) {
      while (at_ < line_.size() && line_[at_] == ' ' && separator_ != ' ')
        ++at_;
      const bool quoted = at_ < line_.size() && line_[at_] == '"';
      auto cell = quoted ? take_quoted() : take_bare();
      if (!cell) return tl::unexpected(cell.error());
      out.push_back(trimmed(*cell));
      ++at_; // past the separator
    }
    return out;
  }

private:
  result<std::string> take_bare() {
    const std::size_t end = std::min(line_.find(separator_, at_), line_.size());
    std::string cell(line_.substr(at_, end - at_));
    at_ = end;
    return cell;
  }

  result<std::string> take_quoted() {
    const std::size_t opened = at_;
    std::string cell;
    for (++at_; at_ < line_.size(); ++at_) {
      if (line_[at_] == '"' && line_.substr(at_, 2) != "\"\"") break;
      if (line_[at_] == '"') ++at_; // two quotes are one
      cell += line_[at_];
    }
    if (at_ == line_.size()) return no(opened, "a quote that does not close");
    const std::size_t closed = ++at_;
    const auto behind = take_bare();
    if (!trimmed(*behind).empty()) return no(closed, "text behind a closing quote");
    return cell;
  }

  [[nodiscard]] tl::unexpected<refusal> no(std::size_t at, const char* found) const {
    return tl::unexpected(refusal{
        refusal_kind::malformed, "",
        fmt::format("line {}, character {}", number_, character_count(line_.substr(0, at)) + 1),
        found, "quotes around a whole cell"});
  }

  std::string_view line_;
  int number_;
  char separator_;
  std::size_t at_{0};
};

} // namespace

bool row::empty() const {
  return std::all_of(cells.begin(), cells.end(), [](const std::string& c) { return c.empty(); });
}

result<reader> reader::open(std::string_view text, std::string_view separators) {
  QB_BELIEVE(!separators.empty());
  constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark)
    text.remove_prefix(byte_order_mark.size());
  // UTF-16, the other form in which spreadsheets save text.
  if (text.find('\0') != text.npos || text.substr(0, 2) == "\xff\xfe")
    return tl::unexpected(refusal{refusal_kind::malformed, "", "", "text that is not UTF-8",
                                  "a table saved as CSV in UTF-8"});
  return reader(text, separators);
}

result<std::optional<row>> reader::next() {
  while (!rest_.empty()) {
    const std::string_view line = take_line(rest_);
    ++line_;
    const std::string bare = trimmed(line);
    const bool first = separator_ == 0;
    if (bare.empty() || (first && bare.substr(0, 4) == "sep=")) continue;
    if (first) separator_ = most_frequent(separators_, line);
    auto cells = line_reader(line, line_, separator_).cells();
    if (!cells) return tl::unexpected(cells.error());
    return row{line_, std::string(line), std::move(*cells)};
  }
  return std::optional<row>();
}

} // namespace qb::csv
