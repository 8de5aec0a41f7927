// Whatever happens, in whatever order: no confirmed entry is lost, no tube gets another number, the
// grid does not move after the drink, and reopening gives the same state.
#include "tests/property/world.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <rapidcheck.h>
#include <unistd.h>

using namespace qb;
using namespace qb::test;

namespace {

rc::Gen<std::vector<deed>> deeds(int most) {
  const auto one = rc::gen::map(rc::gen::tuple(rc::gen::inRange(0, 100), rc::gen::inRange(1, 12),
                                               rc::gen::inRange(0, 100000)),
                                [](const std::tuple<int, int, int>& t) {
                                  return deed{std::get<0>(t), std::get<1>(t), std::get<2>(t)};
                                });
  return rc::gen::resize(
      rc::kNominalSize, rc::gen::mapcat(rc::gen::inRange(most / 4, most), [=](int n) {
        return rc::gen::container<std::vector<deed>>(static_cast<std::size_t>(n), one);
      }));
}

void live(world& w, const std::vector<deed>& all) {
  std::size_t n = 0;
  for (const deed& d : all) {
    w.happen(d);
    const std::string broken = w.broken();
    if (!broken.empty()) RC_FAIL(broken);
    if (++n % 16 == 0) {
      const std::string after = w.broken_on_reopening();
      if (!after.empty()) RC_FAIL(after);
    }
  }
  const std::string after = w.broken_on_reopening();
  if (!after.empty()) RC_FAIL(after);
}

} // namespace

namespace qb::test {

void showValue(const deed& d, std::ostream& os) {
  os << "{" << d.what << "," << d.tube << "," << d.much << "}";
}

} // namespace qb::test

TEST_CASE("kills, set clocks, restarts and wild commands never lose or bend a test") {
  std::size_t tubes = 0;
  int kills = 0;
  const bool held = rc::check("a session in memory", [&] {
    row_keeper keeper;
    world w(keeper);
    live(w, *deeds(300));
    tubes += w.tubes();
    kills += w.kills();
  });
  CHECK(held);
  // The worlds must really get somewhere, or they prove nothing.
  INFO(tubes << " tubes, " << kills << " kills");
  CHECK(tubes > 20);
  CHECK(kills > 50);
}

TEST_CASE("the same on a real journal file, closed and opened again") {
  std::string name = (std::filesystem::temp_directory_path() / "qb-property-XXXXXX").string();
  REQUIRE(::mkdtemp(name.data()) != nullptr);
  const std::string path = name + "/a.journal";
  CHECK(rc::check("a session on the disk", [&] {
    std::error_code none;
    std::filesystem::remove(path, none);
    std::vector<event_row> rows;
    {
      auto disk = journal_file::open(path);
      RC_ASSERT(disk.has_value());
      row_keeper keeper(&*disk);
      world w(keeper);
      auto all = *deeds(60);
      // On the disk a write is durable when it returns: no slow keeper here.
      for (deed& d : all) {
        if (d.what >= 96) d.what = 0;
      }
      live(w, all);
      rows = keeper.rows;
    }
    auto again = journal_file::open(path);
    RC_ASSERT(again.has_value());
    const auto kept = again->read_all();
    RC_ASSERT(kept.has_value());
    RC_ASSERT(kept->size() == rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
      RC_ASSERT((*kept)[i].body == rows[i].body && (*kept)[i].hash == rows[i].hash);
    RC_ASSERT(reread_rows(*kept).has_value());
  }));
  std::error_code none;
  std::filesystem::remove_all(name, none);
}
