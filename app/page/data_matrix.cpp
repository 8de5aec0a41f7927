// libzint behind a value.
#include "app/page/data_matrix.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <memory>
#include <zint.h>

namespace qb::page {

namespace {

struct free_symbol {
  void operator()(zint_symbol* s) const { ZBarcode_Delete(s); }
};

// libzint keeps eight modules in a byte, the leftmost in the lowest bit.
bool is_dark(const zint_symbol& s, std::size_t x, std::size_t y) {
  return ((static_cast<unsigned>(s.encoded_data[y][x / 8]) >> (x % 8)) & 1U) != 0;
}

} // namespace

result<code::symbol> data_matrix(const std::string& text) {
  const auto no = [](const std::string& found, const std::string& expected) {
    return tl::unexpected(
        refusal{refusal_kind::out_of_range, "", "code on the label", found, expected});
  };
  const auto printable = [](char c) { return c >= ' ' && c <= '~'; };
  if (text.empty() || !std::all_of(text.begin(), text.end(), printable))
    return no("another text", "printable ASCII characters");
  const std::unique_ptr<zint_symbol, free_symbol> s(ZBarcode_Create());
  QB_BELIEVE(s != nullptr);
  s->symbology = BARCODE_DATAMATRIX;
  s->option_3 = DM_SQUARE;
  const int status = ZBarcode_Encode(s.get(), reinterpret_cast<const unsigned char*>(text.data()),
                                     static_cast<int>(text.size()));
  if (status >= ZINT_ERROR || s->rows != s->width)
    return no(fmt::format("{} characters", text.size()), "as many as a DataMatrix holds");
  code::symbol out;
  out.side = static_cast<std::size_t>(s->width);
  for (std::size_t y = 0; y < out.side; ++y)
    for (std::size_t x = 0; x < out.side; ++x)
      out.dark.push_back(is_dark(*s, x, y));
  return out;
}

} // namespace qb::page
