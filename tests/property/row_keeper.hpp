// A keeper that holds rows of text as the journal does, in memory or in a real journal file, and
// that can be killed with a write on its way.
// The property tests reopen from these rows, so what they see is what a person would get back.
#pragma once

#include "app/store/journal_file.hpp"
#include "core/record/codec.hpp"
#include "core/session/engine.hpp"

#include <string>
#include <vector>

namespace qb::test {

class row_keeper : public event_keeper {
public:
  row_keeper() = default;
  explicit row_keeper(journal_file* on_disk) : disk_(on_disk) {}

  [[nodiscard]] result<std::int64_t> append(const std::vector<event>& batch) override {
    std::vector<event_row> next;
    for (const event& e : batch) {
      std::string body = json::canonical(encode_event(e));
      head_ = chain_next(head_, body);
      next.push_back({e.seq, std::move(body), head_});
    }
    if (disk_ != nullptr) {
      if (const auto done = disk_->append(next); !done) return tl::unexpected(done.error());
    }
    on_the_way_.insert(on_the_way_.end(), next.begin(), next.end());
    if (!slow) catch_up();
    return batch.back().seq;
  }
  [[nodiscard]] std::int64_t durable() const override {
    return static_cast<std::int64_t>(rows.size());
  }
  [[nodiscard]] std::optional<refusal> failure() const override { return std::nullopt; }

  void catch_up() {
    rows.insert(rows.end(), on_the_way_.begin(), on_the_way_.end());
    on_the_way_.clear();
  }
  // What was on its way either reached the disk or did not, as a whole.
  void killed(bool reached_the_disk) {
    if (reached_the_disk) catch_up();
    on_the_way_.clear();
    head_ = rows.empty() ? chain_start() : rows.back().hash;
  }

  std::vector<event_row> rows; // durable
  bool slow{false};

private:
  journal_file* disk_{nullptr};
  std::vector<event_row> on_the_way_;
  std::string head_{chain_start()};
};

// The events of rows, with numbers and chain checked.
inline result<std::vector<event>> reread_rows(const std::vector<event_row>& rows) {
  std::vector<event> out;
  std::string head = chain_start();
  for (const event_row& row : rows) {
    const auto parsed = json::parse(row.body);
    if (!parsed) return tl::unexpected(parsed.error());
    auto e = decode_event(*parsed, "event " + std::to_string(row.seq));
    if (!e) return tl::unexpected(e.error());
    head = chain_next(head, row.body);
    if (head != row.hash || e->seq != row.seq ||
        row.seq != static_cast<std::int64_t>(out.size()) + 1)
      return tl::unexpected(refusal{refusal_kind::malformed, "", "chain", "a break", "a chain"});
    out.push_back(std::move(*e));
  }
  return out;
}

} // namespace qb::test
