// Events to rows and back.
#include "app/store/journal_keeper.hpp"

#include "app/machine/files.hpp"
#include "core/record/codec.hpp"

#include <fmt/core.h>

namespace qb::inline store {

namespace {

std::optional<refusal> unreadable(const event& e, const std::string& body) {
  const auto parsed = json::parse(body);
  if (!parsed) return parsed.error();
  const auto back = decode_event(*parsed, fmt::format("event {}", e.seq));
  return back ? std::nullopt : std::optional<refusal>(back.error());
}

} // namespace

result<std::int64_t> journal_keeper::append(const std::vector<event>& batch) {
  std::vector<event_row> rows;
  std::string head = head_;
  for (const event& e : batch) {
    std::string body = json::canonical(encode_event(e));
    // A row that could not be read back would lock the person out of the whole test.
    if (const auto no = unreadable(e, body)) return tl::unexpected(*no);
    head = chain_next(head, body);
    rows.push_back({e.seq, std::move(body), head});
  }
  const std::int64_t before = journal_.last_seq();
  if (const auto done = journal_.append(rows); !done) return tl::unexpected(done.error());
  head_ = std::move(head);
  before_ = before;
  if (later_ != nullptr) appended_ = later_->all_written();
  return journal_.last_seq();
}

std::int64_t journal_keeper::durable() const {
  return later_ == nullptr || later_->is_durable(appended_) ? journal_.last_seq() : before_;
}

std::optional<refusal> journal_keeper::failure() const {
  if (journal_.failure() || later_ == nullptr) return journal_.failure();
  return later_->failure();
}

result<reread_journal> reread(const journal_file& journal) {
  const auto rows = journal.read_all();
  if (!rows) return tl::unexpected(rows.error());
  reread_journal out{{}, chain_start()};
  for (const event_row& row : *rows) {
    const std::string place = fmt::format("event {}", row.seq);
    const auto parsed = json::parse(row.body);
    if (!parsed) return tl::unexpected(in_file(parsed.error(), "journal"));
    auto e = decode_event(*parsed, place);
    if (!e) return tl::unexpected(in_file(e.error(), "journal"));
    out.head = chain_next(out.head, row.body);
    const auto wanted = static_cast<std::int64_t>(out.events.size()) + 1;
    if (out.head != row.hash || e->seq != row.seq || e->seq != wanted)
      return tl::unexpected(refusal{refusal_kind::malformed, "journal", place,
                                    "a hash that does not fit", "the hash of its event"});
    out.events.push_back(std::move(*e));
  }
  return out;
}

result<opened_journal> open_journal(const std::string& path, durable_writes* later) {
  if (later != nullptr) later->back_to_durable(path);
  // SQLite makes files by the process's mask; a record of a person is its owner's alone.
  if (const auto made = make_private_file(path); !made) return tl::unexpected(made.error());
  auto journal = journal_file::open(path);
  if (!journal) return tl::unexpected(journal.error());
  if (const auto sound = journal->check(); !sound) return tl::unexpected(sound.error());
  auto kept = reread(*journal);
  if (!kept) return tl::unexpected(in_file(kept.error(), path));
  return opened_journal{journal_keeper(std::move(*journal), kept->head, later),
                        std::move(kept->events)};
}

} // namespace qb::inline store
