// The three checks.
#include "core/receiving/slips.hpp"

#include "core/receiving/paper.hpp"
#include "core/receiving/readings.hpp"

#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

using times = std::vector<std::optional<exact>>;

// The first or last known of them, as its place.
std::optional<std::size_t> end_of(const times& all, bool last) {
  std::optional<std::size_t> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i] && (last || !out)) out = i;
  return out;
}

std::string after_last(const char* what, day_minute at, const paper_record& sheet, std::size_t i) {
  return fmt::format("the drink {} at {}, after tube {} at {}", what, day_minute_text(at), i + 1,
                     day_minute_text(*sheet.times[i]));
}

std::string day_of(const std::string& moment) {
  return moment.substr(0, moment.find('T'));
}

void reading_slips(const received_kit& kit, const recorded_tubes* told, const zone& lab,
                   std::vector<receiving_finding>& out) {
  std::optional<civil_date> tested;
  std::string arrived;
  if (!kit.arrivals.empty()) {
    tested = kit.arrivals.back().tested;
    arrived = reading_moment(lab.civil_at(kit.arrivals.back().at));
  }
  if (told != nullptr && told->tested) tested = told->tested;
  for (const counted_reading& c : counted_readings(kit)) {
    const std::string& at = c.reading.measured_at;
    const int n = c.reading.sample;
    if (tested && day_of(at) < date_text(*tested))
      out.push_back({"reading-early",
                     consequence::review,
                     {n},
                     {n},
                     fmt::format("tube {} was measured at {}, before the day of the test ({})", n,
                                 at, date_text(*tested))});
    else if (!arrived.empty() && at.substr(0, arrived.size()) < arrived)
      out.push_back(
          {"reading-early",
           consequence::review,
           {n},
           {n},
           fmt::format("tube {} was measured at {}, before the box arrived ({})", n, at, arrived)});
  }
}

} // namespace

std::optional<std::string> drink_slip(const paper_record& sheet, const drink_bounds& bounds) {
  const auto since_start = paper_minutes(sheet, time_zero::drink_start);
  if (!since_start) return std::nullopt;
  const day_minute start = *sheet.drink.start;
  const auto first = end_of(*since_start, false);
  const auto last = end_of(*since_start, true);
  if (!first || !last) return std::nullopt;
  if (*(*since_start)[*last] < exact()) return after_last("began", start, sheet, *last);
  if (*first == 0 && *(*since_start)[0] > exact::minutes_of(bounds.after_tube_1))
    return fmt::format("the drink began at {}, well before tube 1 at {}", day_minute_text(start),
                       day_minute_text(*sheet.times[0]));
  const auto since_end = paper_minutes(sheet, time_zero::drink_end);
  if (!since_end) return std::nullopt;
  if (*(*since_end)[*last] < exact()) return after_last("ended", *sheet.drink.end, sheet, *last);
  if (*(*since_end)[*first] > *(*since_start)[*first])
    return fmt::format("the drink ended at {}, before it began at {}",
                       day_minute_text(*sheet.drink.end), day_minute_text(start));
  return std::nullopt;
}

std::string sheet_differences(const paper_record& kept, const paper_record& next) {
  std::string out;
  const auto say = [&](bool differs, const char* what) {
    if (differs) out += (out.empty() ? "" : ", ") + std::string(what);
  };
  say(kept.protocol != next.protocol, "test");
  say(kept.day != next.day, "day");
  say(kept.times != next.times || kept.past_midnight != next.past_midnight, "times");
  say(kept.drink.start != next.drink.start || kept.drink.end != next.drink.end, "drink");
  say(paper_scores_text(kept.scores) != paper_scores_text(next.scores) || kept.after != next.after,
      "scores");
  return out;
}

std::vector<receiving_finding> check_slips(const received_kit& kit, const recorded_tubes* told,
                                           bool by_paper, const lab_profile& profile,
                                           const zone& lab) {
  std::vector<receiving_finding> out;
  if (by_paper && !kit.papers.empty()) {
    const paper_record& now = kit.papers.back();
    if (const auto words = drink_slip(now, profile.drink))
      out.push_back({"drink-unlikely", consequence::review, {}, {}, *words + ", by the sheet"});
    for (std::size_t i = kit.papers.size() - 1; i-- > 0;) {
      const std::string differs = sheet_differences(kit.papers[i], now);
      if (differs.empty()) continue;
      out.push_back({"paper-replaced",
                     consequence::review,
                     {},
                     {},
                     fmt::format("the last sheet of {} counts; one of {} is kept beside it and "
                                 "differs in: {}",
                                 kit.papers.size(), date_text(kit.papers[i].day), differs)});
      break;
    }
  }
  reading_slips(kit, told, lab, out);
  return out;
}

} // namespace qb::inline receiving
