// libqrencode behind a value.
#include "app/page/qr_symbol.hpp"

#include "core/code/base45.hpp"

#include <fmt/core.h>
#include <memory>
#include <qrencode.h>

namespace qb::page {

namespace {

struct free_code {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
using made_code = std::unique_ptr<QRcode, free_code>;
struct free_input {
  void operator()(QRinput* input) const { QRinput_free(input); }
};

result<code::symbol> symbol_of(const made_code& made, std::size_t length) {
  if (!made)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code",
                                  fmt::format("{} characters", length),
                                  "1 to as many as a QR code holds"});
  code::symbol out;
  out.side = static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < out.side * out.side; ++i)
    out.dark.push_back((made->data[i] & 1U) != 0);
  return out;
}

double module_within(const code::symbol& s, double width) {
  return width / static_cast<double>(s.side + 2 * code::quiet_modules);
}

} // namespace

result<code::symbol> qr_symbol(const std::string& text, correction c) {
  // The 45 characters of Base45 are the QR alphanumeric set.
  if (text.find_first_not_of(code::base45_alphabet) != std::string::npos)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "code", "another character",
                                  "those of the QR alphanumeric set"});
  const QRecLevel level = c == correction::q ? QR_ECLEVEL_Q : QR_ECLEVEL_M;
  return symbol_of(made_code(QRcode_encodeString(text.c_str(), 0, level, QR_MODE_8, 1)),
                   text.size());
}

result<code::symbol> qr_of_words(const std::string& text) {
  constexpr unsigned utf_8 = 26; // its number among extended channel interpretations
  const std::unique_ptr<QRinput, free_input> input(QRinput_new2(0, QR_ECLEVEL_M));
  const bool taken = input && QRinput_appendECIheader(input.get(), utf_8) == 0 &&
                     QRinput_append(input.get(), QR_MODE_8, static_cast<int>(text.size()),
                                    reinterpret_cast<const unsigned char*>(text.data())) == 0;
  return symbol_of(made_code(taken ? QRcode_encodeInput(input.get()) : nullptr), text.size());
}

result<code::symbol> qr_for_paper(const std::string& text, double width, double least_module) {
  auto strong = qr_symbol(text, correction::q);
  if (!strong || module_within(*strong, width) >= least_module) return strong;
  return qr_symbol(text, correction::m);
}

} // namespace qb::page
