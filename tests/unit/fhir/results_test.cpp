// What the laboratory adds to a bundle, with made-up values: readings, criteria, a conclusion.
#include "tests/unit/fhir/made_bundle.hpp"

namespace qb::fhir {

namespace {

using Catch::Contains;

std::string at(const json::value& v, const std::string& path) {
  return read_bundle::at(v, path);
}

laboratory_results made_results() {
  laboratory_results r;
  r.gases.push_back({sample_number(1), exact(4), exact(2), exact(4), std::nullopt});
  r.gases.push_back({sample_number(4), exact(33), std::nullopt, std::nullopt,
                     parse_rfc3339_utc("2027-04-12T09:00:00Z").value()});
  r.criteria.push_back({"nac-2017-h2-90", "H2 rise of 20 ppm or more by 90 minutes", "meets",
                        "a rise of 29 ppm at 45.2 minutes", "NAC 2017"});
  return r;
}

read_bundle bundle_with(const laboratory_results& r) {
  return read_bundle(try_bundle(make_log(), {}, r).value());
}

std::string refused(const std::string& log, const laboratory_results& r) {
  const auto no = try_bundle(log, {}, r);
  return no ? "" : sentence(no.error());
}

} // namespace

TEST_CASE("a gas of a tube is one observation at the tube's true time, in ppm as UCUM writes it") {
  const read_bundle b = bundle_with(made_results());
  const json::value& h2 = b.named("Observation", "4/h2");
  CHECK(at(h2, "effectiveDateTime") == "2027-04-06T08:15:12+01:00");
  CHECK(at(h2, "valueQuantity.value") == "33");
  CHECK(at(h2, "valueQuantity.code") == "[ppm]");
  CHECK(at(h2, "valueQuantity.system") == "http://unitsofmeasure.org");
  CHECK(at(h2, "code.coding.0.system") == "https://quarterbreath.invalid/codes");
  CHECK(at(h2, "code.text") == "Hydrogen in exhaled air");
  CHECK(at(h2, "issued") == "2027-04-12T10:00:00+01:00");
  CHECK(at(h2, "status") == "preliminary");
  CHECK(at(b.named("Observation", "1/co2"), "valueQuantity.code") == "-");
  CHECK(at(b.named("Observation", "1/co2"), "valueQuantity.unit") == "%");
}

TEST_CASE("a reading keeps its decimals") {
  laboratory_results r = made_results();
  r.gases[1].h2 = exact::parse("12.5");
  const std::string text = try_bundle(make_log(), {}, r).value();
  CHECK_THAT(text, Contains("\"value\": 12.5,"));
}

TEST_CASE("the report holds its results together, and is a draft until a reader has concluded") {
  laboratory_results r = made_results();
  const read_bundle draft = bundle_with(r);
  const json::value& report = *draft.all("DiagnosticReport").at(0);
  const json::value& who = *draft.all("Provenance").at(1);
  CHECK(at(who, "agent.0.who.display") == "Fenwick Vale Breath Laboratory");
  CHECK_THAT(json::canonical(*who.find("target")), Contains(at(report, "id")));
  CHECK_THAT(json::canonical(*draft.all("Provenance").at(0)->find("target")),
             !Contains(at(report, "id")));
  CHECK(at(report, "status") == "preliminary");
  CHECK(at(report, "code.coding.0.code") == "74788-1");
  CHECK(at(report, "result.4.reference") == // h2, ch4, co2 of tube 1, h2 of tube 4, one criterion
        "urn:uuid:" + at(draft.named("Observation", "nac-2017-h2-90"), "id"));
  CHECK(at(report, "result.5") == "-");
  CHECK(at(report, "conclusion") == "-");
  CHECK(at(draft.named("Observation", "nac-2017-h2-90"), "valueString") ==
        "meets: a rise of 29 ppm at 45.2 minutes");

  r.conclusion = "Compatible with the question asked.";
  const read_bundle unnamed = bundle_with(r);
  CHECK(at(*unnamed.all("DiagnosticReport").at(0), "status") == "preliminary");
  r.reader = "Dr Maren Osk";
  const read_bundle done = bundle_with(r);
  const json::value& last = *done.all("DiagnosticReport").at(0);
  CHECK(at(last, "status") == "final");
  CHECK(at(last, "conclusion") == "Compatible with the question asked.");
  CHECK(at(last, "resultsInterpreter.0.display") == "Dr Maren Osk");
}

TEST_CASE("what limits an answer, and what asks for a look, go with the answer") {
  laboratory_results r = made_results();
  r.criteria[0].limits = {"Strictly: does not meet.", "Not firm: by noise."};
  r.findings = {{"lid-bad", sample_number(3), "A bad lid, tube 3 (lid-bad)"},
                {"co2-missing", std::nullopt, "No carbon dioxide (co2-missing)"},
                {"co2-missing", std::nullopt, "No carbon dioxide (co2-missing)"}};
  const read_bundle b = bundle_with(r);
  const json::value& one = b.named("Observation", "nac-2017-h2-90");
  CHECK(at(one, "note.1.text") == "Strictly: does not meet.");
  CHECK(at(one, "note.2.text") == "Not firm: by noise.");
  CHECK_THAT(at(one, "note.3.text"), Contains("draft for a qualified person"));
  const json::value& lid = b.named("Observation", "lid-bad/3");
  CHECK(at(lid, "code.text") == "Finding for review");
  CHECK(at(lid, "code.coding") == "-");
  CHECK(at(lid, "valueString") == "A bad lid, tube 3 (lid-bad)");
  CHECK(at(b.named("Observation", "co2-missing/again-2"), "id") !=
        at(b.named("Observation", "co2-missing"), "id"));
  const json::value& report = *b.all("DiagnosticReport").at(0);
  CHECK_THAT(at(report, "text.div"), Contains("decides nothing"));
  CHECK(at(report, "result.7.reference") != "-");
  r.conclusion = "Read.";
  r.reader = "Dr Maren Osk";
  const read_bundle done = bundle_with(r);
  CHECK_THAT(at(*done.all("DiagnosticReport").at(0), "text.div"), Contains("no diagnosis"));
  CHECK(at(done.named("Observation", "nac-2017-h2-90"), "note.3") == "-");
}

TEST_CASE("a reading of a tube that was not blown, is not there, or stands twice is refused") {
  laboratory_results r = made_results();
  r.gases[1].number = sample_number(11);
  CHECK_THAT(refused(make_log(), r), Contains("tube 11"));
  r.gases[1].number = sample_number(1);
  CHECK_THAT(refused(make_log(), r), Contains("tube 1") && Contains("two readings"));
  const auto missed = only(make_events(), [](const event& e) {
    const auto* closed = std::get_if<tube_closed>(&e.what);
    return closed == nullptr || closed->sample != sample_number(4);
  });
  CHECK_THAT(refused(log_of(missed), made_results()), Contains("not have as blown"));
  std::vector<event> unplanned = make_events();
  unplanned.resize(3);
  CHECK_THAT(refused(log_of(unplanned), {}), Contains("no test that was chosen"));
}

} // namespace qb::fhir
