// Looking up and filling in sentences.
#include "core/words/words.hpp"

#include "core/base/json_fields.hpp"

namespace qb::inline wording {

result<words> words::read(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  json::fields f(*parsed, "");
  f.choice("format", {"quarterbreath-texts"});
  f.integer("version", 1, 1);
  f.text("language");
  words out;
  constexpr std::size_t longest = 800;
  if (const json::value* v = f.child("texts")) {
    json::fields texts(*v, "texts");
    for (const json::member& m : *v->members())
      out.texts_[m.first] = texts.text(m.first.c_str(), longest);
    f.absorb(texts.finish());
  }
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

void words::add(const words& more) {
  for (const auto& [key, text] : more.texts_)
    QB_BELIEVE(texts_.emplace(key, text).second);
}

std::string words::operator()(const std::string& key, const word_args& args) const {
  const auto found = texts_.find(key);
  if (found == texts_.end()) return "[" + key + "]";
  std::string out = found->second;
  for (const auto& [name, value] : args) {
    const std::string mark = "{" + name + "}";
    for (std::size_t at = out.find(mark); at != std::string::npos;
         at = out.find(mark, at + value.size()))
      out.replace(at, mark.size(), value);
  }
  return out;
}

std::string words::counted(const std::string& key, long long n, const word_args& args) const {
  word_args with = args;
  with.emplace_back("n", std::to_string(n));
  return (*this)(key + (n == 1 ? ".one" : ".other"), with);
}

} // namespace qb::inline wording
