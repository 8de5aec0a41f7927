// Every mix of things on a page, over leaves: none empty, none with a headline alone, none wasted.
// First as heights only, many thousands; then with real elements in every promised window.
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>
#include <fmt/core.h>

#include <map>
#include <random>

using namespace qb;
using test::harness;

namespace {

using dice = std::mt19937;

int roll(dice& d, int least, int most) {
  return std::uniform_int_distribution<int>(least, most)(d);
}

// A headline, then blocks and now and then a heading; nothing that a leaf could not hold.
std::vector<block> some_blocks(dice& d) {
  std::vector<block> out{{0, static_cast<float>(roll(d, 30, 100)), true}, {0, 4, true}};
  const int count = roll(d, 1, 12);
  for (int i = 0; i < count; ++i) {
    if (roll(d, 0, 5) == 0) out.push_back({24, 25, true});
    const auto gap = static_cast<float>(roll(d, 0, 20));
    out.push_back({gap, static_cast<float>(roll(d, 16, 130)), false});
  }
  return out;
}

struct leaf_seen {
  float height{0};
  std::size_t ends{0}; // things that may end a leaf
  bool ends_in_headline{false};
};

std::vector<leaf_seen> look(const std::vector<block>& blocks, const panel_plan& plan) {
  std::vector<leaf_seen> out(static_cast<std::size_t>(plan.panels));
  std::size_t previous = out.size();
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const auto panel = static_cast<std::size_t>(plan.panel_of[i]);
    REQUIRE(panel < out.size());
    out[panel].height += (panel == previous ? blocks[i].gap : 0) + blocks[i].height;
    out[panel].ends += blocks[i].keep ? 0 : 1;
    out[panel].ends_in_headline = blocks[i].keep;
    previous = panel;
  }
  return out;
}

// The height of what would have to come over with the first thing of that leaf.
float first_group(const std::vector<block>& blocks, const panel_plan& plan, int panel) {
  float height = 0;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (plan.panel_of[i] != panel) continue;
    height += blocks[i].gap + blocks[i].height;
    if (!blocks[i].keep) break;
  }
  return height;
}

void check_plan(const std::vector<block>& blocks, panel_room room) {
  const panel_plan plan = plan_leaves(blocks, room);
  REQUIRE(plan.panel_of.size() == blocks.size());
  CHECK_FALSE(plan.overflow);
  CHECK_FALSE(plan.actions_alone);
  const auto panels = look(blocks, plan);
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const bool last = i + 1 == panels.size();
    CHECK(panels[i].ends > 0);
    CHECK_FALSE(panels[i].ends_in_headline);
    CHECK(panels[i].height <= (last ? room.last : room.others) + 1);
    if (last) continue;
    const float more = first_group(blocks, plan, static_cast<int>(i) + 1);
    const bool full = panels[i].height + more > room.others;
    const bool needed = i + 2 == panels.size() && panels[i + 1].ends == 1;
    CHECK((full || needed));
  }
  CHECK(plan.used == Approx(panels.back().height));
}

// ---- real elements -----------------------------------------------------------------------------

struct mix {
  std::vector<int> kinds;
  int headline_words{4};
  int actions{1};
  bool on_all{false};
  bool practice{false};
};

std::string some_words(int count) {
  std::string out = "Words";
  for (int i = 1; i < count; ++i)
    out += " and";
  return out;
}

void draw_one(toolkit& k, const std::string& key, int kind) {
  switch (kind) {
  case 0: paragraph(k, key, some_words(12)); return;
  case 1: paragraph(k, key, some_words(40)); return;
  case 2: (void)check_row(k, key, some_words(6), false); return;
  case 3:
    (void)choice_list(k, key, {{"a", some_words(5), ""}, {"b", "B", some_words(9)}}, "");
    return;
  case 4: quiet_text(k, key, some_words(20)); return;
  case 5: facts(k, key, {{"A label", "9 of 10"}, {"Another", "Tuesday 8 December 2026"}}); return;
  case 6: notice(k, key, notice_kind::needs_you, some_words(7)); return;
  case 7: heading(k, key, "A heading"); return;
  case 8: timeline(k, key, {{"Monday 07:30", "Plain food", moment_state::now}}); return;
  default: label_card(k, key, "Label", {{"Date", "24 Nov 2026"}, {"Name", "Ada Bo"}}); return;
  }
}

mix some_mix(dice& d) {
  mix m;
  m.on_all = roll(d, 0, 2) == 0;
  m.practice = roll(d, 0, 1) == 0;
  m.actions = roll(d, 0, m.on_all ? 1 : 3);
  m.headline_words = roll(d, 2, 9);
  const int count = roll(d, 1, 9);
  for (int i = 0; i < count; ++i)
    m.kinds.push_back(roll(d, 0, 9));
  m.kinds.push_back(roll(d, 0, 6)); // a page does not end with a heading
  return m;
}

void show(harness& h, const mix& m, int number) {
  h.draw = [m, number](toolkit& k) {
    page_options o;
    o.screen = fmt::format("mix {}", number);
    o.where = "Step 1 of 5";
    o.practice = m.practice;
    o.actions_on_all = m.on_all;
    (void)k.page(
        o,
        [&] {
          headline(k, "h", some_words(m.headline_words));
          for (std::size_t i = 0; i < m.kinds.size(); ++i)
            draw_one(k, fmt::format("c{}", i), m.kinds[i]);
        },
        [&] {
          if (m.actions > 0) (void)primary_button(k, "go", "Go on");
          if (m.actions > 1) (void)secondary_button(k, "other", "Another way");
          if (m.actions > 2) (void)quiet_button(k, "quiet", "A quiet way out");
        });
  };
  h.frames(1);
}

bool overlap(const element& a, const element& b) {
  return a.x + a.w > b.x + 1 && b.x + b.w > a.x + 1 && a.y + a.h > b.y + 1 && b.y + b.h > a.y + 1;
}

bool is_content(const element& e) {
  return e.key[0] == 'c';
}

// What is wrong with the leaf that is shown; counts how often each piece of content was seen.
std::vector<std::string> wrong_with(const harness& h, std::map<std::string, int>& seen) {
  std::vector<std::string> out = h.faults();
  int content = 0;
  const auto& all = h.seen().elements;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (is_content(all[i]) || all[i].key == "h") ++seen[all[i].key];
    if (is_content(all[i]) && all[i].name != "A heading") ++content;
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const bool one_card =
          is_content(all[i]) && all[i].key == all[j].key.substr(0, all[i].key.size());
      if (!one_card && overlap(all[i], all[j]))
        out.push_back(all[i].key + " lies on " + all[j].key);
    }
  }
  if (content == 0) out.emplace_back("no content on this leaf");
  return out;
}

void walk(harness& h, const mix& m) {
  std::map<std::string, int> seen;
  CHECK(wrong_with(h, seen) == std::vector<std::string>{});
  for (int panel = 0; h.find("page-more") != nullptr && panel < 20; ++panel) {
    REQUIRE(h.press("page-more"));
    CHECK(wrong_with(h, seen) == std::vector<std::string>{});
  }
  if (m.actions > 0) CHECK(h.find("go") != nullptr);
  for (const auto& [key, times] : seen) {
    INFO(key);
    CHECK(times == 1);
  }
  CHECK(seen.count("h") == 1);
}

} // namespace

TEST_CASE("every mix of heights fills its leaves in order, and none is empty or a headline alone") {
  dice d(1);
  for (int i = 0; i < 4000; ++i) {
    const auto blocks = some_blocks(d);
    const auto last = static_cast<float>(roll(d, 300, 420));
    INFO("mix " << i);
    check_plan(blocks, {last + static_cast<float>(roll(d, 0, 1) * roll(d, 60, 200)), last});
  }
}

TEST_CASE("what fits a leaf only without the actions gives its last thing to the leaf with them") {
  const std::vector<block> blocks{{0, 70, true}, {12, 100}, {12, 100}, {12, 60}};
  const panel_plan plan = plan_leaves(blocks, {400, 300});
  CHECK(plan.panels == 2);
  CHECK(plan.panel_of == std::vector<int>{0, 0, 0, 1});
}

TEST_CASE(
    "only what cannot stand above the actions leaves them alone, and nothing runs into them") {
  const panel_plan alone = plan_leaves({{0, 70, true}, {12, 250}}, {400, 300});
  CHECK(alone.panels == 2);
  CHECK(alone.actions_alone);
  CHECK(alone.panel_of == std::vector<int>{0, 0});
  const panel_plan high = plan_leaves({{0, 20}, {12, 350}, {12, 30}}, {400, 300});
  CHECK_FALSE(high.actions_alone);
  CHECK_FALSE(high.overflow);
  CHECK(high.panel_of == std::vector<int>{0, 0, 1});
  CHECK(plan_leaves({{0, 500}}, {400, 300}).overflow);
  CHECK(plan_leaves({}, {400, 300}).panels == 1);
  CHECK(plan_leaves({{0, 70, true}}, {400, 300}).panels == 1);
}

TEST_CASE("every mix of elements stands on leaves that hold something and overlap nothing") {
  const std::pair<float, float> windows[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : windows) {
    harness h(width, height);
    dice d(static_cast<unsigned>(width));
    for (int i = 0; i < 120; ++i) {
      const mix m = some_mix(d);
      show(h, m, i);
      INFO("mix " << i << " at " << width << " by " << height << ", " << m.actions << " actions"
                  << (m.on_all ? " on all" : "") << (m.practice ? ", practice" : ""));
      walk(h, m);
    }
  }
}

TEST_CASE("a leaf of actions alone says again what they are about") {
  harness h(360, 640);
  h.draw = [](toolkit& k) {
    page_options o;
    o.screen = "high";
    o.where = "Step 1 of 5";
    (void)k.page(
        o,
        [&] {
          headline(k, "h", "Write this on the label");
          (void)k.place(350, 16);
        },
        [&] {
          (void)primary_button(k, "go", "Go on");
          (void)secondary_button(k, "other", "Another way");
        });
  };
  h.frames(1);
  CHECK(h.find("go") == nullptr);
  REQUIRE(h.press("page-more"));
  CHECK(h.find("go") != nullptr);
  CHECK(h.find("h") != nullptr);
}
