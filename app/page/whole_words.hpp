// Words with letters that no installed font has, once more as codes, at the end of a page: a square
// on paper says that a letter is missing, a code says which.
#pragma once

#include "app/page/canvas.hpp"

#include <functional>
#include <string>

namespace qb::page {

// Where such rows stand: a column and where it ends.
struct words_column {
  double left{0};
  double width{0};
  double bottom{0};
};

// Sets from `y` down what `c` could not print in full so far, with the kit number beside each;
// answers where that ends. `turn` begins a new page and answers where it begins. Nothing where
// every letter was printed.
[[nodiscard]] double draw_whole_words(canvas& c, const words_column& in, const std::string& kit,
                                      double y, const std::function<double()>& turn);

} // namespace qb::page
