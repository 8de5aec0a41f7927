// What was typed or scanned while receiving, told apart from a test's id and a tube's code.
#include "app/lab/context/receive_kit.hpp"

#include "app/lab/context/kit_tests.hpp"
#include "core/protocol/kit_code.hpp"
#include "core/receiving/readings.hpp"

#include <algorithm>

namespace qb::lab {

namespace {

// "FV2C-7HW2-4K6D", with or without its hyphens: as no kit number is written by us. Of another
// length it is a number like any other.
bool has_form_of_kit_code(const std::string& text) {
  const auto fault = fault_of_kit_code(text);
  if (!fault || fault->what == kit_code_fault::kind::wrong_check) return true;
  constexpr std::size_t group = 5; // four characters and the hyphen after them
  if (fault->characters != kit_code_length || text.size() != 3 * group - 1) return false;
  return text[group - 1] == '-' && text[2 * group - 1] == '-';
}

// "FV 2071": two words, a few letters and then what has a digit, as nothing else is typed at a
// bench.
bool is_parted_by_a_blank(const std::string& text) {
  constexpr std::size_t most_letters = 4;
  constexpr std::size_t least_rest = 3;
  const auto number = read_kit_number(text);
  if (!number) return false;
  const std::size_t hyphen = number->find('-');
  const bool one_part = hyphen != number->npos && number->find('-', hyphen + 1) == number->npos;
  const auto no_digit = [](char c) { return c < '0' || c > '9'; };
  const bool letters =
      one_part && hyphen > 1 && hyphen <= most_letters &&
      std::all_of(number->begin(), number->begin() + static_cast<std::ptrdiff_t>(hyphen), no_digit);
  return letters && number->size() - hyphen > least_rest;
}

bool has_records(const lab_context& at, const std::string& kit) {
  const auto of = open_kit(at, kit);
  if (!of) return false; // what the store cannot read is told when the kit is opened
  return of->tests.size() > 1 || of->tests.front().known.told.has_value();
}

} // namespace

refusal no_kit(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "kit", std::move(found), std::move(expected)};
}

std::optional<known_tube> tube_scanned_as(const tube_codes& codes, const std::string& text) {
  const auto listed = codes.find(text);
  if (listed != codes.end()) return listed->second;
  return read_tube_label(text);
}

std::optional<known_tube> tube_on_label(const lab_context& at, const std::string& text) {
  const auto tube = read_tube_label(text);
  if (!tube || has_records(at, kit_key(text))) return std::nullopt;
  return tube;
}

bool is_kit(const lab_context& at, const tube_codes& codes, const std::string& text) {
  if (text.find(' ') != text.npos && fault_of_kit_code(text)) return is_parted_by_a_blank(text);
  if (codes.count(text) != 0 || at.test(text) != nullptr) return false;
  if (has_form_of_kit_code(text)) return true; // that it is a good one is asked next
  const auto number = read_kit_number(text);
  if (!number || number->find('-') == number->npos) return false;
  return number->front() < '0' || number->front() > '9';
}

result<std::string> kit_number_in(const lab_context& at, const std::string& text,
                                  std::string& protocol) {
  if (const auto tube = tube_on_label(at, text)) return tube->kit;
  if (!has_form_of_kit_code(text)) {
    const auto number = read_kit_number(text);
    if (number) return *number;
    return tl::unexpected(no_kit("no kit number", "one such as FV-2071, or a kit code"));
  }
  const auto code = read_kit_code(text);
  if (!code && fault_of_kit_code(text)->what == kit_code_fault::kind::wrong_check)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "kit code",
                                  "a code whose check character does not fit",
                                  "the code as it is printed: one character is not right, or two "
                                  "are swapped"});
  if (!code) return tl::unexpected(code.error());
  if (code->laboratory_letters != at.profile().kit_letters)
    return tl::unexpected(no_kit("the code of another laboratory's kit", "one of this one's"));
  const qb::protocol* test = at.test_of_letters(code->protocol_letters);
  if (test != nullptr) protocol = test->id;
  return kit_number_of(*code);
}

std::optional<refusal> add_codes(const box_options& w, const tube_codes& codes,
                                 const std::string& kit, bool settled,
                                 std::vector<received_tube>& tubes) {
  if (w.codes.empty()) return std::nullopt;
  if (!settled)
    for (received_tube& t : tubes)
      t.present = false;
  for (const std::string& code : w.codes) {
    const known_tube known = tube_scanned_as(codes, code).value();
    if (known.kit != kit)
      return no_kit("a tube of kit " + known.kit, "tubes of the kit that is open");
    const auto t = std::find_if(tubes.begin(), tubes.end(), [&](const received_tube& x) {
      return x.sample == known.sample && (settled || !x.present);
    });
    received_tube one;
    one.sample = known.sample;
    received_tube& here = t != tubes.end() ? *t : tubes.emplace_back(one);
    here.present = true;
    if (codes.count(code) != 0) here.maker_code = code;
  }
  return std::nullopt;
}

} // namespace qb::lab
