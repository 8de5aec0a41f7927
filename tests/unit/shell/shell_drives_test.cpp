// Handing over on a made machine: a folder, a drive, and all that can go wrong with one. The real
// mounts are in tests/window/run_handing_over.
#include "app/handover/erase_test.hpp"
#include "tests/unit/shell/shell_stage.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// A finished test on the page that hands it over, with one drive plugged in.
class owner : public shell_stage {
public:
  explicit owner(const std::string& profile = "fenwick-vale")
      : shell_stage("2027-04-06T06:00:00Z", profile, 480, 800) {
    patient p;
    p.through_the_drink();
    for (int n = 2; n <= 10; ++n)
      p.sample(n);
    keep(p, "one");
    drive_folder = folder.file("stick");
    REQUIRE(this_disk().make_folder(drive_folder));
    m.plugged_in = {{drive_folder, "MAREN"}};
    REQUIRE_FALSE(start());
    if (screen() == "return") REQUIRE(press("go-on"));
    REQUIRE(screen() == "afterwards");
    REQUIRE(press("next"));
    REQUIRE(screen() == "finish");
    REQUIRE(press("open-hand-over"));
    pass(std::chrono::seconds{1});
  }
  [[nodiscard]] std::string row_of(const std::string& name) {
    for (const element& e : h.seen().elements)
      if (e.key.compare(0, 6, "place-") == 0 && e.name.find(name) != std::string::npos)
        return e.key;
    return "";
  }
  // The row pressed, and the time that the page which says so stands.
  void write_to(const std::string& name) {
    REQUIRE_FALSE(row_of(name).empty());
    REQUIRE(press(row_of(name)));
    pass(std::chrono::seconds{1});
  }
  [[nodiscard]] std::size_t files_on_drive() const {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(drive_folder), {}));
  }
  [[nodiscard]] std::size_t handed_over() {
    kill();
    std::size_t n = 0;
    for (const event& e : journal_of("one"))
      n += std::holds_alternative<exported>(e.what) ? 1U : 0U;
    return n;
  }

  std::string drive_folder;
};

} // namespace

TEST_CASE("a drive gets the one file, the device's own folder everything, and both are told") {
  owner s;
  s.write_to("MAREN");
  CHECK(s.says("MAREN"));
  CHECK(s.files_on_drive() == 1);
  CHECK(s.handed_over() == 1);
}

TEST_CASE("a drive that is full, read-only or broken is said in plain words, and nothing is told") {
  owner s;
  const auto& [error, words] = GENERATE(table<int, std::string>(
      {{ENOSPC, "places.full"}, {EROFS, "places.read-only"}, {EIO, "places.other"}}));
  s.m.files_double.fails[s.drive_folder] = error;
  s.write_to("MAREN");
  const std::string expected = s.running->texts()(words, {{"place", "x"}});
  CHECK(s.says(expected.substr(0, expected.find('x'))));
  CHECK(s.says(s.running->texts()("places.still-here")));
  CHECK(s.handed_over() == 0);
}

TEST_CASE("a drive pulled out in the middle of writing is not called written") {
  owner s;
  s.m.files_double.before_write = [&] { s.m.plugged_in.clear(); };
  s.write_to("MAREN");
  CHECK(s.says(s.running->texts()("places.still-here")));
  CHECK(s.handed_over() == 0);
}

TEST_CASE("a drive pulled out before it is pressed keeps its row, which says that it is gone") {
  owner s;
  const std::string row = s.row_of("MAREN");
  REQUIRE_FALSE(row.empty());
  s.m.plugged_in.clear();
  s.pass(std::chrono::seconds{1});
  if (!s.says("MAREN")) REQUIRE(s.press("page-more"));
  CHECK(s.says("MAREN"));
  CHECK(s.says(s.running->texts()("places.not-in")));
  s.m.plugged_in = {{s.folder.file("other"), "OTHER"}};
  s.pass(std::chrono::seconds{1});
  if (s.row_of("OTHER").empty()) REQUIRE(s.press("page-more"));
  REQUIRE_FALSE(s.row_of("OTHER").empty());
  CHECK(s.row_of("OTHER") != row);
}

TEST_CASE("while files are being written the page says so, and no time passes unseen") {
  owner s;
  REQUIRE(s.press(s.row_of("MAREN")));
  s.h.frames(1);
  CHECK(s.files_on_drive() == 0);
  CHECK(s.next <= 0.1);
  s.pass(std::chrono::seconds{1});
  CHECK(s.files_on_drive() == 1);
}

TEST_CASE("what was handed over and erased is gone from the device, and stays on the drive") {
  owner s;
  s.write_to("MAREN");
  s.restart();
  while (s.screen() == "return")
    REQUIRE(s.press("go-on"));
  s.kill();
  REQUIRE(handover::erase_closed_test(s.m.files(), s.options.data,
                                      journal_path(tests_folder(s.options.data, false), "one")));
  CHECK(s.files_on_drive() == 1);
  REQUIRE_FALSE(s.start());
  CHECK(s.screen() == "agree");
}
