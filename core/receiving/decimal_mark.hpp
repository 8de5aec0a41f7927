// Whether the figures of a table have a decimal point or a decimal comma: one for all of it.
// "1,234" may be one and a quarter or more than a thousand, and whoever takes the wrong one turns a
// saturated tube into a flat one. So a mark is only believed where a figure can be read one way:
// "4,8", "0,125", or "4,812" in a column that can hold no 4812. Then it is the mark of all the
// others too; without such a figure one that can be read two ways is refused.
#pragma once

#include "core/base/result.hpp"
#include "core/curve/curve_number.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline receiving {

// One cell of a column of figures, as it stands in the file.
struct written_figure {
  std::string text;
  int line{0};
  std::string column;
  exact most; // the largest that the column can hold
};

// What a table's figures come to: the mark, '.' where none has one; or why not, a line each.
struct found_mark {
  char mark{'.'};
  std::vector<refusal> refused; // in the order of the figures, which are passed by line
};

// The mark of those figures together; what is no figure says nothing of it.
[[nodiscard]] found_mark decimal_mark_of(const std::vector<written_figure>& all);

// The number, by a table's mark; nothing of what is none.
[[nodiscard]] std::optional<exact> read_figure(std::string text, char mark);

} // namespace qb::inline receiving
