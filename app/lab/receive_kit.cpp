// A word at the bench, told apart from a test's id and a tube's code.
#include "app/lab/receive_kit.hpp"

#include "core/lab/readings.hpp"
#include "core/protocol/kit_code.hpp"

#include <algorithm>

namespace qb::lab {

refusal no_kit(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "kit", std::move(found), std::move(expected)};
}

bool is_kit(const desk& at, const tube_codes& codes, const std::string& text) {
  if (text.find(' ') != text.npos && fault_of_kit_code(text)) return false;
  if (codes.count(text) != 0 || at.test(text) != nullptr) return false;
  if (!fault_of_kit_code(text)) return true;
  const char first = text.front();
  const bool letter = (first >= 'A' && first <= 'Z') || (first >= 'a' && first <= 'z');
  return letter && text.find('-') != text.npos && read_kit_number(text).has_value();
}

result<std::string> kit_number_in(const desk& at, const std::string& text, std::string& protocol) {
  if (fault_of_kit_code(text)) {
    const auto number = read_kit_number(text);
    if (number) return *number;
    return tl::unexpected(no_kit("no kit number", "one such as FV-2071, or a kit code"));
  }
  const auto code = read_kit_code(text);
  if (!code) return tl::unexpected(code.error());
  if (code->laboratory_letters != at.profile().kit_letters)
    return tl::unexpected(no_kit("the code of another laboratory's kit", "one of this one's"));
  const qb::protocol* test = at.test_of_letters(code->protocol_letters);
  if (test != nullptr) protocol = test->id;
  return kit_number_of(*code);
}

std::optional<refusal> add_codes(const box_words& w, const tube_codes& codes,
                                 const std::string& kit, std::vector<received_tube>& tubes) {
  if (w.codes.empty()) return std::nullopt;
  for (received_tube& t : tubes)
    t.present = false;
  for (const std::string& code : w.codes) {
    const known_tube& known = codes.at(code);
    if (known.kit != kit)
      return no_kit("a tube of kit " + known.kit, "tubes of the kit that is open");
    const auto t = std::find_if(tubes.begin(), tubes.end(), [&](const received_tube& x) {
      return x.sample == known.sample && !x.present;
    });
    received_tube one;
    one.sample = known.sample;
    received_tube& here = t != tubes.end() ? *t : tubes.emplace_back(one);
    here.present = true;
    here.maker_code = code;
  }
  return std::nullopt;
}

} // namespace qb::lab
