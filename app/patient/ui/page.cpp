// The page: strip, content, actions and "I feel unwell", each in its place.
// Content that does not fit first gives up air, then turns over to further leaves; it never
// scrolls, and running text keeps its size.
#include "app/patient/ui/buttons.hpp"
#include "app/patient/ui/strip.hpp"
#include "app/patient/ui/toolkit.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace qb::inline ui {

namespace {

constexpr float unwell_height = 52;
constexpr float foot = 12; // air below and above "I feel unwell"
constexpr float strip_words_height = 32;
constexpr float between = 20; // content to actions
constexpr float air = 20;     // what gaps may grow by, once there are leaves enough

// What the headlines at the top take above what follows them.
float height_of_headlines(const std::vector<block>& blocks) {
  const std::size_t count = leading_headlines(blocks);
  float height = count < blocks.size() ? blocks[count].gap : 0;
  for (std::size_t i = 0; i < count; ++i)
    height += (i == 0 ? 0 : blocks[i].gap) + blocks[i].height;
  return height;
}

} // namespace

toolkit::areas toolkit::divide(const page_options& options) const {
  const float m = sizes::margin;
  areas a;
  a.landscape = width_ > height_;
  const std::string& said = banner_words(options, words_);
  if (!said.empty()) a.banner = {0, 0, width_, banner_height(ink(), said, width_)};
  const bool strip = !options.where.empty() || !options.rack.empty();
  const float strip_height =
      options.rack.empty() ? strip_words_height : strip_rack_height(options.rack.size());
  a.strip = {m, a.banner.h + sizes::grid, width_ - 2 * m, strip ? strip_height : 0};
  const float top = a.strip.bottom() + (strip ? 10.0F : 8.0F);
  const float aside = a.landscape ? std::clamp(width_ * 0.36F, 248.0F, 340.0F) : width_ - 2 * m;
  const float aside_x = width_ - m - aside;
  a.unwell = {aside_x, height_ - foot - unwell_height, aside, unwell_height};
  const float floor = options.unwell ? a.unwell.y - 2 * foot : height_ - m;
  a.actions = {aside_x, top, aside, floor - top};
  a.content = {m, top, width_ - 2 * m, floor - top};
  if (a.landscape) {
    a.content.w = aside_x - m - 40;
    a.content.h = height_ - 16 - top;
  }
  return a;
}

toolkit::flow toolkit::run(const std::function<void()>& what, pass how, flow start) {
  pass_ = how;
  flow_ = start;
  flow_.y = start.area.y;
  what();
  pass_ = pass::draw;
  return flow_;
}

// Finds how few leaves the content can do with, and then how much air it can keep.
void toolkit::choose_squeeze(const areas& a, const std::function<void()>& content) {
  flow start;
  start.area = a.content;
  start.squeeze = 1;
  const double least = plan_leaves(run(content, pass::measure, start).blocks, a.room).cost;
  for (const float squeeze : {0.0F, 0.2F, 0.4F, 0.6F, 0.8F, 1.0F}) {
    start.squeeze = squeeze;
    content_ = run(content, pass::measure, start);
    plan_ = plan_leaves(content_.blocks, a.room);
    if (plan_.cost <= least) break;
  }
  const float left_over = a.room.last - plan_.used;
  content_.fill_height = 0;
  if (plan_.panels == 1 && content_.fills > 0 && left_over > 0) {
    content_.fill_height = left_over / static_cast<float>(content_.fills);
  }
}

void toolkit::lay_out(areas& a, const page_options& options, const std::function<void()>& content,
                      const std::function<void()>& actions) {
  flow measured;
  measured.area = a.actions;
  const flow placed = run(actions, pass::measure, measured);
  const float need = placed.blocks.empty() ? 0 : placed.y - a.actions.y;
  a.actions = {a.actions.x, a.actions.bottom() - need, a.actions.w, need};
  const auto make_room = [&a](float above_actions) {
    if (!a.landscape) a.content.h = a.actions.y - above_actions - a.content.y;
    a.room = {a.content.h, a.content.h};
  };
  make_room(need > 0 ? between : 0);
  choose_squeeze(a, content);
  if (plan_.panels == 1 && !plan_.overflow) return;
  if (a.landscape) a.content.h -= turns_height + sizes::grid;
  make_room(between + turns_height + 12);
  if (!options.actions_on_all && need > 0 && !a.landscape) {
    a.room.others = a.actions.bottom() - sizes::primary_height - 16 - a.content.y;
  }
  if (options.asks && !options.actions_on_all) {
    a.repeats = true;
    a.room.last -= height_of_headlines(content_.blocks) + air;
  }
  choose_squeeze(a, content);
}

// `main`: turning on is what to do now, and stands where the actions will.
void toolkit::draw_turns(box row, bool main) {
  constexpr float middle = 72;
  const float w = (row.w - middle) / 2;
  const float back_width = !main ? w : panel_ > 0 ? w - 20 : 0;
  const box back{row.x, row.y, back_width, row.h};
  const box more{back.right() + middle, row.y, row.right() - back.right() - middle, row.h};
  const box between_them{back.right(), row.y, middle, row.h};
  const std::string place = fmt::format("{} / {}", panel_ + 1, plan_.panels);
  ink().text_in(face::small, between_them, theme_.quiet, place);
  note("page-number", "text", place, between_them);
  int turned = panel_;
  if (panel_ > 0 && turn_button(*this, "page-back", words_.back, back, turn_kind::back)) --turned;
  const turn_kind kind = main ? turn_kind::main : turn_kind::more;
  if (panel_ + 1 < plan_.panels && turn_button(*this, "page-more", words_.more, more, kind))
    ++turned;
  panel_ = turned;
}

void toolkit::draw_page(const areas& a, bool actions_on_all, const std::function<void()>& content,
                        const std::function<void()>& actions) {
  flow plan;
  plan.area = a.content;
  plan.squeeze = content_.squeeze;
  plan.fill_height = content_.fill_height;
  plan.shown = panel_;
  plan.plan = &plan_;
  // A leaf of actions alone repeats what they are about.
  if (plan_.actions_alone || a.repeats) plan.repeated = leading_headlines(content_.blocks);
  if (a.repeats) plan.repeated_height = height_of_headlines(content_.blocks);
  const bool last = panel_ + 1 == plan_.panels;
  const bool hide = !last && !actions_on_all && a.actions.h > 0;
  run(content, pass::draw, plan);
  if (plan_.panels > 1 && hide) {
    constexpr float h = sizes::primary_height;
    draw_turns({a.actions.x, a.actions.bottom() - h, a.actions.w, h}, true);
  } else if (plan_.panels > 1) {
    const float y = a.landscape ? height_ - 16 - turns_height
                                : a.actions.y - (a.actions.h > 0 ? 12.0F : 0.0F) - turns_height;
    draw_turns({a.content.x, y, a.content.w, turns_height}, false);
  }
  if (hide) return;
  flow column;
  column.area = a.actions;
  run(actions, pass::draw, column);
}

bool toolkit::draw_unwell(const areas& a) {
  const pen p = ink();
  const float rule = a.unwell.y - foot;
  p.line({a.unwell.x, rule}, {a.unwell.right(), rule}, theme_.hairline, 1);
  return unwell_button(*this, a.unwell);
}

void toolkit::draw_frame(const page_options& options, const areas& a) {
  draw_banner(*this, options, a.banner);
  if (!options.rack.empty()) {
    strip_rack(*this, a.strip, options.where, options.rack);
  } else if (!options.where.empty()) {
    strip_words(*this, a.strip, options.where);
  }
}

page_result toolkit::page(const page_options& options, const std::function<void()>& content,
                          const std::function<void()>& actions) {
  outline_.screen = options.screen;
  const std::string turn = options.screen + "/" + options.turn;
  if (turn != turn_) {
    turn_ = turn;
    panel_ = 0;
    keyboard_ = {};
  }
  areas a = divide(options);
  page_result result;
  if (!keyboard_.key.empty()) {
    draw_banner(*this, options, a.banner);
    const float top = a.banner.h + sizes::grid;
    edit_area_ = {0, top, width_, (options.unwell ? a.unwell.y - foot : height_) - 8 - top};
    const std::string typing = keyboard_.key;
    run(content, pass::edit, {});
    // The field has gone from the screen: nothing is being typed any more.
    if (outline_.find(typing) == nullptr) keyboard_ = {};
  } else {
    lay_out(a, options, content, actions);
    // While letters are lacking the lengths are not true yet; the frame is drawn again.
    if (!fonts_->lacking()) panel_ = std::clamp(panel_, 0, plan_.panels - 1);
    draw_frame(options, a);
    if (a.landscape) {
      const float x = a.actions.x - 20;
      ink().line({x, a.strip.bottom() + 12}, {x, height_ - 16}, theme_.hairline, 1);
    }
    draw_page(a, options.actions_on_all, content, actions);
  }
  if (options.unwell) result.unwell = draw_unwell(a);
  return result;
}

} // namespace qb::inline ui
