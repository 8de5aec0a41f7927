// The frame and the small texts that screens share.
#include "app/patient/screens/shared.hpp"

#include "core/session/keeping.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline screens {

namespace {

page_options frame_options(const view& v, const std::string& screen, page_kind kind,
                           const std::string& about) {
  page_options o;
  o.screen = screen;
  o.practice = v.practice;
  o.trying = v.lab.for_trying;
  o.turn = about;
  if (kind == page_kind::timed) o.rack = rack_of(v);
  o.asks = kind == page_kind::asking;
  o.actions_on_all = kind != page_kind::calm && kind != page_kind::asking;
  if (v.now.sample && v.s.test)
    o.where = v.t("where.sample", {{"n", number_text(*v.now.sample)},
                                   {"all", std::to_string(v.s.test->samples())}});
  return o;
}

tube_mark mark_of(const view& v, sample_number n) {
  const sample_state& t = v.s.of(n);
  if (t.taken) return timing_of(v.s, n) == timing::late ? tube_mark::late : tube_mark::filled;
  const auto& missed = v.now.missed;
  if (std::find(missed.begin(), missed.end(), n) != missed.end()) return tube_mark::missed;
  return v.now.sample && *v.now.sample == n ? tube_mark::next : tube_mark::empty;
}

// That a shared device is about to erase the test; answers whether the person wants it kept.
bool shared_notice(toolkit& k, const view& v) {
  const auto left = std::chrono::ceil<std::chrono::minutes>(*v.shared->left).count();
  notice(k, "shared-due", notice_kind::needs_you,
         v.t.counted(filled_tubes(v) > 0 ? "shared.due" : "shared.due-empty", left));
  return quiet_button(k, "keep-mine", v.t("shared.mine"));
}

} // namespace

maybe_wish framed_page(toolkit& k, const view& v, const std::string& screen,
                       const std::function<void()>& content, const std::function<void()>& actions,
                       page_kind kind, const std::string& about) {
  bool mine = false;
  const auto with_trouble = [&] {
    if (!v.trouble.empty()) notice(k, "trouble", notice_kind::needs_you, v.trouble);
    if (v.shared && v.shared->left && kind != page_kind::whole) mine = shared_notice(k, v);
    if (!v.paper_time.empty()) {
      strong(k, "paper-what", v.paper_what);
      big_figure(k, "paper", "", v.paper_time);
    }
    content();
  };
  const page_result r = k.page(frame_options(v, screen, kind, about), with_trouble, actions);
  if (r.unwell) return wish{payload{reported_unwell{}}};
  if (mine) return wish{payload{reported_checklist{kept_list, {mine_item}}}};
  return std::nullopt;
}

std::string when(const view& v, instant t) {
  return day_and_time(t, v.at.wall, v.z);
}

std::string clock_of(const view& v, instant t) {
  return clock_text(v.z.civil_at(t));
}

std::string count_down(duration left) {
  const auto total =
      std::max<std::int64_t>(0, std::chrono::ceil<std::chrono::seconds>(left).count());
  if (total >= 3600) return fmt::format("{} h {:02}", total / 3600, total / 60 % 60);
  return fmt::format("{}:{:02}", total / 60, total % 60);
}

std::size_t filled_tubes(const view& v) {
  std::size_t n = 0;
  for (const sample_state& t : v.s.samples)
    n += t.taken ? 1U : 0U;
  return n;
}

std::vector<tube_mark> rack_of(const view& v) {
  std::vector<tube_mark> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i)
    out.push_back(mark_of(v, sample_number::from_index(i)));
  return out;
}

std::string real_words(const view& v, const std::string& key, const word_args& args) {
  const std::string practice = key + ".practice";
  return v.t(v.practice && v.t.has(practice) ? practice : key, args);
}

std::string number_text(sample_number n) {
  return std::to_string(n.value());
}

} // namespace qb::inline screens
