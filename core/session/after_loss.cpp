// By the place of the loss alone.
#include "core/session/after_loss.hpp"

#include "core/session/other_sugars.hpp"

#include <algorithm>

namespace qb::inline sessions {

namespace {

bool is_asking(const state& s) {
  return s.lost_by != 0 && !s.drink_start && !s.ended;
}

} // namespace

bool is_told_since_loss(const state& s, std::int64_t seq) {
  return seq > s.lost_by;
}

bool still_counts(const state& s, const protocol& p, const caution& asked,
                  const noted_caution& told) {
  return is_told_since_loss(s, told.seqs.back()) || is_open(p, asked, told.what);
}

std::vector<std::string> lost_answers(const state& s, const protocol& p) {
  std::vector<std::string> out;
  if (!is_asking(s) || is_sugar_known(s)) return out;
  for (const std::string& rule : s.ask_again) {
    if (is_own_question(p, rule)) continue;
    const noted_caution* told = find_noted_caution(s, rule);
    const bool counts = told != nullptr && still_counts(s, p, asked_of_another_sugar(rule), *told);
    if (!counts) out.push_back(rule);
  }
  return out;
}

bool is_person_lost(const state& s) {
  return is_asking(s) && !is_told_since_loss(s, s.person_seq);
}

bool are_signs_lost(const state& s) {
  return is_asking(s) && !is_told_since_loss(s, s.signs_seq);
}

bool are_slips_lost(const state& s) {
  const auto tells = [&](const noted_list& x) {
    return x.what.name == told_again_list && is_told_since_loss(s, x.seq);
  };
  return is_asking(s) && std::none_of(s.checklists.begin(), s.checklists.end(), tells);
}

} // namespace qb::inline sessions
