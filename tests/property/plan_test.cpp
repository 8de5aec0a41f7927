// Plans and zones at random: what is computed against what is tried out.
// The trying is slow and plain on purpose.
#include "core/plan/plan.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

const std::vector<std::string>& places() {
  static const std::vector<std::string> all{
      "Europe/London",     "America/New_York",  "Australia/Lord_Howe",
      "Asia/Beirut",       "America/Havana",    "Pacific/Apia",
      "America/Sao_Paulo", "Asia/Kathmandu",    "Pacific/Chatham",
      "America/St_Johns",  "Africa/Casablanca", "America/Asuncion",
      "Asia/Gaza",         "Antarctica/Troll",  "Etc/UTC"};
  return all;
}

rc::Gen<instant> instants(const char* from, const char* to) {
  return rc::gen::resize(
      rc::kNominalSize,
      rc::gen::map(rc::gen::inRange<std::int64_t>(to_unix_ms(utc(from)) / 60000,
                                                  to_unix_ms(utc(to)) / 60000),
                   [](std::int64_t minutes) { return from_unix_ms(minutes * 60000); }));
}

const zone& any_zone() {
  return zone_named(*rc::gen::elementOf(places()));
}

} // namespace

TEST_CASE("in every plan hours are elapsed and days are calendar days") {
  CHECK(rc::check("a plan of any start", [] {
    const zone& z = any_zone();
    const instant start = *instants("1971-01-01T00:00:00Z", "2100-01-01T00:00:00Z");
    const plan p = make_plan(lactulose(), start, z).value();
    for (std::size_t i = 0; i < p.windows.size(); ++i) {
      RC_ASSERT(start - p.windows[i].from == lactulose().windows[i].from);
      RC_ASSERT(start - p.windows[i].until == lactulose().windows[i].until);
    }
    for (std::size_t i = 0; i < p.samples.size(); ++i)
      RC_ASSERT(p.samples[i].due - start == 15min * static_cast<int>(i));
    const auto day = std::chrono::local_days{date_of(z.civil_at(start))};
    for (std::size_t i = 0; i < p.washouts.size(); ++i)
      RC_ASSERT(day - std::chrono::local_days{p.washouts[i].last_dose_on_or_before} ==
                lactulose().washouts[i].days);
    RC_ASSERT(std::chrono::local_days{p.post_on_or_before} -
                  std::chrono::local_days{date_of(z.civil_at(p.ends))} ==
              lactulose().post_within);
  }));
}

TEST_CASE("what a clock shows at an instant always means that instant again") {
  CHECK(rc::check("there and back", [] {
    const zone& z = any_zone();
    const instant t = *instants("1971-01-01T00:00:00Z", "2100-01-01T00:00:00Z");
    RC_PRE(z.offset_at(t) == std::chrono::floor<std::chrono::minutes>(z.offset_at(t)));
    const civil_meaning m = z.meaning_of(z.civil_at(t));
    if (const auto* one = std::get_if<unique_time>(&m)) {
      RC_ASSERT(one->at == t);
    } else {
      const auto& two = std::get<twofold_time>(m);
      RC_ASSERT(two.first < two.second);
      RC_ASSERT(two.first == t || two.second == t);
    }
  }));
}

TEST_CASE("every minute of a civil day has a meaning that fits what clocks show") {
  CHECK(rc::check("civil minutes", [] {
    const zone& z = any_zone();
    const civil_time t = z.civil_at(*instants("1985-01-01T00:00:00Z", "2090-01-01T00:00:00Z")) +
                         std::chrono::minutes{*rc::gen::inRange(-1440, 1440)};
    const civil_meaning m = z.meaning_of(t);
    if (const auto* one = std::get_if<unique_time>(&m)) {
      RC_ASSERT(z.civil_at(one->at) == t);
    } else if (const auto* two = std::get_if<twofold_time>(&m)) {
      RC_ASSERT(z.civil_at(two->first) == t);
      RC_ASSERT(z.civil_at(two->second) == t);
    } else {
      const auto& none = std::get<missing_time>(m);
      RC_ASSERT(none.before < t);
      RC_ASSERT(t < none.after);
      RC_ASSERT(z.civil_at(none.jump) == none.after);
      RC_ASSERT(z.civil_at(none.jump - 1s) == none.before);
    }
  }));
}
