// Two short lists.
#include "core/record/frozen_rules.hpp"

#include "core/record/codec.hpp"

#include <algorithm>

namespace qb::inline records {

namespace {

constexpr std::size_t most_known = 16; // of each; a laboratory has a few

// Whether the lists of texts changed is told by `grew`.
template <typename Rules, typename Read>
result<const frozen_rules::known<Rules>*> find_or_read(std::list<frozen_rules::known<Rules>>& all,
                                                       std::string_view text, const Read& read,
                                                       bool& grew) {
  const auto same = [&](const frozen_rules::known<Rules>& k) { return k.text == text; };
  const auto found = std::find_if(all.begin(), all.end(), same);
  if (found != all.end()) {
    all.splice(all.begin(), all, found);
    return &all.front();
  }
  auto rules = read(text);
  if (!rules) return tl::unexpected(rules.error());
  all.push_front({std::string(text), sha256_hex(text), frozen<Rules>(std::move(*rules))});
  if (all.size() > most_known) all.pop_back();
  grew = true;
  return &all.front();
}

} // namespace

result<const frozen_rules::known<lab_profile>*> frozen_rules::profile(std::string_view text) {
  bool grew = false;
  auto out = find_or_read(profiles_, text, read_profile, grew);
  if (grew) prove();
  return out;
}

result<const frozen_rules::known<protocol>*> frozen_rules::plan(std::string_view text) {
  bool grew = false;
  auto out = find_or_read(protocols_, text, read_protocol, grew);
  if (grew) prove();
  return out;
}

void frozen_rules::prove() {
  proved_.clear();
  for (const auto& one : profiles_)
    proved_.push_back({"profile", one.text});
  for (const auto& one : protocols_)
    proved_.push_back({"protocol", one.text});
}

} // namespace qb::inline records
