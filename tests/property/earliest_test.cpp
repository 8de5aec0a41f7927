// The earliest start by intervals against the earliest start by trying every minute, in zones whose
// clocks do something just then.
#include "tests/support/scripted_test.hpp"
#include "tests/support/tried_starts.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

using std::chrono::days;
using std::chrono::minutes;

constexpr days tried_ahead{36}; // a washout of four weeks and a week for the rest

struct tally {
  long cases = 0, starts = 0, found = 0, none = 0, near_change = 0, compared = 0;
};
tally& counted() {
  static tally all;
  return all;
}

int any(int least, int most) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(least, most + 1));
}
bool one_in(int n) {
  return any(1, n) == 1;
}

// Half an hour, two hours, midnight jumped over or shown twice, a skipped day, one minute past
// midnight, a rule given up, none at all.
const std::vector<const char*>& places() {
  static const std::vector<const char*> all{
      "Europe/London",     "America/New_York",  "Australia/Lord_Howe",
      "Asia/Beirut",       "America/Havana",    "Pacific/Apia",
      "America/Sao_Paulo", "Asia/Kathmandu",    "Pacific/Chatham",
      "America/St_Johns",  "Africa/Casablanca", "America/Asuncion",
      "Asia/Gaza",         "Antarctica/Troll",  "America/Nuuk",
      "Africa/Cairo",      "Atlantic/Azores",   "America/Goose_Bay",
      "Pacific/Kwajalein", "Asia/Amman",        "America/Santiago",
      "Asia/Pyongyang",    "Etc/UTC",           "America/Scoresbysund",
      "Pacific/Tongatapu", "Asia/Tehran"};
  return all;
}

// A minute: around a change of the zone's clocks where there is one in the year that comes up.
instant minute_near_change(const zone& z) {
  const instant year = utc("1990-01-01T00:00:00Z") + days{any(0, 47) * 365};
  std::vector<instant> changes;
  for (instant t = year; t < year + days{365}; t += days{1}) {
    if (z.offset_at(t) != z.offset_at(t + days{1})) changes.push_back(t);
  }
  if (z.name() == "Pacific/Apia" && one_in(2)) changes = {utc("2011-12-30T00:00:00Z")};
  if (changes.empty()) return year + minutes{any(0, 365 * 1440)};
  ++counted().near_change;
  const auto which = static_cast<std::size_t>(any(0, static_cast<int>(changes.size()) - 1));
  return changes[which] + minutes{any(-30 * 1440, 2 * 1440)};
}

day_hours any_hours() {
  static const std::vector<int> usual{0, 30, 60, 90, 120, 360, 420, 780, 1320, 1380, 1410, 1439};
  const auto from = [&] {
    return one_in(2) ? usual[static_cast<std::size_t>(any(0, 11))] : any(0, 1439);
  };
  day_hours h{minutes{from()}, minutes{one_in(3) ? 1440 : from()}};
  if (one_in(3)) h = {minutes{0}, minutes{1440}};
  return h;
}

// The shipped test, shorter or longer, with a night of any length before it or none.
protocol any_protocol() {
  protocol p = one_in(2) ? lactulose() : glucose();
  if (one_in(3)) p.offsets.back() = minutes{any(1, 600)} + p.offsets[p.offsets.size() - 2];
  for (preparation_window& w : p.windows) {
    if (one_in(4)) w.from = w.until + minutes{any(1, 1500)};
  }
  if (one_in(4))
    p.windows.erase(p.windows.begin() + any(0, static_cast<int>(p.windows.size()) - 1));
  for (washout& w : p.washouts) {
    if (one_in(4)) w.days = days{any(1, 28)};
  }
  return p;
}

void tell_washouts(circumstances& c, const protocol& p, civil_date today) {
  for (const washout& w : p.washouts) {
    if (!one_in(3)) continue;
    answered_washout t;
    t.rule = w.why.rule;
    t.answer = one_in(2) ? washout_answer::last_on : washout_answer::until;
    t.on = plus_days(today, days{any(-30, 3)});
    if (one_in(12)) t.answer = static_cast<washout_answer>(any(0, 4));
    if (t.answer == washout_answer::never || t.answer >= washout_answer::cannot_stop) t.on.reset();
    t.agreed = one_in(6) || (t.answer >= washout_answer::cannot_stop && !one_in(3));
    c.washouts.push_back(t);
  }
  if (one_in(8)) c.washouts.push_back({"no-such-rule", washout_answer::unknown, {}, false});
}

circumstances any_circumstances(const protocol& p, instant now, const zone& z) {
  circumstances c;
  const civil_date today = date_of(z.civil_at(now));
  tell_washouts(c, p, today);
  const bool all_kept = one_in(6);
  for (const preparation_window& w : p.windows) {
    if (all_kept)
      c.moments.push_back({w.why.rule, now - w.from - minutes{any(0, 100)}});
    else
      while (one_in(3))
        c.moments.push_back({w.why.rule, now + minutes{any(-1500, 300)}});
  }
  for (int n = one_in(2) ? any(1, 3) : 0; n > 0; --n) {
    home_hours h{{}, any_hours()};
    for (int day = 1; day <= 7; ++day) {
      if (one_in(2)) h.weekdays.insert(day);
    }
    c.home.push_back(h);
  }
  for (int n = one_in(3) ? any(1, 12) : 0; n > 0; --n)
    c.away.push_back(plus_days(today, days{any(-1, 20)}));
  if (one_in(2)) c.awake = any_hours();
  if (one_in(3)) c.kit_expires = plus_days(today, days{any(-1, 34)});
  return c;
}

bool among(const std::vector<broken_rule>& broken, const std::string& rule) {
  return std::any_of(broken.begin(), broken.end(),
                     [&](const broken_rule& b) { return b.rule == rule; });
}

// That the rules named are those which trying finds broken, and each by as much as it says.
void compare_broken(const tried_starts& tried, const protocol& p, const circumstances& c,
                    instant start, instant now, const zone& z) {
  const auto broken = rules_broken(p, c, start, now, z);
  ++counted().compared;
  RC_ASSERT(broken.empty() == tried.works(start));
  std::vector<std::string> rules{"now", "home", "awake-hours", "kit-expiry"};
  for (const preparation_window& w : p.windows)
    rules.push_back(w.why.rule);
  for (const washout& w : p.washouts)
    rules.push_back(w.why.rule);
  for (const std::string& rule : rules)
    RC_ASSERT(among(broken, rule) != tried.keeps_rule(rule, start));
  for (const broken_rule& b : broken) {
    if (!b.later_by || *b.later_by > days{6}) continue;
    RC_ASSERT(tried.keeps_rule(b.rule, start + *b.later_by));
    for (const duration less : {minutes{1}, minutes{61}, minutes{600}}) {
      if (less <= *b.later_by) RC_ASSERT(!tried.keeps_rule(b.rule, start + *b.later_by - less));
    }
  }
}

// Where the cases are few, in the tree with sanitizers, a start takes three hundred times as long
// as without them: so many are enough to walk every line there, and one that is found.
constexpr int enough_with_sanitizers = 5000;

void compare_once() {
  const bool few = std::getenv("QB_CASES") != nullptr;
  if (few && counted().found > 0 && counted().starts >= enough_with_sanitizers) return;
  const zone& z =
      zone_named(places()[static_cast<std::size_t>(any(0, static_cast<int>(places().size()) - 1))]);
  const protocol p = any_protocol();
  const instant now = minute_near_change(z);
  const circumstances c = any_circumstances(p, now, z);
  const tried_starts tried(p, c, now, z, now - days{4}, now + tried_ahead + days{12});
  const earliest_start first = find_earliest(p, c, now, z);
  const auto expected = [&] {
    for (instant s = now; s < now + tried_ahead; s += minutes{1}) {
      ++tried.tried;
      if (tried.works(s)) return std::optional<instant>(s);
    }
    return std::optional<instant>();
  }();
  ++counted().cases;
  counted().starts += tried.tried;
  ++(expected ? counted().found : counted().none);
  if (expected)
    RC_ASSERT(first.at == expected);
  else
    RC_ASSERT(!first.at || *first.at >= now + tried_ahead);
  if (first.at) RC_ASSERT(rules_broken(p, c, *first.at, now, z).empty());
  if (first.at && *first.at > now && expected) {
    const auto before = rules_broken(p, c, *first.at - minutes{1}, now, z);
    RC_ASSERT(among(before, first.binding_rule));
    compare_broken(tried, p, c, *first.at - minutes{1}, now, z);
  }
  for (int n = 0; n < 6; ++n)
    compare_broken(tried, p, c, now + minutes{any(-1440, 30 * 1440)}, now, z);
}

} // namespace

TEST_CASE("the earliest start by intervals is the one that trying every minute finds") {
  CHECK(rc::check("earliest start against stepping", compare_once));
  const tally& n = counted();
  std::cout << "earliest start: " << n.cases << " cases (" << n.near_change
            << " around a change of clocks), " << n.found << " with a start and " << n.none
            << " without, " << n.starts << " starts tried, " << n.compared
            << " starts compared rule by rule\n";
  CHECK(n.found + n.none == n.cases);
  CHECK(n.found > 0);
}
