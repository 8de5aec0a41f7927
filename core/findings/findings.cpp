// The findings, one small function a kind, in the order a reader wants them: preparation, start,
// samples, clocks, the record itself.
#include "core/findings/findings.hpp"
#include "core/findings/bounded.hpp"
#include "core/findings/breaths.hpp"
#include "core/findings/preparation.hpp"
#include "core/findings/reported_later.hpp"
#include "core/findings/safety.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline findings {

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

void one_sample(const state& s, sample_number n, const clock_reading& now, list& out) {
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
  spoil_findings(s, n, out);
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

// As length_in_words, with days where hours would not be grasped.
std::string size_in_words(duration d) {
  const auto whole = std::chrono::duration_cast<std::chrono::days>(d < duration{0} ? -d : d);
  if (whole < std::chrono::days{2}) return length_in_words(d);
  return fmt::format("{} days", whole.count());
}

finding clock_note(const char* rule, std::int64_t seq, std::vector<std::int64_t> figures,
                   std::string words) {
  return {rule, consequence::note, {}, {seq}, std::move(figures), std::move(words)};
}

// How long a restart took, and how that is known.
finding restart_finding(const noted_clock_change& c) {
  const std::string rest = "the device was restarted; times across it rest on its wall clock";
  if (!c.before) return clock_note("clock-rebooted", c.seq, {}, rest);
  const elapsed gap = between(*c.before, c.at);
  const bool backwards = c.at.wall - c.before->wall < gap.at_least;
  const std::string how =
      backwards ? std::string("which cannot be right")
                : fmt::format("by it {}, {}called synchronised", size_in_words(gap.length),
                              gap.synchronised ? "" : "not ");
  return clock_note("clock-rebooted", c.seq,
                    {whole_seconds(gap.length), whole_seconds(gap.at_least), gap.synchronised},
                    fmt::format("{}: {}; at least {}", rest, how, size_in_words(gap.at_least)));
}

finding clock_finding(const noted_clock_change& c) {
  switch (c.what.what) {
  case clock_change::kind::stepped:
    return clock_note("clock-stepped", c.seq, {whole_seconds(c.what.by)},
                      fmt::format("the device's clock was set {} by {}",
                                  c.what.by > duration{0} ? "forward" : "back",
                                  size_in_words(c.what.by)));
  case clock_change::kind::rebooted: return restart_finding(c);
  case clock_change::kind::zone_changed:
    return clock_note("zone-changed", c.seq, {}, "the device's time zone was changed");
  }
  QB_BELIEVE(false);
  return {};
}

// A time that was measured anew after a restart; what was closed before keeps its time.
finding anew_finding(const measured_anew& m) {
  return {"clock-measured-anew",
          consequence::review,
          {},
          {m.seq},
          {whole_seconds(m.by)},
          fmt::format("with the clock set right, the restart is known to have lasted {} {} than it "
                      "was taken for; tubes closed in between keep the time known then",
                      size_in_words(m.by), m.by > duration{0} ? "longer" : "less")};
}

// Summer time began or ended between two tubes: the labels show it.
void summer_time_findings(const state& s, list& out) {
  const auto zone_was_changed = [](const noted_clock_change& c) {
    return c.what.what == clock_change::kind::zone_changed;
  };
  if (std::any_of(s.clock_changes.begin(), s.clock_changes.end(), zone_was_changed)) return;
  const taken_breath* before = nullptr;
  for (const sample_state& t : s.samples) {
    if (!t.taken) continue;
    if (before != nullptr && t.taken->offset != before->offset) {
      const duration by = t.taken->offset - before->offset;
      out.push_back(
          clock_note("clocks-changed", t.taken->seq, {whole_seconds(by)},
                     fmt::format("the clocks went {} by {} during the test",
                                 by > duration{0} ? "forward" : "back", size_in_words(by))));
    }
    before = &*t.taken;
  }
}

void clock_findings(const state& s, list& out) {
  for (const noted_clock_change& c : s.clock_changes)
    out.push_back(clock_finding(c));
  for (std::size_t i = 0; s.grid && i < s.grid->anew.size(); ++i)
    out.push_back(anew_finding(s.grid->anew[i]));
  summer_time_findings(s, out);
  const bool unsynchronised = s.grid && !s.grid->anchor.synchronised;
  if (unsynchronised)
    out.push_back(clock_note("clock-unsynchronised", s.grid->anchor_seq, {},
                             "the device's clock was not known to be synchronised at tube 1"));
}

constexpr const char* salvage_rule = "record-salvaged";

// A damaged record that was read again: what is missing cannot be told from what never was.
finding salvage_finding(const noted<record_salvaged>& x) {
  const std::string lost =
      x.what.complete    ? "nothing is lost"
      : x.what.lost == 0 ? "entries at its end may be lost"
                         : fmt::format("{} {} lost, and entries at its end may be", x.what.lost,
                                       x.what.lost == 1 ? "entry is" : "entries are");
  return {salvage_rule,
          x.what.complete ? consequence::note : consequence::review,
          {},
          {x.seq},
          {x.what.lost, x.what.complete ? 1 : 0},
          "the record was damaged on the device and read again: " + lost};
}

void record_findings(const state& s, list& out) {
  for (const noted<record_salvaged>& x : s.salvaged)
    out.push_back(salvage_finding(x));
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

std::vector<finding> findings_of(const state& s, const clock_reading& now, const zone& z) {
  list out;
  if (s.rehearsal())
    out.push_back({"rehearsal", consequence::review, {}, {1}, {}, "this is a rehearsal"});
  // What was kept is judged by when tube 1 was really closed, not by the plan.
  const instant start =
      s.grid ? s.grid->anchor.wall : (s.planned ? s.planned->what.start : now.wall);
  for (finding& f : safety_findings(s, z))
    out.push_back(std::move(f));
  for (finding& f : preparation_found(s, now, start, z))
    out.push_back(std::move(f));
  drink_findings(s, out);
  drink_course_findings(s, z, out);
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    one_sample(s, sample_number::from_index(i), now, out);
  order_findings(s, out);
  reported_later_findings(s, z, out);
  scores_after_findings(s, now, out);
  clock_findings(s, out);
  record_findings(s, out);
  return bounded_findings(std::move(out));
}

} // namespace qb::inline findings
