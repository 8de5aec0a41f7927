// Building and writing of FHIR's JSON.
#include "core/fhir/tree.hpp"

#include "core/base/json.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::fhir {

tree::tree() = default;
tree::tree(const tree&) = default;
tree::tree(tree&&) noexcept = default;
tree& tree::operator=(const tree&) = default;
tree& tree::operator=(tree&&) noexcept = default;
tree::~tree() = default;

namespace {

void indent(std::string& out, std::size_t depth) {
  out += "\n" + std::string(2 * depth, ' ');
}

std::string quoted(const std::string& text) {
  return json::canonical(json::value(text));
}

} // namespace

tree::tree(list items) : data_(list{}) {
  auto& kept = std::get<list>(data_);
  for (tree& one : items)
    if (!one.empty()) kept.push_back(std::move(one));
}

tree tree::of(std::vector<member> members) {
  tree out;
  for (member& one : members)
    out.set(std::move(one.first), std::move(one.second));
  return out;
}

tree& tree::set(std::string key, tree value) {
  auto* members = std::get_if<std::vector<member>>(&data_);
  QB_BELIEVE(members != nullptr && find(key) == nullptr);
  if (!value.empty()) members->emplace_back(std::move(key), std::move(value));
  return *this;
}

bool tree::empty() const {
  if (const auto* members = std::get_if<std::vector<member>>(&data_)) return members->empty();
  if (const auto* items = std::get_if<list>(&data_)) return items->empty();
  const auto* text = std::get_if<std::string>(&data_);
  return text != nullptr && text->empty();
}

const tree* tree::find(std::string_view key) const {
  const auto* members = std::get_if<std::vector<member>>(&data_);
  if (members == nullptr) return nullptr;
  const auto at = std::find_if(members->begin(), members->end(),
                               [&](const member& one) { return one.first == key; });
  return at == members->end() ? nullptr : &at->second;
}

std::string tree::text() const {
  const auto* text = std::get_if<std::string>(&data_);
  return text == nullptr ? std::string() : *text;
}

std::string tree::json() const {
  std::string out;
  write(out, 0);
  return out + "\n";
}

std::string tree::json_line() const {
  std::string pretty;
  write(pretty, 0);
  std::string out;
  // Within a text a line end is written as an escape, so each one here is indentation.
  for (std::size_t at = 0; at < pretty.size(); ++at) {
    if (pretty[at] == '\n') {
      while (at + 1 < pretty.size() && pretty[at + 1] == ' ')
        ++at;
    } else {
      out += pretty[at];
    }
  }
  return out + "\n";
}

void tree::write(std::string& out, std::size_t depth) const {
  const char* comma = "";
  if (const auto* members = std::get_if<std::vector<member>>(&data_)) {
    out += "{";
    for (const auto& [key, value] : *members) {
      out += comma;
      indent(out, depth + 1);
      out += quoted(key) + ": ";
      value.write(out, depth + 1);
      comma = ",";
    }
    indent(out, depth);
    out += "}";
  } else if (const auto* items = std::get_if<list>(&data_)) {
    out += "[";
    for (const tree& one : *items) {
      out += comma;
      indent(out, depth + 1);
      one.write(out, depth + 1);
      comma = ",";
    }
    indent(out, depth);
    out += "]";
  } else if (const auto* b = std::get_if<bool>(&data_)) {
    out += *b ? "true" : "false";
  } else if (const auto* n = std::get_if<std::int64_t>(&data_)) {
    out += fmt::format("{}", *n);
  } else if (const auto* number = std::get_if<decimal>(&data_)) {
    out += number->digits;
  } else {
    out += quoted(std::get<std::string>(data_));
  }
}

} // namespace qb::fhir
