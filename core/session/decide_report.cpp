// The checks, in the order of the header.
#include "core/session/decide_report.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/session/correct.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sessions {

namespace {

const verdict fine = std::nullopt;

verdict past(instant t, const clock_reading& now) {
  return t > now.wall ? bad("no.future", "This time is still to come.") : fine;
}

verdict score_fits(const state& s, const right_score& x) {
  const auto same = [&](const symptom& y) { return y.id == x.symptom; };
  const auto& asked = s.test->symptoms;
  if (std::none_of(asked.begin(), asked.end(), same))
    return bad("no.symptom", "This symptom is not asked in this test.");
  if (x.score && (*x.score < s.test->score_least || *x.score > s.test->score_most))
    return bad("no.score",
               fmt::format("A score is {} to {}.", s.test->score_least, s.test->score_most));
  return fine;
}

} // namespace

verdict no(const char* key, std::string sentence) {
  return refusal{refusal_kind::not_now, "", key, "", std::move(sentence)};
}

verdict bad(const char* key, std::string sentence) {
  return refusal{refusal_kind::out_of_range, "", key, "", std::move(sentence)};
}

verdict fits(const std::string& text, bool may_be_empty) {
  if (text.empty() && !may_be_empty) return bad("no.empty", "Please fill this in.");
  if (character_count(text) > most_words)
    return bad("no.too-long", "This is too long. Please shorten it.");
  // What could not be read back from the record must not get into it.
  if (!json::is_plain_line(text)) return bad("no.one-line", "Please write this on one line.");
  return fine;
}

verdict all_fit(const std::vector<std::string>& texts) {
  for (const std::string& text : texts) {
    if (auto v = fits(text, false)) return v;
  }
  return texts.size() > most_items ? bad("no.too-long", "This is too long. Please shorten it.")
                                   : fine;
}

verdict may_tell(const state& s, const reported_drink&) {
  return s.opening ? fine : no("no.not-open", "Open the test first.");
}

verdict may_tell(const state& s, const reported_drink_trouble& x, const clock_reading& now) {
  if (!s.drink_start) return no("no.drink-not-started", "The drink has not been started.");
  if (auto v = past(x.when, now)) return v;
  return fits(x.words, true);
}

verdict may_tell(const state& s, const corrected& x, const clock_reading& now) {
  if (!s.planned || !s.test || !can_correct(s, x))
    return no("no.nothing-to-correct", "There is nothing of this kind to correct.");
  if (auto v = fits(x.reason, false)) return v;
  if (const auto* score = std::get_if<right_score>(&x.to)) return score_fits(s, *score);
  const auto* time = std::get_if<right_time>(&x.to);
  if (time == nullptr) return fine;
  if (auto v = past(time->time, now)) return v;
  const auto n = sample_closed_by(s, x.seq);
  const bool after_first = n && *n != sample_number(1) && s.grid && s.clock_changes.empty();
  if (after_first && time->time <= s.grid->anchor.wall)
    return bad("no.before-tube-1", "This is before tube 1. Please check the time.");
  return fine;
}

verdict may_tell(const state& s, const reported_scorer& x) {
  if (!s.opening) return no("no.not-open", "Open the test first.");
  return fits(x.who, true);
}

verdict may_tell(const state& s, const reported_red_flags& x) {
  if (!s.opening) return no("no.not-open", "Open the test first.");
  return all_fit(x.present);
}

} // namespace qb::inline sessions
