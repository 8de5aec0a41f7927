// What a bundle says of a test: each resource against the events it is made of.
#include "tests/support/scripted_test.hpp"
#include "tests/unit/fhir/made_bundle.hpp"

namespace qb::fhir {

namespace {

using Catch::Contains;
using std::chrono::minutes;
using std::chrono::seconds;

std::string at(const json::value& v, const std::string& path) {
  return read_bundle::at(v, path);
}

read_bundle bundle_of(const std::vector<event>& events, const bundle_choices& choices = {}) {
  return read_bundle(try_bundle(log_of(events), choices).value());
}

bool is_tube(const event& e, int n) {
  const auto* closed = std::get_if<tube_closed>(&e.what);
  return closed != nullptr && closed->sample == sample_number(n);
}

std::int64_t closing_of(const std::vector<event>& events, int n) {
  for (const event& e : events)
    if (is_tube(e, n)) return e.seq;
  FAIL("no closing of tube " << n);
  return 0;
}

std::int64_t scores_of_tube(const std::vector<event>& events, int n) {
  for (const event& e : events) {
    const auto* told = std::get_if<reported_symptoms>(&e.what);
    if (told != nullptr && told->sample == sample_number(n)) return e.seq;
  }
  FAIL("no scores of tube " << n);
  return 0;
}

template <typename Payload>
Payload& fact(std::vector<event>& events, std::int64_t seq) {
  return std::get<Payload>(events.at(static_cast<std::size_t>(seq - 1)).what);
}

// The question's item, wherever it stands; fails where there is none.
const json::value& item(const json::value& from, const std::string& link) {
  const json::value* found = nullptr;
  const std::function<void(const json::value&)> look = [&](const json::value& v) {
    if (v.items() != nullptr)
      for (const json::value& one : *v.items())
        look(one);
    if (v.members() == nullptr) return;
    if (at(v, "linkId") == link) found = &v;
    for (const auto& [key, inner] : *v.members())
      look(inner);
  };
  look(from);
  if (found == nullptr) FAIL("no item " << link);
  return *found;
}

} // namespace

TEST_CASE("a clean test is ten specimens at their times, in the zone of the test") {
  const read_bundle b = bundle_of(make_events());
  REQUIRE(b.all("Specimen").size() == 10);
  const json::value& tube = b.named("Specimen", "4");
  CHECK(at(tube, "collection.collectedDateTime") == "2027-04-06T08:15:12+01:00");
  CHECK(at(tube, "type.coding.0.code") == "119336008");
  CHECK(at(tube, "container.0.identifier.0.value") == at(tube, "identifier.0.value"));
  CHECK(at(tube, "container.0.identifier.1.system") == "https://quarterbreath.invalid/kit");
  CHECK(at(tube, "container.0.identifier.1.value") == "FV-3001");
  CHECK(at(tube, "status") == "-");
  CHECK_THAT(read_bundle::notes(tube),
             Contains("pressed on the device") && Contains("Due at 2027-04-06T08:15:00+01:00; "
                                                           "closed 12 s after that."));
  CHECK_THAT(read_bundle::notes(b.named("Specimen", "2")), Contains("Comment: a little wind"));
  CHECK(at(b.whole(), "type") == "collection");
  CHECK(at(b.whole(), "meta.tag.0.code") == "for-trying"); // the log's laboratory is invented
}

TEST_CASE("each symptom of each sample is one observation, and 0 is a score") {
  const read_bundle b = bundle_of(make_events());
  CHECK(b.all("Observation").size() == 30);
  const json::value& one = b.named("Observation", "4/nausea");
  CHECK(at(one, "valueInteger") == "3");
  CHECK(at(one, "status") == "final");
  CHECK(at(one, "code.coding.0.code") == "422587007");
  CHECK(at(one, "code.text") == "Feeling sick, scored from 0 to 10");
  CHECK(at(one, "effectiveDateTime") == "2027-04-06T08:15:02+01:00");
  CHECK(at(one, "specimen.reference") == "urn:uuid:" + at(b.named("Specimen", "4"), "id"));
  CHECK(at(one, "device.reference") == "urn:uuid:" + at(*b.all("Device").at(0), "id"));
  CHECK(at(b.named("Observation", "1/pain"), "valueInteger") == "0");
}

TEST_CASE("a skipped score is absent and never 0, a score put right is corrected") {
  std::vector<event> events = make_events();
  fact<reported_symptoms>(events, scores_of_tube(events, 3)).scores[1].score.reset();
  events = and_then(events, {corrected{scores_of_tube(events, 4), right_score{"bloating", 7},
                                       "read the wrong line"}});
  const read_bundle b = bundle_of(events);
  const json::value& skipped = b.named("Observation", "3/pain");
  CHECK(at(skipped, "valueInteger") == "-");
  CHECK(at(skipped, "dataAbsentReason.text") == "Skipped: asked, and not scored");
  const json::value& right = b.named("Observation", "4/bloating");
  CHECK(at(right, "status") == "corrected");
  CHECK(at(right, "valueInteger") == "7");
  CHECK_THAT(read_bundle::notes(right),
             Contains("First told as 3; then as 7 (read the wrong line)."));
  CHECK(at(b.named("Observation", "4/pain"), "status") == "final");
  REQUIRE(b.all("Provenance").size() == 2);
  CHECK(at(*b.all("Provenance").at(1), "target.0.reference") == "urn:uuid:" + at(right, "id"));
  CHECK(at(*b.all("Provenance").at(1), "reason.0.text") == "read the wrong line");
}

TEST_CASE("scores that belong to no tube have no specimen, and say when they were given") {
  qb::test::patient p;
  p.scores_after = true;
  p.through_the_tubes();
  p.score_after_the_tubes();
  const std::int64_t told = p.current().of(score_time::after_last).events.front();
  REQUIRE(p.tell(corrected{told, right_score{"bloating", 5}, "a slip"}));
  const read_bundle b = bundle_of(p.e.events());
  const json::value& one = b.named("Observation", "after-last/bloating", "test-0001");
  CHECK(at(one, "valueInteger") == "5");
  CHECK(at(one, "status") == "corrected");
  CHECK(one.find("specimen") == nullptr);
  CHECK_THAT(read_bundle::notes(one), Contains("after the last tube; belongs to no tube"));
  CHECK(at(*b.all("Provenance").back(), "target.0.reference") == "urn:uuid:" + at(one, "id"));
  const json::value& skipped = b.named("Observation", "after-last/pain", "test-0001");
  CHECK(skipped.find("valueInteger") == nullptr);
  CHECK(at(skipped, "dataAbsentReason.text") == "Skipped: asked, and not scored");
  CHECK(at(b.named("Observation", "later/bloating", "test-0001"), "valueInteger") == "7");
}

TEST_CASE("a missed tube is an unavailable specimen without a collection") {
  const auto events = only(make_events(), [](const event& e) {
    const auto* begun = std::get_if<breath_begun>(&e.what);
    const bool begins = begun != nullptr && begun->sample == sample_number(5);
    const auto* told = std::get_if<reported_symptoms>(&e.what);
    const bool scores = told != nullptr && told->sample == sample_number(5);
    return !is_tube(e, 5) && !begins && !scores;
  });
  const read_bundle b = bundle_of(events);
  const json::value& tube = b.named("Specimen", "5");
  CHECK(at(tube, "status") == "unavailable");
  CHECK(at(tube, "collection") == "-");
  CHECK_THAT(read_bundle::notes(tube), Contains("Missed") && Contains("08:30:00+01:00"));
  CHECK(b.all("Observation").size() == 27);
}

TEST_CASE("a tube's time that was put right stands with the one before it") {
  std::vector<event> events = make_events();
  const instant right = made_start() + minutes{44};
  events = and_then(events, {corrected{closing_of(events, 4), right_time{right, how_known::told},
                                       "read off the kitchen clock"}});
  const read_bundle b = bundle_of(events);
  const json::value& tube = b.named("Specimen", "4");
  CHECK(at(tube, "collection.collectedDateTime") == "2027-04-06T08:14:00+01:00");
  CHECK_THAT(read_bundle::notes(tube), Contains("the time was 2027-04-06T08:15:12+01:00") &&
                                           Contains("told afterwards, read off a clock") &&
                                           Contains("kitchen clock"));
  REQUIRE(b.all("Provenance").size() == 2);
  CHECK(at(*b.all("Provenance").at(1), "target.0.reference") == "urn:uuid:" + at(tube, "id"));
}

TEST_CASE("two tubes noted the wrong way round change places, and both say so") {
  std::vector<event> events = make_events();
  events = and_then(events, {corrected{closing_of(events, 6), right_tube{sample_number(7)},
                                       "the rack was turned"}});
  const read_bundle b = bundle_of(events);
  CHECK(at(b.named("Specimen", "6"), "collection.collectedDateTime") ==
        "2027-04-06T09:00:12+01:00");
  CHECK(at(b.named("Specimen", "7"), "collection.collectedDateTime") ==
        "2027-04-06T08:45:12+01:00");
  for (const char* name : {"6", "7"})
    CHECK_THAT(read_bundle::notes(b.named("Specimen", name)),
               Contains("tubes 6 and 7 were noted the wrong way round") &&
                   Contains("the rack was turned"));
  const json::value& score = b.named("Observation", "6/pain");
  CHECK(at(score, "valueInteger") == "2");
  CHECK(at(score, "status") == "corrected");
  CHECK_THAT(read_bundle::notes(score), Contains("exchanged together with it"));
  CHECK(at(b.named("Observation", "5/pain"), "status") == "final");
  REQUIRE(b.all("Provenance").size() == 2);
  CHECK_THAT(json::canonical(*b.all("Provenance").at(1)->find("target")),
             Contains(at(score, "id")) && Contains(at(b.named("Specimen", "7"), "id")));
}

TEST_CASE("a tube blown again has the later time, and the earlier with its reason in a note") {
  std::vector<event> events = make_events();
  events = and_then(events, {repeat_wanted{sample_number(10), "the lid was open"},
                             breath_begun{sample_number(10)}, tube_closed{sample_number(10)}});
  const read_bundle b = bundle_of(events);
  const json::value& tube = b.named("Specimen", "10");
  CHECK(at(tube, "collection.collectedDateTime") == "2027-04-06T09:48:12+01:00");
  CHECK_THAT(read_bundle::notes(tube), Contains("Closed before at 2027-04-06T09:45:12+01:00") &&
                                           Contains("the lid was open"));
}

TEST_CASE("the drink is a period with the protocol's dose, where all of it was drunk") {
  const read_bundle b = bundle_of(make_events());
  const json::value& drink = *b.all("MedicationAdministration").at(0);
  CHECK(at(drink, "status") == "completed");
  CHECK(at(drink, "effectivePeriod.start") == "2027-04-06T07:30:30+01:00");
  CHECK(at(drink, "effectivePeriod.end") == "2027-04-06T07:31:30+01:00");
  CHECK(at(drink, "dosage.dose.value") == "10");
  CHECK(at(drink, "dosage.dose.code") == "g");
  CHECK(at(drink, "medicationCodeableConcept.text") ==
        "lactulose 10 g (syrup, 15 ml), in 200 ml water");
}

TEST_CASE("of a drink that was not finished no dose is claimed; one that came up again was drunk") {
  std::vector<event> events = make_events();
  for (event& e : events)
    if (auto* ended = std::get_if<drink_ended>(&e.what)) ended->all_of_it = false;
  const read_bundle part = bundle_of(events);
  const json::value& drink = *part.all("MedicationAdministration").at(0);
  CHECK(at(drink, "status") == "stopped");
  CHECK(at(drink, "dosage") == "-");
  CHECK_THAT(at(drink, "medicationCodeableConcept.text"), Contains("10 g"));

  const read_bundle up = bundle_of(and_then(
      make_events(),
      {reported_drink_trouble{drink_mishap::vomited, drink_part::less_than_half,
                              made_start() + minutes{35}, how_known::estimated, "all at once"}}));
  const json::value& kept = *up.all("MedicationAdministration").at(0);
  CHECK(at(kept, "dosage.dose.value") == "10");
  CHECK_THAT(read_bundle::notes(kept),
             Contains("Vomited at 2027-04-06T08:05:00+01:00, told afterwards, from memory.") &&
                 Contains("less than half of the drink was kept") && Contains("all at once"));
}

TEST_CASE("without a start there is no drink, and where nobody told its end it is unknown") {
  const auto never = only(make_events(), [](const event& e) {
    return !std::holds_alternative<drink_started>(e.what) &&
           !std::holds_alternative<drink_ended>(e.what);
  });
  CHECK(bundle_of(never).all("MedicationAdministration").empty());
  const auto open = only(
      make_events(), [](const event& e) { return !std::holds_alternative<drink_ended>(e.what); });
  const read_bundle b = bundle_of(open);
  const json::value& drink = *b.all("MedicationAdministration").at(0);
  CHECK(at(drink, "status") == "unknown");
  CHECK(at(drink, "effectivePeriod.end") == "-");
}

TEST_CASE("answers, washouts, slips and the gate stand under their rules") {
  made_test with_food;
  with_food.food_told = true;
  std::vector<event> events = make_events(with_food);
  events = and_then(
      events, {reported_caution{"ask-diabetes", caution_answer::yes, asked_outcome::go_on,
                                "my nurse", "as she wrote down"},
               reported_ready{{"power"}, {"fast"}, "the laboratory"},
               reported_red_flags{sample_number(4), {"pain"}},
               reported_comment{"the neighbour rang"}, reported_unwell{}, test_ended{"unwell"}});
  const read_bundle b = bundle_of(events);
  const json::value& r = *b.all("QuestionnaireResponse").at(0);
  CHECK(at(r, "status") == "completed");
  const json::value& diabetes = item(r, "ask-diabetes");
  CHECK(at(diabetes, "text") == "Do you have diabetes?");
  CHECK(at(diabetes, "answer.0.valueString") == "yes");
  CHECK(at(item(r, "ask-diabetes.outcome"), "answer.0.valueString") == "go-on");
  CHECK(at(item(r, "ask-diabetes.who"), "answer.0.valueString") == "my nurse");
  CHECK(at(item(r, "antibiotics"), "answer.0.valueString") == "never");
  CHECK(at(item(r, "fast.slip.words"), "answer.0.valueString") == "a piece of toast");
  CHECK(at(item(r, "fast.slip.when"), "answer.0.valueDateTime") == "2027-04-05T22:10:00+01:00");
  CHECK(at(item(r, "gate.not-kept"), "answer.0.valueString") == "fast");
  CHECK(at(item(r, "gate.agreed"), "answer.0.valueString") == "the laboratory");
  CHECK(at(item(r, "warning-signs.4"), "answer.0.valueString") == "pain");
  CHECK(at(item(r, "comments"), "answer.0.valueString") == "the neighbour rang");
  CHECK(at(item(r, "ended.reason"), "answer.0.valueString") == "unwell");
  CHECK(at(item(r, "morning-fever"), "answer.0.valueString") == "no");
}

TEST_CASE("name, birth date, doctor and scorer leave the log only where they are asked for") {
  std::vector<event> events = make_events();
  events = and_then(events, {reported_scorer{false, "Rosalind Marchbank"},
                             reported_symptoms{sample_number(10), {{"pain", 1}}, ""}});
  const std::string without = try_bundle(log_of(events)).value();
  for (const char* personal : {"Odile", "Marchbank", "1948", "Brandreth", "Rosalind"})
    CHECK_THAT(without, !Contains(personal));
  CHECK_THAT(without, Contains("another person, for the patient"));
  const read_bundle b = bundle_of(events, {true, false});
  const json::value& patient = *b.all("Patient").at(0);
  CHECK(at(patient, "name.0.text") == "Odile Marchbank");
  CHECK(at(patient, "birthDate") == "1948-05-17");
  CHECK(at(b.named("Observation", "10/pain"), "performer.0.display") ==
        "Rosalind Marchbank, for the patient");
}

TEST_CASE("practice is refused unless asked for, and then every resource is marked") {
  made_test practice;
  practice.rehearsal = true;
  const auto refused = try_bundle(make_log(practice));
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().found == "practice, not a test");
  const read_bundle b(try_bundle(make_log(practice), {false, true}).value());
  CHECK(at(b.whole(), "meta.tag.0.code") == "rehearsal");
  for (const char* type : {"Patient", "Specimen", "Observation", "Provenance"})
    for (const json::value* r : b.all(type))
      CHECK(at(*r, "meta.tag.0.code") == "rehearsal");
}

TEST_CASE("a log that does not match its own record is marked in every resource") {
  const std::string edited = changed(make_log(), "a little wind", "a little pain");
  const read_bundle b(try_bundle(edited).value());
  CHECK(at(b.whole(), "meta.tag.0.code") == "record-mismatch");
  CHECK(at(b.named("Specimen", "2"), "meta.tag.0.code") == "record-mismatch");
}

TEST_CASE("the same log gives the same bytes, and another test gives other names") {
  CHECK(try_bundle(make_log()).value() == try_bundle(make_log()).value());
  made_test other;
  other.test_id = "test-2";
  const read_bundle a = bundle_of(make_events());
  const read_bundle b = bundle_of(make_events(other));
  CHECK(at(*a.all("Patient").at(0), "id") != at(*b.all("Patient").at(0), "id"));
}

TEST_CASE("a log without a plan is a bundle without tubes") {
  std::vector<event> events = make_events();
  events.resize(3);
  const read_bundle b = bundle_of(events);
  CHECK(b.all("Specimen").empty());
  CHECK(b.all("Patient").size() == 1);
  CHECK(at(*b.all("QuestionnaireResponse").at(0), "status") == "in-progress");
}

TEST_CASE("a zone whose offset FHIR cannot write is told in UTC") {
  const read_log_result log = read_log(make_log()).value();
  for (const seconds offset : {seconds{15 * 3600}, seconds{-75}}) {
    const report told = report_of(
        log, [&](const std::string& name) -> result<zone> { return zone::fixed(name, offset); });
    const read_bundle b(bundle_text(log, told, shipped_codes(), {}).value());
    CHECK(at(b.named("Specimen", "4"), "collection.collectedDateTime") == "2027-04-06T07:15:12Z");
  }
}

TEST_CASE("spaces of other scripts become plain ones, since a FHIR string cannot hold them") {
  std::vector<event> events =
      and_then(make_events(), {reported_comment{"\u00a0um\u202f8\u3000Uhr\u2003"}});
  const read_bundle b = bundle_of(events);
  CHECK(at(item(*b.all("QuestionnaireResponse").at(0), "comments"), "answer.0.valueString") ==
        "um 8 Uhr");
}

TEST_CASE("two tests of one kit number share no identifier but that of the kit, on the tubes") {
  made_test other;
  other.test_id = "test-2";
  std::set<std::string> first;
  std::size_t shared = 0;
  for (const made_test& one : {made_test{}, other}) {
    const read_bundle b(try_bundle(make_log(one)).value());
    for (const char* type : {"Patient", "Specimen", "Observation", "MedicationAdministration"}) {
      for (const json::value* r : b.all(type)) {
        const std::string name = read_bundle::at(*r, "identifier.0.value");
        CHECK_THAT(name, !Contains("FV-3001"));
        if (one.test_id == other.test_id) shared += first.count(type + (" " + name));
        first.insert(type + (" " + name));
      }
    }
  }
  CHECK(first.size() > 20);
  CHECK(shared == 0);
}

} // namespace qb::fhir
