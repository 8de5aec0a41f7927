// The whole program with anything pressed in any order, real test and practice in turn, while its
// disk refuses and returns: what was accepted is in the right test's record, once. What must hold
// of one record in any order, in thousands of them, is in tests/property/waiting_test.cpp.
#include "app/handover/erase_test.hpp"
#include "tests/support/lossy_disk.hpp"
#include "tests/unit/shell/shell_stage.hpp"

#include <array>
#include <random>

using namespace qb;
using namespace qb::test;

namespace {

// How often something is in the records of the real tests, or of practice.
struct tally {
  int unwell{0};
  int drinks{0};
};

bool begins(const std::string& text, const std::string& with) {
  return text.compare(0, with.size(), with) == 0;
}

class anybody {
public:
  explicit anybody(unsigned seed) : random_(seed) {
    patient p;
    if (seed % 3 == 0) {
      p.open_and_plan();
    } else {
      p.through_tube_1();
      p.label(1);
    }
    if (seed % 3 == 2) REQUIRE(p.tell(drink_started{}));
    at_.keep(p, "one");
    pressed_[0] = kept(false);
    REQUIRE_FALSE(at_.start());
  }

  void do_something() {
    const std::size_t what = below(100);
    if (what < 8) {
      disk_.fills_up();
      ++refusals_;
    } else if (what < 14) {
      disk_.space_returns();
    } else if (what < 20) {
      at_.pass(std::chrono::seconds{static_cast<int>(below(600))});
    } else {
      press_something(what % 4 == 0);
    }
  }

  // With room again: what is in the records is what was pressed.
  void check() {
    disk_.space_returns();
    at_.pass(std::chrono::seconds{2});
    at_.kill();
    for (const bool practice : {false, true}) {
      INFO("practice: " << practice);
      const tally in_records = kept(practice);
      CHECK(in_records.unwell == pressed_.at(practice ? 1 : 0).unwell);
      CHECK(in_records.drinks == pressed_.at(practice ? 1 : 0).drinks);
    }
  }
  [[nodiscard]] int unwell() const { return pressed_[0].unwell + pressed_[1].unwell; }
  [[nodiscard]] int refusals() const { return refusals_; }

private:
  [[nodiscard]] std::size_t below(std::size_t n) { return random_() % n; }
  [[nodiscard]] tally kept(bool practice) const {
    tally out;
    for (const std::string& path :
         handover::journals_in(tests_folder(at_.options.data, practice))) {
      const auto open = open_journal(path);
      REQUIRE(open);
      for (const event& e : open->events) {
        const auto* told = std::get_if<reported_drink>(&e.what);
        out.unwell += std::holds_alternative<reported_unwell>(e.what) ? 1 : 0;
        out.drinks += std::holds_alternative<drink_started>(e.what) ||
                              (told != nullptr && told->how == how_known::observed)
                          ? 1
                          : 0;
      }
    }
    return out;
  }

  // What can be pressed now, but erasing, which takes the record with it, and writing files.
  [[nodiscard]] std::vector<std::string> targets() const {
    std::vector<std::string> out;
    for (const element& e : at_.h.seen().elements) {
      const bool left_out = begins(e.key, "erase") || begins(e.key, "other-erase") ||
                            begins(e.key, "place-") || e.role == "textbox" || e.role == "key";
      if (e.target && !left_out) out.push_back(e.key);
    }
    return out;
  }

  void press_something(bool unwell) {
    at_.pass(std::chrono::milliseconds{600}); // no tremble
    const auto all = targets();
    if (all.empty()) return;
    const bool help = unwell && at_.h.find("unwell") != nullptr;
    const std::string key = help ? "unwell" : all.at(below(all.size()));
    const std::string before = at_.screen();
    // Before the agreement there is no record that could take anything.
    const bool a_record = !begins(before, "agree");
    tally& here = pressed_.at(at_.h.find("practice") != nullptr ? 1 : 0);
    if (!at_.h.press(key)) return;
    INFO(before << ": " << key);
    if (key == "unwell" && a_record) {
      ++here.unwell;
      CHECK(at_.screen() == "unwell");
    }
    if (key == "drink-start" && before == "drink" && at_.screen() != "drink") ++here.drinks;
  }

  std::mt19937 random_;
  lossy_disk disk_{0, lossy_disk::honesty::filling_up};
  shell_stage at_;
  std::array<tally, 2> pressed_{}; // the real tests', practice's
  int refusals_{0};
};

} // namespace

TEST_CASE(
    "whatever is pressed while a disk refuses and returns is in the right test's record once") {
  int unwell = 0;
  int refusals = 0;
  for (unsigned seed = 0; seed < 9; ++seed) {
    INFO("seed " << seed);
    anybody person(seed);
    for (int i = 0; i < 60; ++i)
      person.do_something();
    person.check();
    unwell += person.unwell();
    refusals += person.refusals();
  }
  // The disk must really refuse, and something really be pressed.
  CHECK(refusals > 9);
  CHECK(unwell > 18);
}
