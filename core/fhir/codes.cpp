// The strict reader of assets/codes. The contract is assets/schema/codes.schema.json.
#include "core/fhir/codes.hpp"

#include "core/protocol/rule_reader.hpp"

#include <algorithm>
#include <set>

namespace qb::fhir {

namespace {

using json::fields;

constexpr std::size_t most_words = 600;
constexpr std::size_t most_code = 40;
constexpr std::size_t most_codes = 64;
constexpr std::size_t most_uses = 16;

bool starts_with(const std::string& text, std::string_view begin) {
  return text.compare(0, begin.size(), begin) == 0;
}

std::string address(fields& f, const char* key) {
  std::string out = f.text(key);
  const bool known = starts_with(out, "http://") || starts_with(out, "https://");
  if (!f.failed() && (!known || out.find(' ') != std::string::npos))
    f.refuse(key, "\"" + out + "\"", "an address: http:// or https://, without spaces");
  return out;
}

std::string code_text(fields& f, const char* key) {
  std::string out = f.text(key, most_code);
  const bool plain =
      std::all_of(out.begin(), out.end(), [](char c) { return c > ' ' && c < '\x7f'; });
  if (!f.failed() && !plain) f.refuse(key, "\"" + out + "\"", "a code: ASCII, without spaces");
  return out;
}

// "symptom.bloating": two parts of small letters, digits and hyphens.
bool is_use(const std::string& text) {
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  const auto dot = text.find('.');
  if (dot == std::string::npos || dot == 0 || dot + 1 == text.size()) return false;
  const std::string rest = text.substr(0, dot) + text.substr(dot + 1);
  return text.size() <= most_code && std::all_of(rest.begin(), rest.end(), fits);
}

std::vector<std::string> read_uses(fields& f, std::set<std::string>& seen) {
  std::vector<std::string> uses = f.texts("uses", 1, most_uses);
  for (const std::string& use : uses) {
    if (!is_use(use))
      f.refuse("uses", "\"" + use + "\"", "KIND.NAME of small letters, digits and hyphens");
    else if (!seen.insert(use).second)
      f.refuse("uses", "\"" + use + "\" twice", "each use once");
  }
  return uses;
}

} // namespace

result<code_file> read_code_file(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-codes");
  code_file out;
  out.system = address(f, "system");
  out.title = f.text("title", most_words);
  out.licence = f.text("licence", most_words);
  std::set<std::string> codes;
  std::set<std::string> uses;
  const auto items = f.children("codes", 1, most_codes);
  for (std::size_t i = 0; i < items.size(); ++i) {
    fields c(*items[i], f.place("codes", i));
    code_file::entry one;
    one.what = {out.system, code_text(c, "code"), c.text("display", most_words)};
    one.source = c.text("source", most_words);
    one.uses = read_uses(c, uses);
    if (!c.failed() && !codes.insert(one.what.code).second)
      c.refuse("code", "\"" + one.what.code + "\" twice", "each code once");
    f.absorb(c.finish());
    out.codes.push_back(std::move(one));
  }
  if (auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

result<code_list> code_list::of(std::vector<code_file> files) {
  std::set<std::string> systems;
  std::set<std::string> uses;
  for (const code_file& file : files) {
    if (!systems.insert(file.system).second)
      return tl::unexpected(refusal{refusal_kind::malformed, "", "system", file.system + " twice",
                                    "one file for each system"});
    for (const code_file::entry& one : file.codes)
      for (const std::string& use : one.uses)
        if (!uses.insert(use).second)
          return tl::unexpected(refusal{refusal_kind::malformed, "", "uses",
                                        "\"" + use + "\" in two files", "one code for each use"});
  }
  code_list out;
  out.files_ = std::move(files);
  return out;
}

const listed_code* code_list::find(std::string_view use) const {
  for (const code_file& file : files_)
    for (const code_file::entry& one : file.codes)
      if (std::find(one.uses.begin(), one.uses.end(), use) != one.uses.end()) return &one.what;
  return nullptr;
}

} // namespace qb::fhir
