// Walking UTF-8 with utfcpp, which reports a broken sequence; here it costs one byte.
#include "core/base/text.hpp"

#include <cstdlib>
#include <iterator>
#include <memory>
#include <utf8.h>
#include <utf8proc.h>

namespace qb {

namespace {

std::string mapped(std::string_view text, int how) {
  utf8proc_uint8_t* made = nullptr;
  const auto size = utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                 static_cast<utf8proc_ssize_t>(text.size()), &made,
                                 static_cast<utf8proc_option_t>(how));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> kept(made, &std::free);
  if (size < 0) return std::string(text);
  return {reinterpret_cast<const char*>(kept.get()), static_cast<std::size_t>(size)};
}

} // namespace

bool is_utf8(std::string_view text) {
  return utf8::is_valid(text.begin(), text.end());
}

char32_t next_character(std::string_view text, std::size_t& at) {
  const auto from = text.begin() + static_cast<std::ptrdiff_t>(at);
  auto to = from;
  try {
    const auto c = static_cast<char32_t>(utf8::next(to, text.end()));
    at = static_cast<std::size_t>(to - text.begin());
    return c;
  } catch (const utf8::exception&) {
    ++at;
    return no_character;
  }
}

void append_character(std::string& text, char32_t c) {
  utf8::append(static_cast<utf8::uint32_t>(c), std::back_inserter(text));
}

void erase_last_character(std::string& text) {
  while (!text.empty() && utf8::internal::is_trail(text.back()))
    text.pop_back();
  if (!text.empty()) text.pop_back();
}

std::size_t character_count(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t at = 0; at < text.size(); ++count)
    (void)next_character(text, at);
  return count;
}

std::vector<std::string> characters(std::string_view text) {
  std::vector<std::string> all;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t from = at;
    (void)next_character(text, at);
    all.emplace_back(text.substr(from, at - from));
  }
  return all;
}

std::string composed(std::string_view text) {
  return mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE);
}

std::string folded(std::string_view text) {
  return mapped(text, UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD);
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t from = text.find_first_not_of(blanks);
  if (from == text.npos) return {};
  return std::string(text.substr(from, text.find_last_not_of(blanks) - from + 1));
}

} // namespace qb
