// One look at the tubes for their order, one at the events for the breaths' lengths.
#include "core/findings/breaths.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline findings {

void order_findings(const state& s, std::vector<finding>& out) {
  const taken_breath* latest = nullptr; // of the lower numbers
  int latest_number = 0;
  for (std::size_t i = 0; i < s.samples.size(); ++i) {
    const auto& taken = s.samples[i].taken;
    if (!taken) continue;
    const auto n = sample_number::from_index(i);
    if (latest != nullptr && taken->since_anchor < latest->since_anchor) {
      out.push_back({"sample-out-of-order",
                     consequence::review,
                     n,
                     {latest->seq, taken->seq},
                     {latest_number, n.value()},
                     fmt::format("tube {} closed {} before tube {}", n.value(),
                                 length_in_words(latest->since_anchor - taken->since_anchor),
                                 latest_number)});
      continue;
    }
    latest = &*taken;
    latest_number = n.value();
  }
}

void spoil_findings(const state& s, sample_number n, std::vector<finding>& out) {
  const sample_state& t = s.of(n);
  const auto closes = [](const taken_breath& b, const noted_spoil& told) {
    return b.seq == told.closing;
  };
  for (const noted_spoil& told : s.spoils) {
    const bool counts = t.taken && closes(*t.taken, told);
    const bool before = std::any_of(t.earlier.begin(), t.earlier.end(),
                                    [&](const taken_breath& b) { return closes(b, told); });
    if (!counts && !before) continue;
    const breath_spoil* what = find_spoil(*s.test, told.what.what);
    const bool back = told.what.what.empty();
    const bool stands = counts && spoil_of(s, *t.taken) == &told;
    std::string words = back ? fmt::format("tube {}: nothing went wrong after all", n.value())
                             : fmt::format("tube {}: told as \"{}\"", n.value(),
                                           what == nullptr ? told.what.what : what->text);
    if (before) words += "; blown again";
    if (counts && !stands && !back) words += "; told otherwise later";
    if (!told.what.words.empty()) words += " (" + told.what.words + ")";
    out.push_back({"breath-spoiled",
                   stands ? consequence::review : consequence::note,
                   n,
                   {told.closing, told.seq},
                   {n.value()},
                   std::move(words)});
  }
}

std::vector<finding> short_breath_findings(const std::vector<event>& events, const state& s) {
  std::vector<finding> out;
  if (!s.test || !s.profile) return out;
  const event* begun = nullptr;
  for (const event& e : events) {
    if (std::holds_alternative<breath_begun>(e.what)) begun = &e;
    const auto* closed = std::get_if<tube_closed>(&e.what);
    if (closed == nullptr) continue;
    const event* from = begun;
    begun = nullptr;
    if (from == nullptr || std::get<breath_begun>(from->what).sample != closed->sample) continue;
    if (closed->sample.index() >= s.samples.size()) continue;
    const auto& taken = s.of(closed->sample).taken;
    if (!taken || taken->seq != e.seq) continue;
    const duration blown = between(from->at, e.at).length - before_blowing(s);
    if (blown >= s.test->breath_least) continue;
    const duration at_most = std::max(blown, duration{0});
    out.push_back({"breath-short",
                   consequence::review,
                   closed->sample,
                   {from->seq, e.seq},
                   {closed->sample.value(),
                    std::chrono::duration_cast<std::chrono::seconds>(at_most).count()},
                   fmt::format("breath of tube {} lasted {} of at least {}", closed->sample.value(),
                               length_in_words(at_most), length_in_words(s.test->breath_least))});
  }
  return out;
}

} // namespace qb::inline findings
