// A box's tubes against the record: each rule by itself, and a box with nothing amiss.
#include "core/receiving/tubes.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace qb;
using std::chrono::days;
using std::chrono::minutes;

namespace {

constexpr box_terms terms{minutes{1}, days{14}, days{5}};

civil_date day(const char* text) {
  return parse_date(text).value();
}

day_minute time(const char* text) {
  return read_day_minute(text).value();
}

// Four tubes of a test on 6 April, arrived on 9 April, all as it should be.
struct box {
  received_kit kit;
  recorded_tubes told;

  box() {
    told = {"lactulose-10g",
            {time("07:30"), time("07:45"), time("08:00"), time("08:15")},
            day("2027-04-06")};
    arrival a;
    a.at = parse_rfc3339_utc("2027-04-09T09:40:00Z").value();
    a.identifiers = stated::yes;
    a.protocol = "lactulose-10g";
    kit.arrivals = {a};
    for (int n = 1; n <= 4; ++n) {
      received_tube t;
      t.sample = n;
      kit.tubes.push_back(t);
    }
  }
  received_tube& tube(int n) { return kit.tubes.at(static_cast<std::size_t>(n - 1)); }
  arrival& came() { return kit.arrivals.back(); }

  [[nodiscard]] std::vector<receiving_finding> check() const {
    return check_box(kit, &told, terms, zone::fixed("Europe/London", std::chrono::seconds{3600}));
  }
  // "rule:tubes" of each.
  [[nodiscard]] std::vector<std::string> rules() const {
    std::vector<std::string> out;
    for (const receiving_finding& f : check()) {
      std::string one = f.rule;
      for (const int n : f.samples)
        one += ":" + std::to_string(n);
      out.push_back(one);
    }
    return out;
  }
};

using rules = std::vector<std::string>;

} // namespace

TEST_CASE("a box as it should be has nothing against it; no box has nothing either") {
  CHECK(box().rules().empty());
  box b;
  b.kit.arrivals.clear();
  CHECK(b.rules().empty());
}

TEST_CASE("a tube that was blown and is not there is missing; one that was not blown is no loss") {
  box b;
  b.tube(2).present = false;
  b.tube(3).present = false;
  b.told.labels[2].reset();
  CHECK(b.rules() == rules{"tube-missing:2"});
}

TEST_CASE("a tube of a missed sample, and one beyond the test, are extra") {
  box b;
  b.told.labels[2].reset();
  b.kit.tubes.push_back({});
  b.kit.tubes.back().sample = 11;
  CHECK(b.rules() == rules{"tube-extra:3", "tube-extra:11"});
}

TEST_CASE("two tubes of one number are told once") {
  box b;
  b.kit.tubes.push_back(b.tube(2));
  CHECK(b.rules() == rules{"tube-twice:2"});
}

TEST_CASE("a bad lid is told") {
  box b;
  b.tube(4).lid = lid_state::bad;
  CHECK(b.rules() == rules{"lid-bad:4"});
}

TEST_CASE("a label may be a minute off, either way and over midnight, and no more") {
  box b;
  b.tube(2).label = time("07:44");
  b.tube(3).label = time("08:01");
  CHECK(b.rules().empty());
  b.tube(3).label = time("08:02");
  CHECK(b.rules() == rules{"label-differs:3"});
  CHECK(b.check()[0].figures == std::vector<std::int64_t>{3, 2});
  b.told.labels = {time("23:59"), time("00:14"), time("00:29"), time("00:44")};
  b.tube(1).label = time("00:00");
  b.tube(2).label.reset();
  b.tube(3).label.reset();
  CHECK(b.rules().empty());
}

TEST_CASE("labels that would agree if they were exchanged are a swapped pair, and no two others") {
  box b;
  b.tube(2).label = time("08:00");
  b.tube(3).label = time("07:46");
  CHECK(b.rules() == rules{"labels-swapped:2:3"});
  b.tube(3).label = time("07:50");
  CHECK(b.rules() == rules{"label-differs:2", "label-differs:3"});
}

TEST_CASE("three labels in a ring are three that differ, not a pair") {
  box b;
  b.tube(1).label = time("07:45");
  b.tube(2).label = time("08:00");
  b.tube(3).label = time("07:30");
  CHECK(b.rules() == rules{"label-differs:1", "label-differs:2", "label-differs:3"});
}

TEST_CASE("identifiers that differ, or that nobody compared, ask for a look") {
  box b;
  b.came().identifiers = stated::no;
  CHECK(b.rules() == rules{"identifiers-differ"});
  b.came().identifiers = stated::not_stated;
  CHECK(b.rules() == rules{"identifiers-open"});
}

TEST_CASE("a box of another test than its record is told") {
  box b;
  b.came().protocol = "glucose-75g";
  CHECK(b.rules() == rules{"kit-other-test"});
}

TEST_CASE("posting and way are counted in days; the last allowed day is still good") {
  box b;
  b.came().posted = day("2027-04-20");                             // 14 days after
  b.came().at = parse_rfc3339_utc("2027-04-25T09:00:00Z").value(); // 5 days on the way
  CHECK(b.rules().empty());
  b.came().at = parse_rfc3339_utc("2027-04-26T09:00:00Z").value();
  CHECK(b.rules() == rules{"transit-long"});
  b.came().posted = day("2027-04-21");
  CHECK(b.rules() == rules{"posted-late"});
  CHECK(b.check()[0].figures == std::vector<std::int64_t>{15, 14});
}

TEST_CASE("without a postmark only what both together cannot allow is told") {
  box b;
  b.came().at = parse_rfc3339_utc("2027-04-25T22:00:00Z").value(); // 19 days, in London's day
  CHECK(b.rules().empty());
  b.came().at = parse_rfc3339_utc("2027-04-25T23:00:00Z").value(); // the 26th in London
  CHECK(b.rules() == rules{"late-or-long"});
}

TEST_CASE("a box that came before the test cannot be") {
  box b;
  b.came().at = parse_rfc3339_utc("2027-04-05T09:00:00Z").value();
  CHECK(b.rules() == rules{"arrived-before"});
}

TEST_CASE("what the sheet says of stopping is a note, and nothing is held against no record") {
  box b;
  b.came().stopped = stated::yes;
  b.came().completed = stated::no;
  const auto found = check_box(b.kit, nullptr, terms, zone::fixed("UTC", std::chrono::seconds{0}));
  REQUIRE(found.size() == 2);
  CHECK(found[0].rule == "stopped-told");
  CHECK(found[1].rule == "not-completed");
  CHECK(found[0].weight == consequence::note);
}

TEST_CASE("as findings, a swapped pair is one for each tube, an impossible number none's") {
  box b;
  b.tube(2).label = time("08:00");
  b.tube(3).label = time("07:46");
  b.kit.tubes.push_back({});
  b.kit.tubes.back().sample = 99;
  const auto all = as_findings(b.check());
  REQUIRE(all.size() == 3);
  CHECK_FALSE(all[0].sample); // tube 99 is no sample
  CHECK(all[1].sample == sample_number(2));
  CHECK(all[2].sample == sample_number(3));
}
