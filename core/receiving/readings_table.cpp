// The header apart, and a bound on the rows.
#include "core/receiving/readings_table.hpp"

#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

std::string in_small_letters(std::string text) {
  for (char& c : text)
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

} // namespace

result<table> read_text_table(std::string_view text, std::size_t most_rows,
                              const std::function<bool(const csv::row&)>& is_head) {
  auto rows = csv::reader::open(text, ",;\t");
  if (!rows) return tl::unexpected(rows.error());
  table out;
  auto row = rows->next();
  for (; row && *row; row = rows->next()) {
    if ((*row)->empty()) continue;
    if (out.names.empty() && is_head && is_head(**row)) {
      out.head.push_back(std::move(**row));
      continue;
    }
    if (out.names.empty()) {
      for (const std::string& name : (*row)->cells)
        out.names.push_back(in_small_letters(name));
      continue;
    }
    if (out.rows.size() == most_rows)
      return tl::unexpected(refusal{refusal_kind::malformed, "",
                                    fmt::format("line {}", (*row)->line), "another row",
                                    fmt::format("at most {}", most_rows)});
    out.rows.push_back(std::move(**row));
  }
  if (!row) return tl::unexpected(row.error());
  if (out.names.empty())
    return tl::unexpected(
        refusal{refusal_kind::missing, "", "", "an empty file", "a header and its rows"});
  return out;
}

} // namespace qb::inline receiving
