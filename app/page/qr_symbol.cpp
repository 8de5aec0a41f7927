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
  const std::unique_ptr<QRcode, free_code> made(
      QRcode_encodeString(text.c_str(), 0, level, QR_MODE_8, 1));
  if (!made)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "code",
                                  fmt::format("{} characters", text.size()),
                                  "1 to as many as a QR code holds"});
  code::symbol out;
  out.side = static_cast<std::size_t>(made->width);
  for (std::size_t i = 0; i < out.side * out.side; ++i)
    out.dark.push_back((made->data[i] & 1U) != 0);
  return out;
}

result<code::symbol> qr_for_paper(const std::string& text, double width, double least_module) {
  auto strong = qr_symbol(text, correction::q);
  if (!strong || module_within(*strong, width) >= least_module) return strong;
  return qr_symbol(text, correction::m);
}

} // namespace qb::page
