// Comparing what was told of people, and keeping it.
#include "core/receiving/person.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/receiving/readings.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

// The words of a name in small letters and a fixed order.
std::vector<std::string> name_words(const std::string& name) {
  std::vector<std::string> out(1);
  for (const char c : folded(name)) {
    if (c == ' ' || c == ',') {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  std::erase(out, std::string());
  std::sort(out.begin(), out.end());
  return out;
}

enum class held { not_told, same, other };

held hold(bool told, bool same) {
  if (!told) return held::not_told;
  return same ? held::same : held::other;
}

struct identifier {
  const char* name;
  held is;
};

std::vector<identifier> identifiers(const told_person& a, const told_person& b) {
  const auto text = [](const std::string& x, const std::string& y) {
    return hold(!x.empty() && !y.empty(), kit_key(x) == kit_key(y));
  };
  return {
      {"name", hold(!a.name.empty() && !b.name.empty(), name_words(a.name) == name_words(b.name))},
      {"birth date", hold(a.birth_date && b.birth_date, a.birth_date == b.birth_date)},
      {"hospital number", text(a.hospital_number, b.hospital_number)},
      {"order number", text(a.order_number, b.order_number)}};
}

} // namespace

bool tells_anything(const told_person& p) {
  return !p.name.empty() || p.birth_date || !p.hospital_number.empty() || !p.order_number.empty();
}

std::vector<std::string> person_differences(const told_person& a, const told_person& b) {
  std::vector<std::string> out;
  for (const identifier& one : identifiers(a, b))
    if (one.is == held::other) out.emplace_back(one.name);
  return out;
}

bool is_same_person(const told_person& a, const told_person& b) {
  constexpr std::ptrdiff_t asked = 2;
  const auto all = identifiers(a, b);
  const auto count = [&](held what) {
    return std::count_if(all.begin(), all.end(),
                         [&](const identifier& one) { return one.is == what; });
  };
  return count(held::other) == 0 && count(held::same) >= asked;
}

std::string person_text(const told_person& p) {
  if (!tells_anything(p)) return {};
  const std::string born = p.birth_date ? date_text(*p.birth_date) : std::string();
  return json::canonical(json::object{{"name", p.name},
                                      {"birth_date", born},
                                      {"hospital_number", p.hospital_number},
                                      {"order_number", p.order_number}});
}

std::optional<told_person> read_person(std::string_view text) {
  if (text.empty()) return told_person{};
  const auto parsed = json::parse(text);
  if (!parsed) return std::nullopt;
  json::fields f(*parsed, "");
  told_person out;
  out.name = f.text("name", most_person_text, true);
  const std::string born = f.text("birth_date", most_person_text, true);
  out.hospital_number = f.text("hospital_number", most_person_text, true);
  out.order_number = f.text("order_number", most_person_text, true);
  if (f.finish()) return std::nullopt;
  if (born.empty()) return out;
  const auto date = parse_date(born);
  if (!date) return std::nullopt;
  out.birth_date = *date;
  return out;
}

std::string person_words(const told_person& p) {
  std::string out = p.name.empty() ? "no name told" : p.name;
  if (p.birth_date) out += ", born " + date_text(*p.birth_date);
  if (!p.hospital_number.empty()) out += ", hospital number " + p.hospital_number;
  if (!p.order_number.empty()) out += ", order " + p.order_number;
  return out;
}

} // namespace qb::inline receiving
