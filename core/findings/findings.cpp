// The findings, one small function a kind, in the order a reader wants them: preparation, start,
// samples, clocks, the record itself.
#include "core/findings/findings.hpp"
#include "core/findings/preparation.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb {

namespace {

using list = std::vector<finding>;

std::int64_t whole_seconds(duration d) {
  return std::chrono::duration_cast<std::chrono::seconds>(d).count();
}

void drink_findings(const state& s, list& out) {
  if (!s.profile || !s.grid) return;
  if (!s.drink_start) {
    out.push_back({"drink-missing", consequence::review, {}, {}, {}, "no drink recorded"});
    return;
  }
  const duration gap = between(s.grid->anchor, s.drink_start->at).length;
  if (gap > s.profile->drink.after_tube_1)
    out.push_back({"drink-late",
                   consequence::review,
                   {},
                   {s.drink_start->seq},
                   {whole_seconds(gap)},
                   "drink started " + length_in_words(gap) + " after tube 1"});
  if (!s.drink_end) {
    out.push_back({"drink-end-missing",
                   consequence::note,
                   {},
                   {s.drink_start->seq},
                   {},
                   "end of the drink not recorded"});
    return;
  }
  const duration took = between(s.drink_start->at, s.drink_end->at).length;
  if (took > s.profile->drink.drink_within)
    out.push_back({"drink-slow",
                   consequence::note,
                   {},
                   {s.drink_start->seq, s.drink_end->seq},
                   {whole_seconds(took)},
                   "drinking took " + length_in_words(took)});
  if (!s.drank_all)
    out.push_back({"drink-partial",
                   consequence::review,
                   {},
                   {s.drink_end->seq},
                   {},
                   "not all of the drink was taken"});
}

void one_sample(const state& s, sample_number n, const reading& now, list& out) {
  const sample_state& t = s.of(n);
  if (is_missed(s, n, now)) {
    out.push_back({"sample-missed",
                   consequence::review,
                   n,
                   {},
                   {n.value()},
                   fmt::format("tube {} not taken", n.value())});
    return;
  }
  if (!t.taken) return;
  const duration late = lateness(s, n);
  const timing when = timing_of(s, n);
  if (when != timing::on_time)
    out.push_back({when == timing::late ? "sample-late" : "sample-early",
                   consequence::review,
                   n,
                   {t.taken->seq},
                   {n.value(), whole_seconds(late)},
                   fmt::format("tube {} closed {} {} its time", n.value(), length_in_words(late),
                               when == timing::late ? "after" : "before")});
  if (t.taken->how != how_known::observed)
    out.push_back({"sample-told",
                   consequence::note,
                   n,
                   {t.taken->seq},
                   {n.value()},
                   fmt::format("time of tube {} told afterwards", n.value())});
  if (!t.earlier.empty())
    out.push_back({"sample-repeated",
                   consequence::note,
                   n,
                   {t.earlier.back().seq, t.taken->seq},
                   {n.value()},
                   fmt::format("tube {} blown again; the last closing counts", n.value())});
  const bool all_scored =
      t.symptoms && std::all_of(t.symptoms->scores.begin(), t.symptoms->scores.end(),
                                [](const symptom_score& x) { return x.score.has_value(); });
  if (!all_scored)
    out.push_back({"symptoms-missing",
                   consequence::note,
                   n,
                   t.symptom_events,
                   {n.value()},
                   fmt::format("symptoms at tube {} not all scored", n.value())});
}

void clock_findings(const state& s, list& out) {
  for (const noted_clock_change& c : s.clock_changes) {
    switch (c.what.what) {
    case clock_change::kind::stepped:
      out.push_back(
          {"clock-stepped",
           consequence::note,
           {},
           {c.seq},
           {whole_seconds(c.what.by)},
           fmt::format("the device's clock was set {} by {}",
                       c.what.by > duration{0} ? "forward" : "back", length_in_words(c.what.by))});
      break;
    case clock_change::kind::rebooted:
      out.push_back({"clock-rebooted",
                     consequence::note,
                     {},
                     {c.seq},
                     {},
                     "the device was restarted; times across it rest on its wall clock"});
      break;
    case clock_change::kind::zone_changed:
      out.push_back({"zone-changed",
                     consequence::note,
                     {},
                     {c.seq},
                     {},
                     "the device's time zone was changed"});
      break;
    }
  }
  const bool unsynchronised = s.grid && !s.grid->anchor.synchronised;
  if (unsynchronised)
    out.push_back({"clock-unsynchronised",
                   consequence::note,
                   {},
                   {s.grid->anchor_seq},
                   {},
                   "the device's clock was not known to be synchronised at tube 1"});
}

void record_findings(const state& s, list& out) {
  for (const std::int64_t seq : s.unwell_events)
    out.push_back({"unwell-told", consequence::review, {}, {seq}, {}, "felt unwell"});
  if (s.ended)
    out.push_back({"test-ended",
                   consequence::review,
                   {},
                   {s.ended->seq},
                   {},
                   "ended by the person before the last tube (" + s.ended_reason + ")"});
  for (const auto& [seq, words] : s.comments)
    out.push_back({"comment", consequence::note, {}, {seq}, {}, "comment: " + words});
}

} // namespace

std::vector<finding> findings_of(const state& s, const reading& now, const zone& z) {
  list out;
  if (s.rehearsal())
    out.push_back({"rehearsal", consequence::review, {}, {1}, {}, "this is a rehearsal"});
  // What was kept is judged by when tube 1 was really closed, not by the plan.
  const instant start =
      s.grid ? s.grid->anchor.wall : (s.planned ? s.planned->what.start : now.wall);
  for (finding& f : preparation_found(s, now, start, z))
    out.push_back(std::move(f));
  drink_findings(s, out);
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    one_sample(s, sample_number::from_index(i), now, out);
  clock_findings(s, out);
  record_findings(s, out);
  return out;
}

} // namespace qb
