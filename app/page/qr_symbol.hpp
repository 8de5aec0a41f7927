// QR codes (ISO/IEC 18004) of our texts: which modules are dark.
// The only file that talks to libqrencode.
#pragma once

#include "core/base/result.hpp"
#include "core/code/symbol.hpp"

#include <string>

namespace qb::page {

// How much of a code may be spoiled and still be read: about 15 % (M) or 25 % (Q) of its words.
enum class correction { m, q };

// The smallest code that holds the text. Refuses characters outside the QR alphanumeric set, which
// would take more room, and a text that no code holds.
[[nodiscard]] result<code::symbol> qr_symbol(const std::string& text, correction c);

// The smallest code that holds words of any script, marked as UTF-8. Refuses a text that no code
// holds.
[[nodiscard]] result<code::symbol> qr_of_words(const std::string& text);

// For paper: Q where its modules are no smaller than `least_module` within `width`, quiet zone
// included (both in millimetres), else M.
[[nodiscard]] result<code::symbol> qr_for_paper(const std::string& text, double width,
                                                double least_module);

} // namespace qb::page
