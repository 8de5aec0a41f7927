// One rule for both: what is asked is what counts.
#include "core/session/other_sugars.hpp"

#include "core/session/after_loss.hpp"

#include <algorithm>

namespace qb::inline sessions {

caution as_of_another_sugar(caution asked) {
  asked.leads = leads_to::ask_first;
  asked.unsure_leads = leads_to::ask_first;
  asked.may_release = {releaser::laboratory};
  return asked;
}

caution asked_of_another_sugar(const std::string& rule) {
  caution asked;
  asked.why.rule = rule;
  return as_of_another_sugar(std::move(asked));
}

bool is_sugar_known(const state& s) {
  return s.kit && s.kit_seq > s.lost_by;
}

bool is_own_question(const protocol& p, const std::string& rule) {
  return find_caution(p, rule) != nullptr;
}

namespace {

bool has(const std::vector<caution>& all, const std::string& rule) {
  return std::any_of(all.begin(), all.end(), [&](const caution& x) { return x.why.rule == rule; });
}

bool has_the_words(const std::vector<caution>& all, const std::string& question) {
  return std::any_of(all.begin(), all.end(),
                     [&](const caution& x) { return x.question == question; });
}

bool is_lost_answer(const state& s, const protocol& p, const caution& c) {
  const std::vector<std::string> lost = lost_answers(s, p);
  return std::find(lost.begin(), lost.end(), c.why.rule) != lost.end();
}

} // namespace

std::vector<caution> asked_before_plan(const state& s, const protocol& p,
                                       const std::vector<const protocol*>& offered) {
  std::vector<caution> out = p.cautions;
  if (is_sugar_known(s)) return out;
  const auto add = [&](const caution& c, bool forbids) {
    if (is_own_question(p, c.why.rule) || has(out, c.why.rule)) return;
    const caution more = as_of_another_sugar(c);
    const noted_caution* told = find_noted_caution(s, c.why.rule);
    const bool stands =
        (told != nullptr && is_open(p, more, told->what)) || is_lost_answer(s, p, c);
    if (stands || (forbids && !has_the_words(out, c.question))) out.push_back(more);
  };
  for (const protocol* other : offered) {
    for (const caution& c : other->cautions)
      add(c, c.leads == leads_to::not_this_test);
    for (const caution& c : other->morning)
      add(c, false);
  }
  return out;
}

} // namespace qb::inline sessions
