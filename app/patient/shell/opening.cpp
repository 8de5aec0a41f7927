// Whole where it can be, else salvaged, else read.
#include "app/patient/shell/opening.hpp"

#include "app/store/journal_key.hpp"
#include "app/store/salvaged_journal.hpp"

#include <algorithm>
#include <filesystem>

namespace qb::inline shells {

namespace {

opened_test for_reading(const salvaged_record& r, paper_why why) {
  opened_test out;
  out.paper = why;
  std::vector<event> told = r.events;
  if (!told.empty()) told.pop_back(); // nothing is asked here: what is known is shown
  out.shown = fold_events(told);
  return out;
}

// Without the laboratory's terms no test can go on, however much else was read; nor without a plan,
// unless it is certain that there was none: the sugar may be drunk already. Where nothing is known
// but the plan, nobody goes on towards the sugar.
bool can_go_on(const salvaged_record& r) {
  const state s = fold_events(r.events);
  if (!s.opening || !s.profile) return false;
  if (!s.planned) return std::get<record_salvaged>(r.events.back().what).complete;
  return r.found_any || s.drink_start;
}

opened_test salvaged(const std::string& path, const std::vector<std::string>& ask_again,
                     durable_writes& writes) {
  const salvaged_record r = read_damaged(path, ask_again);
  // Its key is there and cannot be read now: nothing is made in the place of what may be whole.
  if (!can_go_on(r) || find_journal_key(path).unread) return for_reading(r, paper_why::unreadable);
  const auto aside = replace_damaged(path, r.events);
  if (!aside) return for_reading(r, paper_why::not_written);
  auto again = running_test::open(path, writes);
  if (!again) return for_reading(r, paper_why::not_written);
  const auto& told = std::get<record_salvaged>(r.events.back().what);
  const std::string name = std::filesystem::path(*aside).filename().string();
  return opened_test{std::move(*again), salvage_note{told.lost, told.complete, name}, {}, {}};
}

} // namespace

result<opened_test> open_whatever(const std::string& path,
                                  const std::vector<std::string>& ask_again,
                                  durable_writes& writes) {
  // An empty file would be begun anew: of a test that ran, all of it is lost.
  std::error_code none;
  if (std::filesystem::file_size(path, none) == 0) return salvaged(path, ask_again, writes);
  auto whole = running_test::open(path, writes);
  if (whole) return opened_test{std::move(*whole), std::nullopt, std::nullopt, {}};
  const refusal& no = whole.error();
  if (is_held_elsewhere(no) || is_erased_journal(path)) return tl::unexpected(no);
  if (no.kind == refusal_kind::newer)
    return for_reading(read_damaged(path, ask_again), paper_why::newer);
  return salvaged(path, ask_again, writes);
}

std::vector<std::string> questions_of(const std::vector<offered_test>& tests) {
  std::vector<std::string> rules;
  std::vector<std::string> words;
  const auto add = [&](const caution& c) {
    if (std::find(rules.begin(), rules.end(), c.why.rule) != rules.end()) return;
    if (std::find(words.begin(), words.end(), c.question) != words.end()) return;
    rules.push_back(c.why.rule);
    words.push_back(c.question);
  };
  for (const offered_test& one : tests) {
    std::for_each(one.test.cautions.begin(), one.test.cautions.end(), add);
    std::for_each(one.test.morning.begin(), one.test.morning.end(), add);
  }
  return rules;
}

} // namespace qb::inline shells
