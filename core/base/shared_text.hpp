// A long text that many hold: the rules a record froze stand in its events, in what they add up to
// and in every copy of that.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace qb {

// Copies share the text, and nobody can change what is shared. Empty where nothing was given.
class shared_text {
public:
  shared_text() = default;
  shared_text(std::string text) : text_(std::make_shared<const std::string>(std::move(text))) {}

  operator std::string_view() const {
    return text_ ? std::string_view(*text_) : std::string_view();
  }
  [[nodiscard]] std::string string() const { return text_ ? *text_ : std::string(); }

  friend bool operator==(const shared_text& a, std::string_view b) {
    return std::string_view(a) == b;
  }

private:
  std::shared_ptr<const std::string> text_;
};

} // namespace qb
