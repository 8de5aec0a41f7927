// Reading what is typed of a person. What was typed is never in a refusal.
#include "app/lab/context/person_options.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

result<std::string> plain(const char* where, const std::string& text) {
  if (character_count(text) <= most_person_text && (text.empty() || json::is_plain_line(text)))
    return composed(text);
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", where, "no plain line, or too long a one",
              fmt::format("one line of at most {} characters", most_person_text)});
}

} // namespace

result<told_person> person_in(const person_options& o) {
  told_person out;
  const auto take = [](const char* where, const std::string& text, std::string& into) {
    auto one = plain(where, text);
    if (one) into = *one;
    return one;
  };
  if (const auto no = take("--name", o.name, out.name); !no) return tl::unexpected(no.error());
  if (const auto no = take("--hospital-number", o.hospital, out.hospital_number); !no)
    return tl::unexpected(no.error());
  if (const auto no = take("--order", o.order, out.order_number); !no)
    return tl::unexpected(no.error());
  if (o.born.empty()) return out;
  const auto born = parse_date(o.born);
  if (!born)
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "--born", "no date", "a birth date (1948-05-17)"});
  out.birth_date = *born;
  return out;
}

result<told_person> read_person_line(const std::string& line) {
  person_options o;
  std::size_t from = 0;
  while (from <= line.size()) {
    const std::size_t end = std::min(line.find(',', from), line.size());
    const std::string part = trimmed(line.substr(from, end - from));
    from = end + 1;
    const auto after = [&](const char* word, std::string& into) {
      const std::string start = std::string(word) + " ";
      if (part.rfind(start, 0) != 0) return false;
      into = trimmed(part.substr(start.size()));
      return true;
    };
    if (after("born", o.born) || after("hospital", o.hospital) || after("order", o.order)) continue;
    if (!o.name.empty() && !part.empty())
      return tl::unexpected(refusal{refusal_kind::malformed, "", "who", "two names",
                                    "NAME, born DATE, hospital NUMBER, order NUMBER"});
    if (!part.empty()) o.name = part;
  }
  return person_in(o);
}

told_person told_again(told_person before, const told_person& later) {
  if (!later.name.empty()) before.name = later.name;
  if (later.birth_date) before.birth_date = later.birth_date;
  if (!later.hospital_number.empty()) before.hospital_number = later.hospital_number;
  if (!later.order_number.empty()) before.order_number = later.order_number;
  return before;
}

} // namespace qb::lab
