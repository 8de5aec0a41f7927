// The questions of the shipped tests: which are asked for which sugar, where yes leads, on whose
// word. What rests on memory says so, since the laboratory is to confirm or change it.
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// That question in those protocols and in no other: where it leads, its source and its basis.
void check_question(const std::string& rule, leads_to leads, const std::string& source,
                    const std::string& basis, const std::vector<std::string>& in = shipped_ids()) {
  for (const std::string& id : shipped_ids()) {
    INFO(id << " " << rule);
    const bool asked = std::find(in.begin(), in.end(), id) != in.end();
    REQUIRE((find_caution(shipped(id), rule) != nullptr) == asked);
    if (!asked) continue;
    CHECK(caution_in(id, rule).leads == leads);
    CHECK(caution_in(id, rule).why.source == source);
    CHECK(basis_of(id, source) == basis);
  }
}

void check_asked_first(const std::string& rule) {
  check_question(rule, leads_to::ask_first, "cautions-memory", "memory");
}

const std::vector<std::string> all_but_fructose{"glucose-50g", "glucose-75g", "lactose-25g",
                                                "lactulose-10g"};

} // namespace

TEST_CASE("no-lactulose-galactosaemia: not this test, also on a low-galactose diet (label)") {
  check_question("no-lactulose-galactosaemia", leads_to::not_this_test, "lactulose-label", "read",
                 {"lactulose-10g"});
}

TEST_CASE("no-lactose-galactosaemia: not this test, also on a low-galactose diet (label)") {
  check_question("no-lactose-galactosaemia", leads_to::not_this_test, "lactulose-label", "read",
                 {"lactose-25g"});
}

TEST_CASE("no-fructose-intolerance: never a fructose test, a challenge has been fatal "
          "(GeneReviews)") {
  check_question("no-fructose-intolerance", leads_to::not_this_test, "genereviews-hfi", "read",
                 {"fructose-25g"});
  CHECK(contains(caution_in("fructose-25g", "no-fructose-intolerance").text, "death"));
}

TEST_CASE("ask-fructose-intolerance: syrup holds traces of other sugars, so ask first "
          "(GeneReviews)") {
  check_question("ask-fructose-intolerance", leads_to::ask_first, "genereviews-hfi", "read",
                 all_but_fructose);
  CHECK(contains(caution_in("lactulose-10g", "ask-fructose-intolerance").text, "traces"));
}

TEST_CASE("ask-diabetes: above all insulin and sulfonylureas, no fast before the team has said "
          "how; a low sugar is treated at once (WAI, HOSP-E)") {
  check_question("ask-diabetes", leads_to::ask_first, "waiting-leaflets", "read");
  for (const std::string& id : shipped_ids()) {
    const std::string& text = caution_in(id, "ask-diabetes").text;
    CHECK(contains(text, "Insulin and some tablets (sulfonylureas)"));
    CHECK(contains(text, "until your diabetes team has said how"));
    CHECK(contains(text, "treat it at once, test or no test"));
  }
}

TEST_CASE("ask-timed-medicines: epilepsy and others, never left out for the test "
          "(WAI, HOSP-E)") {
  check_question("ask-timed-medicines", leads_to::ask_first, "waiting-leaflets", "read");
}

TEST_CASE("ask-sglt2: a long fast with a gliflozin, asked first (from memory)") {
  check_asked_first("ask-sglt2");
}

TEST_CASE("ask-slow-stomach: injections that slow the stomach, asked first (from memory)") {
  check_asked_first("ask-slow-stomach");
}

TEST_CASE("ask-liver: lactulose or rifaximin for the liver goes on, asked first (from memory)") {
  check_asked_first("ask-liver");
  for (const std::string& id : shipped_ids())
    CHECK(contains(caution_in(id, "ask-liver").text, "Keep taking it as prescribed"));
}

TEST_CASE("ask-surgery: an early rise can mislead, fluid may be lost, asked first "
          "(from memory)") {
  check_asked_first("ask-surgery");
}

TEST_CASE("ask-obstruction: a narrow or blocked bowel, asked first (from memory)") {
  check_asked_first("ask-obstruction");
}

TEST_CASE("ask-eating: an eating disorder or frailty, asked first (from memory)") {
  check_asked_first("ask-eating");
}

TEST_CASE("ask-pregnancy: asked first (from memory)") {
  check_asked_first("ask-pregnancy");
}

TEST_CASE("morning-new-medicine: asked again on the day (from memory)") {
  check_asked_first("morning-new-medicine");
}

TEST_CASE("morning-fever: asked again on the day (from memory)") {
  check_asked_first("morning-fever");
}

TEST_CASE("morning-diarrhoea: asked again on the day (from memory)") {
  check_asked_first("morning-diarrhoea");
}

TEST_CASE("morning-pregnancy: asked again on the day (from memory)") {
  check_asked_first("morning-pregnancy");
}

TEST_CASE("morning-weak: too weak, or a low sugar, which is treated at once (from memory)") {
  check_asked_first("morning-weak");
  for (const std::string& id : shipped_ids())
    CHECK(contains(caution_in(id, "morning-weak").text, "test or no test"));
}

TEST_CASE("what is known from memory says so, wherever a laboratory will read it") {
  for (const std::string& id : shipped_ids()) {
    for (const source& s : shipped(id).sources) {
      INFO(id << " " << s.id);
      const bool says = contains(s.citation, "from memory") || contains(s.citation, "From memory");
      CHECK(says == (s.basis == "memory"));
    }
  }
}
