// A journal whose disk refused one write: it takes nothing more, of any kind, until it was opened
// and read again, also when the disk has room by then.
#include "app/store/journal_file.hpp"

#include "tests/support/lossy_disk.hpp"
#include "tests/support/unsealed_journal.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

event_row row(std::int64_t n) {
  return {n, "{\"seq\":" + std::to_string(n) + "}", std::string(64, 'a')};
}

// Each way of writing, as it is told in a failure of these tests.
enum class writing { events, draft, no_draft, erasing };
constexpr writing every_way[] = {writing::events, writing::draft, writing::no_draft,
                                 writing::erasing};

result<journal_file> opened_as(const std::string& path, bool sealed) {
  if (!sealed) test::write_unsealed_journal(path, {});
  return journal_file::open(path);
}

result<void> write(journal_file& j, writing how) {
  switch (how) {
  case writing::events: return j.append({row(j.last_seq() + 1)});
  case writing::draft: return j.keep_draft("who.name", "Maren Oakhollow");
  case writing::no_draft: return j.keep_draft("who.kit", "");
  case writing::erasing: return j.erase();
  }
  return {};
}

} // namespace

TEST_CASE("after a write that failed, of whatever kind, none is taken until it was opened again") {
  for (const writing first : every_way) {
    for (const writing later : every_way) {
      INFO("first " << static_cast<int>(first) << ", later " << static_cast<int>(later));
      const test::own_folder folder;
      lossy_disk disk(0);
      // Erasing a sealed one asks nothing of a full disk (below).
      auto j = opened_as(folder.file("a.journal"), first != writing::erasing);
      REQUIRE(j.has_value());
      REQUIRE(j->keep_draft("who.name", "").has_value());
      REQUIRE(j->append({row(1), row(2)}).has_value());
      REQUIRE(j->keep_draft("who.kit", "FV-2071").has_value());
      disk.fills_up();
      const auto failed = write(*j, first);
      REQUIRE_FALSE(failed.has_value());
      CHECK(exit_status(failed.error()) == 1);
      REQUIRE(j->failure().has_value());
      disk.space_returns();
      const auto no = write(*j, later);
      REQUIRE_FALSE(no.has_value());
      CHECK(sentence(no.error()) == sentence(failed.error()));
      // What was there is there, and can be read.
      CHECK(j->last_seq() == 2);
      CHECK(j->read_all().value().size() == 2);
      CHECK(j->drafts().value() == std::map<std::string, std::string>{{"who.kit", "FV-2071"}});
      { const journal_file closed = std::move(*j); }
      auto again = journal_file::open(folder.file("a.journal"));
      REQUIRE(again.has_value());
      CHECK(again->read_all().value().size() == 2);
      CHECK_FALSE(again->failure().has_value());
      CHECK(write(*again, later).has_value());
    }
  }
}

TEST_CASE("a sealed test is erased on a full disk too: its key is overwritten where it lies") {
  const test::own_folder folder;
  lossy_disk disk(0);
  auto j = journal_file::open(folder.file("a.journal"));
  REQUIRE(j->append({row(1)}).has_value());
  disk.fills_up();
  CHECK(j->erase().has_value());
  CHECK_FALSE(j->append({row(2)}).has_value());
  { const journal_file closed = std::move(*j); }
  CHECK(is_erased_journal(folder.file("a.journal")));
  CHECK_FALSE(journal_file::open(folder.file("a.journal")).has_value());
}

TEST_CASE("an unsealed erasing that failed leaves the whole test, and may be tried again") {
  const test::own_folder folder;
  lossy_disk disk(0);
  auto j = opened_as(folder.file("a.journal"), false);
  REQUIRE(j->append({row(1)}).has_value());
  disk.fills_up();
  CHECK_FALSE(j->erase().has_value());
  disk.space_returns();
  { const journal_file closed = std::move(*j); }
  CHECK_FALSE(is_erased_journal(folder.file("a.journal")));
  auto again = journal_file::open(folder.file("a.journal"));
  REQUIRE(again.has_value());
  CHECK(again->read_all().value().size() == 1);
  REQUIRE(again->erase().has_value());
  { const journal_file closed = std::move(*again); }
  CHECK(is_erased_journal(folder.file("a.journal")));
}
