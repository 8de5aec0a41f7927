// A FHIR resource as a tree, and its JSON text.
// Apart from core/base/json, because FHIR's JSON has rules of its own: nothing may be empty or
// null, and a measured decimal keeps the digits it was measured with.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace qb::fhir {

class tree;
using list = std::vector<tree>;

// A number that is not whole. `digits` must be a JSON number ("12.5"); it is written as it is.
struct decimal {
  std::string digits;
};

// An object (what a new one is), a list or a single value.
class tree {
public:
  using member = std::pair<std::string, tree>;

  tree();
  tree(const tree&);
  tree(tree&&) noexcept;
  tree& operator=(const tree&);
  tree& operator=(tree&&) noexcept;
  ~tree();
  tree(bool b) : data_(b) {}
  tree(std::int64_t n) : data_(n) {}
  tree(int n) : data_(std::int64_t{n}) {}
  tree(std::string text) : data_(std::move(text)) {}
  tree(const char* text) : data_(std::string(text)) {}
  tree(decimal n) : data_(std::move(n)) {}
  tree(list items);

  // An object of these members, in this order.
  [[nodiscard]] static tree of(std::vector<member> members);

  // Adds a member to an object. What is empty (a text, a list, an object) is left out, as the
  // standard asks; a key that is there already is a broken belief.
  tree& set(std::string key, tree value);

  // Whether it is a text, a list or an object with nothing in it.
  [[nodiscard]] bool empty() const;

  // The member of that name of an object, or nullptr.
  [[nodiscard]] const tree* find(std::string_view key) const;
  // The text it is; empty where it is none.
  [[nodiscard]] std::string text() const;

  // JSON with two spaces of indentation and a final line end. Members keep their order.
  [[nodiscard]] std::string json() const;
  // The same on one line, which has an end.
  [[nodiscard]] std::string json_line() const;

private:
  void write(std::string& out, std::size_t depth) const;

  std::variant<std::vector<member>, list, bool, std::int64_t, decimal, std::string> data_;
};

} // namespace qb::fhir
