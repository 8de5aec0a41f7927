// Rules that a record froze: read once, and held by all who go by them.
#pragma once

#include <memory>
#include <utility>

namespace qb::inline protocols {

// Rules or none. Copies share them, and nobody can change what is shared.
template <typename Rules>
class frozen {
public:
  frozen() = default;
  frozen(Rules rules) : rules_(std::make_shared<const Rules>(std::move(rules))) {}

  [[nodiscard]] bool has_value() const { return rules_ != nullptr; }
  explicit operator bool() const { return has_value(); }
  const Rules& operator*() const { return *rules_; }
  const Rules* operator->() const { return rules_.get(); }
  void reset() { rules_.reset(); }

private:
  std::shared_ptr<const Rules> rules_;
};

} // namespace qb::inline protocols
