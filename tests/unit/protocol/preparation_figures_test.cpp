// The figures of preparation in the shipped tests: what is asked, the least, and whose figures.
// They are the same in all five, and each is held against the source its rule names.
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

using days = std::chrono::days;

// One window in all five: its span before the start, its least, and both sources.
void check_window(const std::string& rule, std::chrono::minutes from, std::chrono::minutes until,
                  std::chrono::minutes least, const char* source, const char* least_source) {
  for (const std::string& id : shipped_ids()) {
    INFO(id << " " << rule);
    const preparation_window& w = window_in(id, rule);
    CHECK(w.from == from);
    CHECK(w.until == until);
    CHECK(w.least == least);
    CHECK(w.why.source == source);
    CHECK(w.least_source == least_source);
  }
}

void check_washout(const std::string& rule, washout_kind kind, days asked, days least,
                   const char* source, const char* least_source) {
  for (const std::string& id : shipped_ids()) {
    INFO(id << " " << rule);
    const washout& w = washout_in(id, rule);
    CHECK(w.kind == kind);
    CHECK(w.days == asked);
    CHECK(w.least == least);
    CHECK(w.why.source == source);
    CHECK(w.least_source == least_source);
  }
}

void check_holding(const std::string& rule, const char* source, const char* says) {
  for (const std::string& id : shipped_ids()) {
    INFO(id << " " << rule);
    CHECK(holding_in(id, rule).why.source == source);
    CHECK(contains(holding_in(id, rule).text, says));
  }
}

} // namespace

TEST_CASE("fast: asked 12 h (NHS 8611), least 8 h (NAC 2017 T1)") {
  check_window("fast", 12h, 0min, 8h, "nhs-8611", "nac-2017-t1");
  for (const std::string& id : shipped_ids()) {
    const preparation_window& w = window_in(id, "fast");
    CHECK(w.eat == std::vector<std::string>{}); // nothing may be eaten
    CHECK(w.drink == std::vector<std::string>{"Water"});
    CHECK(contains(w.text, "Take your medicines as prescribed"));
    CHECK(basis_of(id, "nhs-8611") == "read");
    CHECK(basis_of(id, "nac-2017-t1") == "read");
  }
}

TEST_CASE("plain-diet: asked the 12 h before the fast (common practice), least 8 h "
          "(laboratory's choice)") {
  check_window("plain-diet", 24h, 12h, 8h, "kit-practice", "laboratory-choice");
  for (const std::string& id : shipped_ids()) {
    const preparation_window& w = window_in(id, "plain-diet");
    REQUIRE(w.eat.has_value());
    CHECK(w.eat->size() == 7); // common practice: bread, rice, meat, white fish, eggs, fat, salt
    CHECK(contains(w.eat->at(3), "not oily"));
    REQUIRE(w.drink.has_value());
    CHECK(contains(w.drink->at(1), "Black tea or coffee"));
  }
}

TEST_CASE("awake: for the hour before (common practice), no least (laboratory's choice)") {
  check_window("awake", 1h, 0min, 0min, "kit-practice", "laboratory-choice");
}

TEST_CASE("last-hour: no smoking, gum or exercise for 60 min (common practice), least 15 min, "
          "in which hydrogen settles after a cigarette (SMO 1983)") {
  check_window("last-hour", 1h, 0min, 15min, "kit-practice", "smoking-1983");
  for (const std::string& id : shipped_ids()) {
    REQUIRE(window_in(id, "last-hour").subjects.size() == 3);
    CHECK(window_in(id, "last-hour").subjects[0].id == "cigarette");
    CHECK(window_in(id, "last-hour").subjects[1].id == "gum");
    CHECK(window_in(id, "last-hour").subjects[2].id == "exercise");
  }
}

TEST_CASE("antibiotics: 28 days, finished as prescribed and never stopped for it "
          "(NAC 2017 T1)") {
  check_washout("antibiotics", washout_kind::course, days{28}, days{28}, "nac-2017-t1",
                "nac-2017-t1");
  for (const std::string& id : shipped_ids()) {
    CHECK(contains(washout_in(id, "antibiotics").text, "finish it as prescribed"));
    CHECK(contains(washout_in(id, "antibiotics").text, "Never stop it"));
  }
}

TEST_CASE("laxatives: 7 days, if the prescriber agrees (NAC 2017 T1)") {
  check_washout("laxatives", washout_kind::medicine, days{7}, days{7}, "nac-2017-t1",
                "nac-2017-t1");
}

TEST_CASE("prokinetics: 7 days, if the prescriber agrees (NAC 2017 T1)") {
  check_washout("prokinetics", washout_kind::medicine, days{7}, days{7}, "nac-2017-t1",
                "nac-2017-t1");
}

TEST_CASE("anti-diarrhoeals: 48 hours, counted as 2 days (NHS PL1058)") {
  check_washout("anti-diarrhoeals", washout_kind::medicine, days{2}, days{2}, "nhs-pl1058",
                "nhs-pl1058");
}

TEST_CASE("bowel-cleansing: asked 14 days (EU 2022, from memory), least 7 days (NHS PL1058)") {
  check_washout("bowel-cleansing", washout_kind::happening, days{14}, days{7}, "eu-2022",
                "nhs-pl1058");
  for (const std::string& id : shipped_ids()) {
    CHECK(basis_of(id, "eu-2022") == "memory");
    CHECK(contains(find_source(shipped(id), "eu-2022")->citation, "from memory"));
  }
}

TEST_CASE("colonoscopy: as the cleansing that comes with it, asked 14 days (EU 2022, from "
          "memory), least 7 days (NHS PL1058)") {
  check_washout("colonoscopy", washout_kind::happening, days{14}, days{7}, "eu-2022", "nhs-pl1058");
}

TEST_CASE("earlier-breath-test: 7 days (from memory, the laboratory's to change)") {
  check_washout("earlier-breath-test", washout_kind::happening, days{7}, days{7}, "cautions-memory",
                "cautions-memory");
}

TEST_CASE("no-food: nothing is eaten from the first tube to the last (common practice)") {
  check_holding("no-food", "kit-practice", "No food");
}

TEST_CASE("no-smoking: none on the day (NAC 2017 T1)") {
  check_holding("no-smoking", "nac-2017-t1", "No smoking");
}

TEST_CASE("no-gum: none during the test (common practice)") {
  check_holding("no-gum", "kit-practice", "No chewing gum");
}

TEST_CASE("no-exercise: activity is limited during the test (NAC 2017 T1)") {
  check_holding("no-exercise", "nac-2017-t1", "No exercise");
}

TEST_CASE("no-sleep: awake during the test (common practice)") {
  check_holding("no-sleep", "kit-practice", "stay awake");
}

TEST_CASE("medicines-go-on: essential medicines as prescribed (common practice)") {
  check_holding("medicines-go-on", "kit-practice", "as prescribed");
}
