// A journal with its key, killed at every system call that changes a file: while it is made, while
// a damaged one is replaced, and while it is erased. What is there then is a test that goes on, or
// nothing of it; and what was damaged is kept, byte for byte.
#include "app/handover/erase_test.hpp"
#include "app/machine/files.hpp"
#include "app/store/data_folders.hpp"
#include "app/store/journal_keeper.hpp"
#include "app/store/journal_key.hpp"
#include "app/store/salvaged_journal.hpp"
#include "core/record/codec.hpp"
#include "tests/support/killed_at_call.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>

using namespace qb;
using namespace qb::test;

namespace {

namespace fs = std::filesystem;

const std::vector<event>& events_kept() {
  static const std::vector<event> all = [] {
    patient p;
    p.through_the_drink();
    return p.e.events();
  }();
  return all;
}

std::vector<std::string> texts_of(const std::vector<event>& events) {
  std::vector<std::string> out;
  for (const event& e : events)
    out.push_back(json::canonical(encode_event(e)));
  return out;
}

// A folder of one test, each time as it was.
class one_test {
public:
  one_test() { QB_BELIEVE(make_folder(folder())); }
  [[nodiscard]] std::string data() const { return own_.path(); }
  [[nodiscard]] std::string folder() const { return tests_folder(data(), false); }
  [[nodiscard]] std::string journal() const { return journal_path(folder(), "one"); }

  [[nodiscard]] result<void> write() const {
    auto open = open_journal(journal());
    if (!open) return tl::unexpected(open.error());
    if (const auto kept = open->keeper.append(events_kept()); !kept)
      return tl::unexpected(kept.error());
    return open->keeper.journal().keep_draft("comment", "as it was typed");
  }
  void write_unsealed() const {
    std::vector<event_row> rows;
    std::string head = chain_start();
    for (const std::string& body : texts_of(events_kept())) {
      head = chain_next(head, body);
      rows.push_back({static_cast<std::int64_t>(rows.size()) + 1, body, head});
    }
    write_unsealed_journal(journal(), rows);
  }
  void keep_key_rows() const {
    REQUIRE(write_file(key_rows_path(journal()), key_rows_text(key_rows(events_kept()))));
  }
  // The journal's first table is noise from there on.
  void damage_journal() const {
    std::string bytes = read_file(journal()).value();
    for (std::size_t i = bytes.size() - 900; i < bytes.size() - 600; ++i)
      bytes[i] = static_cast<char>(~bytes[i]);
    REQUIRE(write_file(journal(), bytes));
  }
  void damage_key() const {
    for (const std::string& path : journal_key_paths(journal())) {
      std::string bytes = read_file(path).value();
      bytes[40] = static_cast<char>(bytes[40] ^ 1);
      REQUIRE(write_file(path, bytes));
    }
  }
  // The bytes of every file there, without names.
  [[nodiscard]] std::vector<std::string> contents() const {
    std::vector<std::string> out;
    for (const auto& file : fs::directory_iterator(folder()))
      out.push_back(read_file(file.path().string()).value());
    return out;
  }

private:
  own_folder own_;
};

bool holds(const std::vector<std::string>& contents, const std::string& bytes) {
  return std::find(contents.begin(), contents.end(), bytes) != contents.end();
}

enum class damage { of_journal, of_key, of_unsealed };

void prepare(const one_test& t, damage how) {
  if (how == damage::of_unsealed) {
    t.write_unsealed();
  } else {
    REQUIRE(t.write());
  }
  t.keep_key_rows();
  if (how == damage::of_key) {
    t.damage_key();
  } else {
    t.damage_journal();
  }
}

// As the program does when it starts.
result<std::vector<event>> opened_or_salvaged(const std::string& journal) {
  if (auto whole = open_journal(journal)) return whole->events;
  const salvaged_record r = read_damaged(journal, {});
  if (const auto put = replace_damaged(journal, r.events); !put) return tl::unexpected(put.error());
  auto again = open_journal(journal);
  if (!again) return tl::unexpected(again.error());
  return again->events;
}

} // namespace

TEST_CASE("killed while it is made a journal has all its events or none, and goes on") {
  int kills = 0;
  for (int fatal = 1;; ++fatal) {
    const one_test t;
    const deed came = killed_at(fatal, [&] { return t.write(); });
    INFO("before change " << fatal);
    {
      auto open = open_journal(t.journal());
      REQUIRE(open.has_value());
      REQUIRE((open->events.empty() || open->events.size() == events_kept().size()));
      if (open->events.empty()) REQUIRE(open->keeper.append(events_kept()).has_value());
    }
    REQUIRE(open_journal(t.journal())->events.size() == events_kept().size());
    const auto keys = journal_key_paths(t.journal());
    CHECK(read_file(keys[0]).value() == read_file(keys[1]).value());
    if (came == deed::done_well) break;
    REQUIRE(came == deed::killed);
    ++kills;
  }
  UNSCOPED_INFO(kills << " kills");
  CHECK(kills > 20);
}

TEST_CASE("killed while a damaged journal is replaced, nothing of what was there is lost: at every "
          "change in the deep tier, at every fifth in the ordinary") {
  const char* tier = std::getenv("QB_DEEP");
  const int step = tier != nullptr && std::string(tier) == "1" ? 1 : 5;
  for (const damage how : {damage::of_journal, damage::of_key, damage::of_unsealed}) {
    const one_test whole;
    prepare(whole, how);
    const auto right = opened_or_salvaged(whole.journal());
    REQUIRE(right.has_value());
    REQUIRE(fold_events(*right).drink_start);
    int kills = 0;
    for (int fatal = 1;; fatal += step) {
      const one_test t;
      prepare(t, how);
      const std::string damaged = read_file(t.journal()).value();
      const auto key = read_file(journal_key_paths(t.journal())[0]);
      const deed came = killed_at(fatal, [&] { return opened_or_salvaged(t.journal()); });
      INFO("damage " << static_cast<int>(how) << ", before change " << fatal);
      const auto again = opened_or_salvaged(t.journal());
      REQUIRE(again.has_value());
      CHECK(texts_of(*again) == texts_of(*right));
      CHECK(holds(t.contents(), damaged));
      CHECK((!key || holds(t.contents(), *key)));
      if (came == deed::done_well) break;
      REQUIRE(came == deed::killed);
      ++kills;
    }
    UNSCOPED_INFO(kills << " kills");
    CHECK(kills * step > 60);
  }
}

TEST_CASE("nothing is put in the place of a journal whose key cannot be read now") {
  const one_test t;
  REQUIRE(t.write());
  t.keep_key_rows();
  for (const std::string& path : journal_key_paths(t.journal())) {
    fs::remove(path);
    fs::create_directory(path);
  }
  const std::string before = read_file(t.journal()).value();
  const auto no = replace_damaged(t.journal(), read_damaged(t.journal(), {}).events);
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().file == journal_key_paths(t.journal())[0]);
  CHECK(read_file(t.journal()).value() == before);
  for (const std::string& path : journal_key_paths(t.journal()))
    CHECK(fs::is_directory(path));
}

TEST_CASE("killed while it is erased a test is whole, or gone with the next start") {
  int whole = 0;
  int gone = 0;
  for (int fatal = 1;; ++fatal) {
    const one_test t;
    REQUIRE(t.write());
    t.keep_key_rows();
    const std::string secret = read_file(journal_key_paths(t.journal())[0]).value();
    REQUIRE(write_file(t.folder() + "/one.damaged-1.key-1", secret));
    const deed came = killed_at(
        fatal, [&] { return handover::erase_closed_test(this_disk(), t.data(), t.journal()); });
    INFO("before change " << fatal);
    const bool erased = came == deed::done_well || is_erased_journal(t.journal());
    REQUIRE(handover::finish_erasing(this_disk(), t.data()).has_value());
    if (erased || handover::journals_in(t.folder()).empty()) {
      CHECK(t.contents().empty());
      ++gone;
    } else {
      CHECK(open_journal(t.journal())->events.size() == events_kept().size());
      ++whole;
    }
    if (came == deed::done_well) break;
    REQUIRE(came == deed::killed);
  }
  UNSCOPED_INFO(whole << " times whole, " << gone << " times gone");
  CHECK(whole >= 1);
  CHECK(gone > 20);
}
