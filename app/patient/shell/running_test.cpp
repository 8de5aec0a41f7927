// Opening journals and keeping drafts.
#include "app/patient/shell/running_test.hpp"

#include "core/record/salvage.hpp"

#include <algorithm>
#include <iterator>

namespace qb::inline shells {

running_test::running_test(std::string path, opened_journal journal)
    : path_(std::move(path)),
      keeper_(std::move(journal.keeper)),
      engine_(keeper_, std::move(journal.events)) {
  saved_ = drafts();
}

result<std::unique_ptr<running_test>> running_test::open(const std::string& path,
                                                         durable_writes& writes) {
  auto journal = open_journal(path, &writes);
  if (!journal) return tl::unexpected(journal.error());
  return std::unique_ptr<running_test>(new running_test(path, std::move(*journal)));
}

std::map<std::string, std::string> running_test::drafts() const {
  // Drafts that cannot be read are a comfort lost, not a fact.
  return keeper_.journal().drafts().value_or(std::map<std::string, std::string>{});
}

result<void> running_test::save_drafts(const std::map<std::string, std::string>& drafts) {
  for (const auto& [key, value] : drafts) {
    const auto before = saved_.find(key);
    if (before != saved_.end() ? before->second == value : value.empty()) continue;
    if (auto kept = keeper_.journal().keep_draft(key, value); !kept) return kept;
    saved_[key] = value;
  }
  for (auto& [key, value] : saved_) {
    if (value.empty() || drafts.count(key) > 0) continue;
    if (auto gone = keeper_.journal().keep_draft(key, ""); !gone) return gone;
    value.clear();
  }
  return {};
}

void running_test::keep_key_rows(disk& device) {
  const auto& events = engine_.events();
  const auto first = std::next(events.begin(), looked_for_keys_);
  const bool has_new = std::any_of(first, events.end(), is_key_event);
  looked_for_keys_ = static_cast<std::ptrdiff_t>(events.size());
  if (!has_new) return;
  const std::string path = key_rows_path(path_);
  const std::string text = key_rows_text(key_rows(events));
  const auto before = device.read(path);
  if (!before || *before != text) (void)device.write(path, text);
}

} // namespace qb::inline shells
