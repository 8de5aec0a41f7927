// Pure: what is known of sound and screen in, what is told and shown out.
#include "app/patient/shell/attention.hpp"

#include <algorithm>

namespace qb::inline shells {

reported_checklist reported_attention(const attention& a) {
  const char* ear = !a.sound ? "no sound card" : a.silent ? "silent chosen" : "sound heard";
  return {attention_list, {ear, a.awake ? "awake held" : "awake refused"}};
}

bool is_under_way(const state& s, const now_answer& now) {
  return s.ready && !s.ended && now.what != step::finish && now.what != step::gate;
}

std::optional<reported_checklist> attention_to_report(const state& s, const now_answer& now,
                                                      const attention& a) {
  if (!is_under_way(s, now)) return std::nullopt;
  const auto last =
      std::find_if(s.checklists.rbegin(), s.checklists.rend(),
                   [](const noted_list& told) { return told.what.name == attention_list; });
  reported_checklist told = reported_attention(a);
  if (last != s.checklists.rend() && last->what.items == told.items) return std::nullopt;
  return told;
}

bool screen_calls(const now_answer& now, const attention& a) {
  if (a.sound && !a.silent) return false;
  const bool due = now.what == step::breathe && now.to_due && *now.to_due <= duration{0};
  return due && !now.repeating;
}

look swapped_look(look usual) {
  return usual == look::dark ? look::light : look::dark;
}

} // namespace qb::inline shells
