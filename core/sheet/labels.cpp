// Labels of records and of kits.
#include "core/sheet/labels.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sheets {

std::vector<label_text> labels_of(const state& s) {
  std::vector<label_text> out;
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    out.push_back(label_of(s, sample_number::from_index(i)));
  return out;
}

std::vector<label_text> labels_ahead(const protocol& p, const paper_person& who) {
  std::vector<label_text> out;
  for (std::size_t i = 0; i < p.samples(); ++i) {
    label_text one;
    one.number = sample_number::from_index(i);
    one.name = who.name;
    if (who.birth_date) {
      one.birth_date = long_date(*who.birth_date);
      one.birth_short = short_date(*who.birth_date);
    }
    one.doctor = who.doctor;
    one.kit_number = who.kit_number;
    one.offset = offset_text(p, one.number);
    out.push_back(std::move(one));
  }
  return out;
}

label_text without_name(label_text label) {
  label.name.clear();
  label.birth_date.clear();
  label.birth_short.clear();
  label.doctor.clear();
  return label;
}

std::string tube_code_text(const label_text& label) {
  const auto printable = [](char c) { return c >= ' ' && c <= '~'; };
  const std::string& kit = label.kit_number;
  if (kit.empty() || !std::all_of(kit.begin(), kit.end(), printable)) return {};
  return fmt::format("{}-{:02}", kit, label.number.value());
}

} // namespace qb::inline sheets
