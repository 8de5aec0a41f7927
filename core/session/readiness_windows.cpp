// Windows against a start: what was planned, pressed and told of each.
#include "core/session/readiness.hpp"
#include "core/session/slip_meaning.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline sessions {

namespace {

bool confirms(const reported_checklist& told, const std::string& rule) {
  if (told.name == rule) return true;
  const bool of_a_list = told.name == "evening" || told.name == "morning";
  return of_a_list && std::find(told.items.begin(), told.items.end(), rule) != told.items.end();
}

// The latest slip that touches the window, if one does.
const noted_slip* last_slip(const state& s, const std::string& rule, instant start, const zone& z) {
  const noted_slip* out = nullptr;
  for (const noted_slip& slip : s.slips) {
    if (meaning_at(s, slip.what, start, z).rule != rule) continue;
    if (out == nullptr || slip.what.when > out->what.when) out = &slip;
  }
  return out;
}

// The other slips after that instant: whoever agreed heard of some, and not of all.
void add_other_slips(const state& s, rule_check& c, const noted_slip* last, instant start,
                     instant after, const zone& z) {
  for (const noted_slip& slip : s.slips) {
    if (&slip == last || slip.what.when <= after) continue;
    if (meaning_at(s, slip.what, start, z).rule == c.rule) c.events.push_back(slip.seq);
  }
}

// The program saw it: the plan stood before the window began, a press came at its time, and what
// it saw since is no less than the least and nearly all of what is asked.
bool is_seen(const state& s, const planned_window& w, const rule_check& c) {
  const bool stood = s.planned_at && s.planned_at->at.wall <= w.from;
  constexpr std::chrono::hours late{1}; // a press so late still tells of its evening
  return stood && c.seen && *c.seen >= c.least && *c.seen * 2 >= c.asked &&
         *c.seen + late >= c.asked;
}

std::string shortfall_words(const state& s, const rule_check& c, instant start) {
  const duration early = s.planned->what.start - start;
  const std::string kept = length_in_words(*c.kept);
  const std::string asked = length_in_words(c.asked);
  if (early <= duration{0}) return fmt::format("{} of '{}' kept, of {}", kept, c.name, asked);
  return fmt::format("start {} before the planned time: {} of '{}' instead of {}",
                     length_in_words(early), kept, c.name, asked);
}

} // namespace

const noted_list* confirmation_of(const state& s, const std::string& rule) {
  if (!s.planned) return nullptr;
  for (const planned_window& w : s.planned->what.windows) {
    if (w.rule != rule) continue;
    const auto at_its_time = [&](const noted_list& t) {
      return confirms(t.what, rule) && t.at.wall >= w.from - confirms_from;
    };
    const auto found = std::find_if(s.checklists.begin(), s.checklists.end(), at_its_time);
    return found == s.checklists.end() ? nullptr : &*found;
  }
  return nullptr;
}

rule_check window_check(const state& s, const planned_window& w, const clock_reading& now,
                        instant start, const zone& z) {
  const preparation_window& rule = *find_window(*s.test, w.rule);
  rule_check c;
  c.rule = w.rule;
  c.name = rule.name;
  c.asked = rule.asked();
  c.least = rule.least;
  const bool up_to_start = w.until == s.planned->what.start;
  const instant end = up_to_start ? start : std::min(w.until, start);
  const noted_slip* slip = last_slip(s, w.rule, start, z);
  // Counted from where the plan had it begin; starting later than planned only lengthens it.
  const instant from = slip == nullptr ? w.from : std::max(w.from, slip->what.when);
  const duration kept = std::max(duration{0}, duration{end - from});
  c.kept = kept;
  if (s.planned_at) c.events.push_back(s.planned_at->seq);
  if (slip != nullptr) c.events.push_back(slip->seq);
  add_other_slips(s, c, slip, start, end - c.least, z); // each alone leaves less than the least
  const noted_list* pressed = confirmation_of(s, w.rule);
  const bool since_the_slip =
      pressed != nullptr && (slip == nullptr || pressed->at.wall > slip->what.when);
  if (up_to_start && since_the_slip) {
    // Elapsed by the best clock up to now, the rest by the wall.
    c.seen = std::max(duration{0}, between(pressed->at, now).length + (start - now.wall));
    c.events.push_back(pressed->seq);
  }
  if (kept >= c.asked) {
    c.standing = is_seen(s, w, c) ? rule_standing::by_record : rule_standing::on_word;
    c.words = fmt::format("{} of {}", length_in_words(kept), length_in_words(c.asked));
    return c;
  }
  const bool review = kept < c.least;
  c.standing = review ? rule_standing::below_least : rule_standing::below_asked;
  c.words = shortfall_words(s, c, start);
  // A slip is told as a finding of its own, with the person's words.
  if (slip == nullptr) c.tell = review ? consequence::review : consequence::note;
  return c;
}

} // namespace qb::inline sessions
