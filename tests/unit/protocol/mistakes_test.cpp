// What a laboratory may get wrong in preparation, questions, kit and bounds of its own file: each
// is refused with line, field, what was found and what is expected.
#include "core/protocol/profile.hpp"
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// `text` with the first `what` after `after` replaced; both must be there.
std::string with(std::string text, const std::string& after, const std::string& what,
                 const std::string& by) {
  const auto from = text.find(after);
  REQUIRE(from != std::string::npos);
  const auto at = text.find(what, from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, what.size(), by);
}

// What `protocol check` would say of the shipped lactose file after one change; "" if it is read.
std::string said(const std::string& after, const std::string& what, const std::string& by) {
  static const std::string file = source_file("assets/protocols/lactose-25g.json");
  const auto read = read_protocol(with(file, after, what, by));
  return read ? "" : sentence(read.error());
}

// The line of the first `what` after `after`, for messages that must name it.
std::string line_of(const std::string& after, const std::string& what) {
  static const std::string file = source_file("assets/protocols/lactose-25g.json");
  const auto at = file.find(what, file.find(after));
  REQUIRE(at != std::string::npos);
  const auto lines =
      std::count(file.begin(), file.begin() + static_cast<std::ptrdiff_t>(at), '\n') + 1;
  return "line " + std::to_string(lines) + ": ";
}

const std::string fast = "\"rule\": \"fast\"";
const std::string washing = "\"rule\": \"bowel-cleansing\"";
const std::string diabetes = "\"rule\": \"ask-diabetes\"";
const std::string bounds = "\"sample_bounds\"";

} // namespace

TEST_CASE("an age range must not end before it begins") {
  CHECK(said("\"age\"", "\"from_years\": 18", "\"from_years\": 18, \"to_years\": 12") ==
        line_of("\"age\"", "\"from_years\"") +
            "age.to_years: found 12, expected at least from_years");
  CHECK(said("\"age\"", "\"from_years\": 18", "\"from_years\": 18, \"to_years\": 70") == "");
  CHECK(contains(said("\"age\"", "\"from_years\": 18", "\"from_years\": 18, \"to_years\": 121"),
                 "age.to_years: found 121, expected a whole number from 0 to 120"));
  CHECK(contains(said("\"age\"", "\"from_years\": 18", "\"from_years\": 18, \"to_years\": null"),
                 "age.to_years: found null"));
}

TEST_CASE("a kit has a tube for each sample, and two letters that are not mistaken for others") {
  CHECK(said("\"kit\"", "\"tubes\": 10", "\"tubes\": 6") ==
        line_of("\"kit\"", "\"tubes\"") +
            "kit.tubes: found 6, expected at least one tube a sample");
  CHECK(said("\"kit\"", "\"tubes\": 10", "\"tubes\": 7") == "");
  CHECK(contains(said("\"kit\"", "\"tubes\": 10", "\"tubes\": 25"),
                 "kit.tubes: found 25, expected a whole number from 2 to 24"));
  for (const char* wrong : {"M", "M22", "m2", "O1"})
    CHECK(contains(said("\"kit\"", "\"M2\"", "\"" + std::string(wrong) + "\""),
                   "kit.letters: found \"" + std::string(wrong) +
                       "\", expected two characters of 234679ACDEFGHJKMNPQRTVWXYZ"));
  CHECK(contains(said("\"kit\"", "\"letters\": \"M2\",", ""), "kit.letters: found nothing"));
}

TEST_CASE("a window names its least, the least's source, its name and what can be told") {
  CHECK(said(fast, "\"least_min\": 480", "\"least_min\": 721") ==
        line_of(fast, "\"least_min\"") +
            "preparation.windows[1].least_min: found 721, expected no more than the window is "
            "long");
  CHECK(contains(said(fast, "\"least_min\": 480,", ""),
                 "preparation.windows[1].least_min: found nothing"));
  CHECK(contains(said(fast, "\"least_source\": \"nac-2017-t1\",", ""),
                 "preparation.windows[1].least_source: found nothing"));
  CHECK(contains(said(fast, "\"least_source\": \"nac-2017-t1\"", "\"least_source\": \"hearsay\""),
                 "found \"hearsay\", expected the id of a source listed in \"sources\""));
  CHECK(contains(said(fast, "\"name\": \"Water only\",", ""),
                 "preparation.windows[1].name: found nothing"));
  CHECK(contains(said(fast, "\"Water only\"", "\"" + std::string(41, 'w') + "\""),
                 "windows[1].name: found 41 characters of text, expected 1 to 40 characters"));
  CHECK(contains(said(fast, "\"id\": \"drink\"", "\"id\": \"meal\""),
                 "windows[1].subjects[1].id: found \"meal\" twice, expected each subject once"));
  CHECK(contains(said(fast, "\"id\": \"drink\"", "\"id\": \"A drink\""),
                 "expected 1 to 40 lower-case letters, digits and inner hyphens"));
}

TEST_CASE("what fits a window is a list, may be empty, and may be left out") {
  CHECK(said(fast, "\"eat\": [],", "") == "");
  CHECK(contains(said(fast, "\"eat\": []", "\"eat\": \"nothing\""),
                 "windows[1].eat: found a text, expected a list of 0 to 24 texts"));
  CHECK(contains(said(fast, "\"eat\": []", "\"eat\": [\"\"]"), "windows[1].eat: found an empty"));
  CHECK(contains(said(fast, "\"eat\": []", "\"eat\": null"), "windows[1].eat: found null"));
}

TEST_CASE("a washout names its kind, its least in days, and its question") {
  const std::string place = "preparation.washouts[6].";
  CHECK(said(washing, "\"least_days\": 7", "\"least_days\": 15") ==
        line_of(washing, "\"least_days\"") + place +
            "least_days: found 15, expected no more than days");
  CHECK(contains(said(washing, "\"kind\": \"happening\"", "\"kind\": \"event\""),
                 place + "kind: found \"event\", expected one of: medicine, course, happening"));
  CHECK(contains(said(washing, "\"kind\": \"happening\",", ""), place + "kind: found nothing"));
  CHECK(contains(said(washing, "\"least_source\": \"nhs-pl1058\",", ""),
                 place + "least_source: found nothing"));
  for (const char* field : {"name", "question", "which"})
    CHECK(contains(said(washing, "\"" + std::string(field) + "\"", "\"other\""),
                   place + field + ": found nothing"));
}

TEST_CASE("a question says where it leads, and fits the smallest window") {
  const std::string place = "cautions[4].";
  CHECK(said(diabetes, "\"leads_to\": \"ask-first\"", "\"leads_to\": \"go-on\"") ==
        line_of(diabetes, "\"leads_to\"") + place +
            "leads_to: found \"go-on\", expected one of: ask-first, not-this-test");
  for (const char* field : {"name", "question", "text", "whom", "ask"})
    CHECK(contains(said(diabetes, "\"" + std::string(field) + "\"", "\"other\""),
                   place + field + ": found nothing"));
  const auto too_long = [&](const char* field, std::size_t most) {
    const std::string open = "\"" + std::string(field) + "\": \"";
    return contains(said(diabetes, open, open + std::string(most, 'x')),
                    place + field + ": found ") &&
           contains(said(diabetes, open, open + std::string(most, 'x')),
                    "expected 1 to " + std::to_string(most) + " characters");
  };
  CHECK(too_long("name", 40));
  CHECK(too_long("question", 90));
  CHECK(too_long("text", 240));
  CHECK(too_long("whom", 60));
  CHECK(too_long("ask", 160));
  CHECK(contains(said("\"morning\"", "\"leads_to\"", "\"lead\""), "morning[0].leads_to"));
  CHECK(contains(said("\"morning\"", "\"rule\": \"morning-fever\"", "\"rule\": \"ask-diabetes\""),
                 "morning[3].rule: found \"ask-diabetes\" twice"));
}

TEST_CASE("bounds of a protocol's own keep two samples apart, and may be left out") {
  CHECK(said(bounds, "\"last_call_s\": 900", "\"last_call_s\": 300") ==
        line_of(bounds, "\"last_call_s\"") +
            "sample_bounds.last_call_s: found a time within on_time_s, expected more than "
            "on_time_s");
  CHECK(said(bounds, "\"last_call_s\": 900", "\"last_call_s\": 1740") ==
        line_of(bounds, "\"last_call_s\"") +
            "sample_bounds.last_call_s: found 1740, expected with early_s less than the shortest "
            "gap, 1800 s");
  CHECK(said(bounds, "\"last_call_s\": 900", "\"last_call_s\": 1739") == "");
  CHECK(contains(said(bounds, "\"early_s\": 60,", ""), "sample_bounds.early_s: found nothing"));
  CHECK(contains(said(bounds, bounds, "\"bounds\""), "bounds: found a field that is not known"));
}

TEST_CASE("a profile names its two letters of kit codes, and bounds in their order") {
  const auto profile_said = [](const std::string& what, const std::string& by) {
    const auto read =
        read_profile(with(source_file("assets/laboratories/fenwick-vale.json"), "{", what, by));
    return read ? "" : sentence(read.error());
  };
  CHECK(contains(profile_said("\"kit_letters\": \"FV\",", ""), "kit_letters: found nothing"));
  CHECK(profile_said("\"FV\"", "\"F0\"") ==
        "line 27: kit_letters: found \"F0\", expected two characters of "
        "234679ACDEFGHJKMNPQRTVWXYZ");
  CHECK(contains(profile_said("\"last_call_s\": 450", "\"last_call_s\": 120"),
                 "sample_bounds.last_call_s: found a time within on_time_s"));
}

TEST_CASE("a question says where not sure leads, how it is recognised, and who may release it") {
  const std::string place = "cautions[4].";
  for (const char* field : {"unsure_leads_to", "recognise", "may_release"})
    CHECK(contains(said(diabetes, "\"" + std::string(field) + "\"", "\"other\""),
                   place + field + ": found nothing"));
  CHECK(contains(
      said(diabetes, "\"unsure_leads_to\": \"ask-first\"", "\"unsure_leads_to\": \"go-on\""),
      place + "unsure_leads_to: found \"go-on\", expected one of: ask-first"));
  const std::string release = "\"may_release\": [\n        \"doctor\"";
  CHECK(contains(said(diabetes, release, "\"may_release\": [\n        \"nurse\""),
                 place + "may_release: found \"nurse\", expected a list of doctor and laboratory"));
  CHECK(contains(said(diabetes, release, release + ", \"doctor\""),
                 place + "may_release: found \"doctor\" twice, expected each of them once"));
  CHECK(said(diabetes, release, release + ", \"laboratory\"") == "");
  CHECK(said(diabetes, "\"recognise\": []", "\"recognise\": [\"You were told so.\"]") == "");
  CHECK(contains(
      said(diabetes, "\"recognise\": []", "\"recognise\": [\"" + std::string(121, 'x') + "\"]"),
      place + "recognise: found 121 characters of text, expected 1 to 120"));
  CHECK(contains(said(diabetes, "\"recognise\": []", "\"recognise\": [], \"is_not\": \"\""),
                 place + "is_not: found 0 characters"));
}

TEST_CASE("warning signs stand once each, with a rise and a level that the scale reaches") {
  const std::string warnings = "\"warnings\"";
  CHECK(contains(said(warnings, "\"id\": \"fainting\"", "\"id\": \"pain\""),
                 "warnings.signs[1].id: found \"pain\" twice, expected each sign once"));
  CHECK(contains(said(warnings, "\"final\": false", "\"final\": \"no\""),
                 "warnings.signs[0].final: found a text"));
  CHECK(said(warnings, "\"rise\": 5,", "") == "");
  CHECK(said(warnings, "\"level\": 9,", "") == "");
  CHECK(contains(said(warnings, "\"level\": 9", "\"level\": 11"),
                 "warnings.level: found 11, expected a whole number from 1 to 10"));
  CHECK(contains(said("\"symptoms\"", "\"most\": 10", "\"most\": 4"),
                 "warnings.rise: found 5, expected no more than 4"));
  CHECK(contains(said(warnings, "\"Severe pain", "\"" + std::string(70, 'x')),
                 "warnings.signs[0].text: found"));
}

TEST_CASE("scoring later stays within a day, and a syrup is measured or not") {
  const std::string times = "\"symptom_times\"";
  const std::string last = "\"after_last_min\": 30";
  const std::string later = "\"later_min\": 360";
  CHECK(said(times, later, "\"later_min\": 300") == "");
  CHECK(said(times, last, "\"after_last_min\": 0") == "");
  CHECK(contains(said(times, later, "\"later_min\": 1441"),
                 "symptom_times.later_min: found 1441, expected a whole number from 1 to 1440"));
  CHECK(contains(said(times, last, "\"after_last_min\": 241"),
                 "symptom_times.after_last_min: found 241, expected a whole number from 0 to 240"));
  CHECK(contains(said("\"forms\"", "\"measure\": false", "\"measured\": false"),
                 "sugar.forms[0].measure: found nothing"));
}

TEST_CASE("advice is a list of short texts, each with its rule") {
  for (const char* list : {"breath_how", "expected", "not_expected", "afterwards"}) {
    INFO(list);
    const std::string key = "\"" + std::string(list) + "\"";
    CHECK(contains(said(key, "\"text\": \"", "\"text\": \"" + std::string(160, 'x')),
                   std::string(list) + "[0].text: found"));
    CHECK(contains(said(key, "\"source\"", "\"where\""), std::string(list) + "[0].source"));
  }
}
