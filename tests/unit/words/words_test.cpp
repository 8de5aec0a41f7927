// Sentences by key, their arguments and their counts.
// A window without its words is a window with keys in brackets, so what is missing must show.
#include "core/words/words.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;

namespace {

words catalogue(const std::string& texts) {
  return words::read("{\"format\":\"quarterbreath-texts\",\"version\":1,\"language\":\"en\","
                     "\"texts\":" +
                     texts + "}")
      .value();
}

} // namespace

TEST_CASE("a sentence is found by its key and its arguments are put in") {
  const words w = catalogue("{\"label.title\":\"Label {n} of {all}, {n}\"}");
  CHECK(w("label.title", {{"n", "3"}, {"all", "10"}}) == "Label 3 of 10, 3");
  CHECK(w("label.title") == "Label {n} of {all}, {n}");
  CHECK(w("label.title", {{"n", "{n}"}}) == "Label {n} of {all}, {n}");
  CHECK(w.has("label.title"));
}

TEST_CASE("a missing sentence shows its key in brackets") {
  const words w = catalogue("{}");
  CHECK(w("gate.title") == "[gate.title]");
  CHECK_FALSE(w.has("gate.title"));
  CHECK(w.counted("tubes", 2) == "[tubes.other]");
}

TEST_CASE("a count chooses between one and all other numbers") {
  const words w = catalogue("{\"tubes.one\":\"{n} tube\",\"tubes.other\":\"{n} tubes\"}");
  CHECK(w.counted("tubes", 1) == "1 tube");
  CHECK(w.counted("tubes", 0) == "0 tubes");
  CHECK(w.counted("tubes", 10) == "10 tubes");
}

TEST_CASE("files of one language are put together") {
  words w = catalogue("{\"a\":\"A\"}");
  w.add(catalogue("{\"b\":\"B\"}"));
  CHECK(w("a") == "A");
  CHECK(w("b") == "B");
  CHECK(w.all().size() == 2);
}

TEST_CASE("what is no catalogue is refused with line and field") {
  const auto said = [](const std::string& text) { return sentence(words::read(text).error()); };
  CHECK(said("{}") == "line 1: format: found nothing, expected this field");
  CHECK(said("{\"format\":\"quarterbreath-texts\",\"version\":1,\"language\":\"en\",\n"
             "\"texts\":{\"a\":5}}") == "line 2: texts.a: found a whole number, expected a text");
}
