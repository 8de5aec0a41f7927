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

std::vector<std::string> subjects_of(const std::string& id, const std::string& rule) {
  std::vector<std::string> out;
  for (const slip_subject& s : window_in(id, rule).subjects)
    out.push_back(s.id);
  return out;
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
    CHECK(contains(w.text, "no gum, mints or cough syrup"));
    CHECK(contains(w.text, "Take your medicines as prescribed, or as told for this test"));
    CHECK(subjects_of(id, "fast") ==
          std::vector<std::string>{"meal", "drink", "gum", "cough-syrup"});
    CHECK(basis_of(id, "nhs-8611") == "read");
    CHECK(basis_of(id, "nac-2017-t1") == "read");
  }
}

TEST_CASE("plain-diet: asked the 12 h before the fast (common practice), least 8 h "
          "(laboratory's choice)") {
  check_window("plain-diet", 24h, 12h, 8h, "diet-practice", "laboratory-choice");
  for (const std::string& id : shipped_ids()) {
    const preparation_window& w = window_in(id, "plain-diet");
    REQUIRE(w.eat.has_value());
    CHECK(w.eat->size() == 7); // common practice: bread, rice, meat, white fish, eggs, fat, salt
    CHECK(contains(w.eat->at(3), "not oily"));
    REQUIRE(w.drink.has_value());
    CHECK(contains(w.drink->at(1), "Black tea or coffee"));
    CHECK(contains(w.text, "No alcohol or sweeteners"));
    CHECK(subjects_of(id, "plain-diet") ==
          std::vector<std::string>{"other-food", "other-drink", "alcohol", "sweetener"});
  }
}

TEST_CASE("awake: for the hour before, without exercise or mouthwash; teeth may be brushed (common "
          "practice), no least (laboratory's choice)") {
  check_window("awake", 1h, 0min, 0min, "kit-practice", "laboratory-choice");
  for (const std::string& id : shipped_ids()) {
    CHECK(contains(window_in(id, "awake").text, "You may brush your teeth. Rinse with water"));
    CHECK(subjects_of(id, "awake") ==
          std::vector<std::string>{"sleep", "exercise", "mouthwash", "scent", "denture-paste"});
  }
}

TEST_CASE("smoke-free: no smoking or vaping for 12 h, the evening before too (NAC 2017 T1), least "
          "15 min, "
          "in which hydrogen settles after a cigarette (SMO 1983)") {
  check_window("smoke-free", 12h, 0min, 15min, "nac-2017-t1", "smoking-1983");
  for (const std::string& id : shipped_ids()) {
    CHECK(subjects_of(id, "smoke-free") == std::vector<std::string>{"cigarette", "vape"});
    CHECK(contains(window_in(id, "smoke-free").text, "the evening before")); // as its 12 h reach
  }
}

TEST_CASE("antibiotics: 28 days, finished as prescribed and never stopped for it "
          "(NAC 2017 T1)") {
  check_washout("antibiotics", washout_kind::course, days{28}, days{28}, "nac-2017-t1",
                "nac-2017-t1");
  for (const std::string& id : shipped_ids()) {
    CHECK(contains(washout_in(id, "antibiotics").text, "Finish it as prescribed"));
    CHECK(contains(washout_in(id, "antibiotics").text, "Never stop it"));
  }
}

TEST_CASE("laxatives: 7 days, if the prescriber agrees (NAC 2017 T1), water tablets are none") {
  check_washout("laxatives", washout_kind::medicine, days{7}, days{7}, "nac-2017-t1",
                "nac-2017-t1");
  for (const std::string& id : shipped_ids())
    CHECK(contains(washout_in(id, "laxatives").which, "Water tablets do not count"));
}

TEST_CASE("softeners-and-fibre: asked 7 days (NHS PL1058), least 1 day (clinic leaflets)") {
  check_washout("softeners-and-fibre", washout_kind::medicine, days{7}, days{1}, "nhs-pl1058",
                "clinic-leaflets");
}

TEST_CASE("probiotics: asked 7 days (NHS PL1058), no least, since there was no consensus "
          "(NAC 2017 T1)") {
  check_washout("probiotics", washout_kind::medicine, days{7}, days{0}, "nhs-pl1058",
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

TEST_CASE("bowel-cleansing: asked 14 days (EU 2022, as quoted), least 7 days (NHS PL1058)") {
  check_washout("bowel-cleansing", washout_kind::happening, days{14}, days{7}, "eu-2022",
                "nhs-pl1058");
  for (const std::string& id : shipped_ids()) {
    CHECK(basis_of(id, "eu-2022") == "read");
    CHECK(contains(find_source(shipped(id), "eu-2022")->citation, "not in the original"));
  }
}

TEST_CASE("colonoscopy: as the cleansing that comes with it, asked 14 days (EU 2022, as "
          "quoted), least 7 days (NHS PL1058)") {
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
  check_holding("no-smoking", "nac-2017-t1", "No smoking or vaping");
}

TEST_CASE("no-gum: no gum, mints or mouthwash during the test (clinic leaflets)") {
  check_holding("no-gum", "clinic-leaflets", "No gum, mints or mouthwash");
}

TEST_CASE("no-scent: no scent, hand gel or denture paste near the tubes (clinic leaflets)") {
  check_holding("no-scent", "clinic-leaflets", "No scent, hand gel or denture paste");
}

TEST_CASE("acid-tablets-go-on: they need not be left out (NAC 2017 T1)") {
  check_holding("acid-tablets-go-on", "nac-2017-t1", "are allowed");
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
