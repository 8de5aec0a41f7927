// Days counted on the profile's calendar, and the first thing a kit lacks.
#include "core/case/worklist.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <set>
#include <tuple>

namespace qb::inline cases {

namespace {

int reviews_of(const kit_facts& kit) {
  return static_cast<int>(
      std::count_if(kit.findings.begin(), kit.findings.end(), [](const case_finding& f) {
        return f.weight != consequence::note && f.stands();
      }));
}

int review_rules_of(const kit_facts& kit) {
  std::set<std::string> rules;
  for (const case_finding& f : kit.findings)
    if (f.stands() && f.weight != consequence::note) rules.insert(f.what.rule);
  return static_cast<int>(rules.size());
}

std::vector<std::string> names_at_once(const kit_facts& kit) {
  std::vector<std::string> out;
  for (const case_finding& f : kit.findings)
    if (f.at_once && f.stands() && std::find(out.begin(), out.end(), f.name) == out.end())
      out.push_back(f.name);
  return out;
}

// Tubes that were blown and are here, and that have no reading.
std::vector<int> unread_tubes(const kit_facts& kit) {
  std::vector<int> out;
  for (const received_tube& t : kit.received->tubes) {
    const auto at = static_cast<std::size_t>(t.sample - 1);
    const bool blown =
        kit.told == nullptr || (at < kit.told->labels.size() && kit.told->labels[at]);
    const bool read = std::any_of(kit.received->readings.begin(), kit.received->readings.end(),
                                  [&](const gas_reading& r) { return r.sample == t.sample; });
    if (t.present && blown && !read && std::find(out.begin(), out.end(), t.sample) == out.end())
      out.push_back(t.sample);
  }
  return out;
}

waits_for first_lack(const kit_facts& kit, const work_line& line) {
  const received_kit& received = *kit.received;
  if (!received.stopped.empty()) return waits_for::whose;
  // A reader's words end the work, whatever was not measured, until something comes after them.
  if (!received.conclusions.empty()) return line.again ? waits_for::review : waits_for::nothing;
  if (!received.arrivals.empty() && received.tubes.empty()) return waits_for::tubes;
  if (kit.told == nullptr) return waits_for::record;
  if (received.readings.empty() || !line.unread.empty()) return waits_for::readings;
  return line.to_review > 0 ? waits_for::review : waits_for::conclusion;
}

} // namespace

bool works_on(const lab_profile& lab, civil_date day) {
  const auto weekday = static_cast<int>(weekday_of(day).iso_encoding());
  const auto& closed = lab.receiving.closed_days;
  return lab.working_days.count(weekday) != 0 &&
         std::find(closed.begin(), closed.end(), day) == closed.end();
}

civil_date due_on(const lab_profile& lab, civil_date arrived) {
  // A profile has one working day a week at least; closed days are bounded in number.
  civil_date day = arrived;
  for (int left = lab.analysis_working_days; left > 0;) {
    day = plus_days(day, std::chrono::days{1});
    if (works_on(lab, day)) --left;
  }
  return day;
}

const char* waits_text(waits_for w) {
  switch (w) {
  case waits_for::whose: return "whose";
  case waits_for::tubes: return "tubes";
  case waits_for::record: return "record";
  case waits_for::readings: return "readings";
  case waits_for::review: return "review";
  case waits_for::conclusion: return "conclusion";
  case waits_for::nothing: return "nothing";
  }
  QB_BELIEVE(false);
  return "";
}

work_line work_line_of(const kit_facts& kit, const lab_profile& lab, const zone& place) {
  work_line out;
  out.kit = kit.received->kit;
  out.test = kit.received->test;
  if (kit.told != nullptr) out.protocol = kit.told->protocol;
  if (!kit.received->arrivals.empty()) {
    // The first arrival starts the days; a later entry of the same box only puts it right.
    const arrival& first = kit.received->arrivals.front();
    const arrival& last = kit.received->arrivals.back();
    if (out.protocol.empty()) out.protocol = last.protocol;
    out.arrived = date_of(place.civil_at(std::min(first.at, last.at)));
    out.due = due_on(lab, *out.arrived);
  }
  out.unread = unread_tubes(kit);
  out.to_review = reviews_of(kit);
  out.review_rules = review_rules_of(kit);
  out.again = !kit.since.empty();
  // Nobody said which counts: then the finding is more than a note (core/report/provenance.hpp).
  out.log_differs =
      std::any_of(kit.findings.begin(), kit.findings.end(), [](const case_finding& f) {
        return f.what.rule == "log-differs" && f.what.weight != consequence::note && f.stands();
      });
  out.what = first_lack(kit, out);
  if (out.what != waits_for::nothing) out.at_once = names_at_once(kit);
  return out;
}

void sort_work(std::vector<work_line>& lines) {
  const auto key = [](const work_line& l) {
    const auto day = l.arrived ? std::chrono::sys_days{*l.arrived} : std::chrono::sys_days::max();
    return std::make_tuple(l.at_once.empty(), day, l.kit, l.test);
  };
  std::sort(lines.begin(), lines.end(),
            [&](const work_line& a, const work_line& b) { return key(a) < key(b); });
}

std::vector<receiving_finding> check_readings(const received_kit& kit) {
  std::vector<receiving_finding> out;
  for (const counted_reading& c : counted_readings(kit)) {
    const int n = c.reading.sample;
    if (c.several && !c.chosen)
      out.push_back({"reading-twice",
                     consequence::review,
                     {n},
                     {n},
                     fmt::format("tube {} was read more than once; nobody chose between the "
                                 "readings, and the first counts",
                                 n)});
    const auto here = [&](const received_tube& t) { return t.sample == n && t.present; };
    if (!kit.tubes.empty() && std::none_of(kit.tubes.begin(), kit.tubes.end(), here))
      out.push_back({"reading-no-tube",
                     consequence::review,
                     {n},
                     {n},
                     fmt::format("tube {} has a reading, and is not in the box", n)});
  }
  return out;
}

} // namespace qb::inline cases
