// What a rehearsal's script may not be: out of its form, or of times that do not exist.
// A script is written by hand, so each refusal must say which line and field to mend.
#include "app/rehearsal/rehearsal_run.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::rehearsal;
using namespace qb::test;

namespace {

std::string script_file(const std::string& name) {
  return source_file("demo-data/rehearsals/" + name + ".json");
}

} // namespace

TEST_CASE("a script that is not in its form is refused with line and field") {
  const auto said = [](const std::string& what, const std::string& by) {
    std::string text = script_file("late-and-missed");
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    const auto read = read_script(text.replace(at, what.size(), by));
    return read ? std::string() : sentence(read.error());
  };
  CHECK(said("\"do\": \"late\"", "\"do\": \"dance\"").find("does[0].do: found \"dance\"") !=
        std::string::npos);
  CHECK(said("\"by_s\": 310", "\"by_s\": 0").find("does[0].by_s: found 0") != std::string::npos);
  CHECK(said("\"sample\": 4,", "").find("does[0].sample: found nothing") != std::string::npos);
  CHECK(said("2027-04-06 07:30", "tomorrow").find("start: found \"tomorrow\"") !=
        std::string::npos);
  CHECK(said("1948-09-30", "1948-09-31").find("person.birth_date") != std::string::npos);
  CHECK(said("\"reaction_s\": 5", "\"reaction_s\": 0").find("reaction_s") != std::string::npos);
  const auto with = [&](const std::string& more) { return said("\"does\"", more + ", \"does\""); };
  CHECK(with("\"answers\": {\"ask-diabetes\": {\"answer\": \"maybe\"}}")
            .find("answers.ask-diabetes.answer: found \"maybe\"") != std::string::npos);
  CHECK(with("\"answers\": {\"ask-diabetes\": 1}").find("answers.ask-diabetes: found") !=
        std::string::npos);
  CHECK(with("\"washouts\": {\"laxatives\": {\"answer\": \"until\", \"on\": \"soon\"}}")
            .find("washouts.laxatives.on") != std::string::npos);
  CHECK(with("\"answers\": {}, \"washouts\": {}").empty());
}

TEST_CASE("a script in which something is done before the program is opened is refused") {
  std::string text = script_file("moved");
  const auto at = text.find("2027-04-05 18:20");
  REQUIRE(at != std::string::npos);
  text.replace(at, 16, "2027-03-01 18:20");
  const rehearsal_script script = read_script(text).value();
  const rehearsal_parts parts{shipped_file("glucose-75g"), fenwick_text(), glucose(),
                              zone_named("Europe/London"), "x"};
  memory_keeper keeper;
  engine e(keeper, {});
  const auto no = play(script, parts, e, [](const engine&) {});
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found == "2027-03-01 18:20");
  CHECK(no.error().expected == "a time after the program is opened");
}

TEST_CASE("a script whose start does not exist is refused before anything is recorded") {
  std::string text = script_file("clean");
  const auto at = text.find("2027-04-06 07:30");
  text.replace(at, 16, "2027-03-28 01:30");
  const rehearsal_script script = read_script(text).value();
  const rehearsal_parts parts{lactulose_text(), fenwick_text(), lactulose(),
                              zone_named("Europe/London"), "x"};
  memory_keeper keeper;
  engine e(keeper, {});
  const auto no = play(script, parts, e, [](const engine&) {});
  REQUIRE_FALSE(no.has_value());
  CHECK(no.error().found.find("does not exist") != std::string::npos);
  CHECK(keeper.kept.empty());
}

TEST_CASE("a script's kit is one kit, however its number was typed") {
  for (const char* typed :
       {"FV 2072", "fv\u20132072", "\uFF26\uFF36\uFF0D\uFF12\uFF10\uFF17\uFF12"}) {
    CAPTURE(typed);
    std::string text = script_file("late-and-missed");
    const std::string number = "FV-2072";
    REQUIRE(text.find(number) != std::string::npos);
    text.replace(text.find(number), number.size(), typed);
    CHECK(read_script(text).value().person.kit_number == number);
  }
}
