// The questions of the shipped tests: which are asked for which sugar, where yes leads, on whose
// word. What rests on memory says so, since the laboratory is to confirm or change it.
#include "tests/unit/protocol/figures.hpp"

using namespace qb;
using namespace qb::test;

namespace {

// Where the answers "yes" and "not sure" lead, and on whose word the test may go on.
struct leading {
  leads_to yes;
  leads_to unsure;
  std::vector<releaser> release;
};

const std::vector<releaser> nobody{};
const std::vector<releaser> the_doctor{releaser::doctor};
const std::vector<releaser> either{releaser::doctor, releaser::laboratory};
constexpr leads_to ask = leads_to::ask_first;
constexpr leads_to never = leads_to::not_this_test;

// That question in those protocols and in no other: where it leads, its source and its basis.
void check_question(const std::string& rule, const leading& to, const std::string& source,
                    const std::string& basis, const std::vector<std::string>& in = shipped_ids()) {
  for (const std::string& id : in) {
    INFO(id << " " << rule);
    REQUIRE(find_caution(shipped(id), rule) != nullptr);
    const caution& c = caution_in(id, rule);
    CHECK(c.leads == to.yes);
    CHECK(c.unsure_leads == to.unsure);
    CHECK(c.may_release == to.release);
    CHECK(c.why.source == source);
    CHECK(basis_of(id, source) == basis);
  }
}

// In these and in no other.
void check_asked_in(const std::string& rule, const std::vector<std::string>& in) {
  for (const std::string& id : shipped_ids()) {
    INFO(id << " " << rule);
    const bool asked = std::find(in.begin(), in.end(), id) != in.end();
    CHECK((find_caution(shipped(id), rule) != nullptr) == asked);
  }
}

void check_asked_first(const std::string& rule, const std::vector<releaser>& release,
                       const std::vector<std::string>& in = shipped_ids()) {
  check_question(rule, {ask, ask, release}, "cautions-memory", "memory", in);
}

const std::vector<std::string> lactulose_only{"lactulose-10g"};
const std::vector<std::string> all_but_lactulose{"fructose-25g", "glucose-50g", "glucose-75g",
                                                 "lactose-25g"};
const std::vector<std::string> with_milk_sugar{"lactose-25g", "lactulose-10g"};

const caution& fructose_question(const std::string& id) {
  return caution_in(id, "ask-fructose-intolerance");
}

} // namespace

TEST_CASE("ask-galactosaemia: not this test, also on a low-galactose diet (label)") {
  check_question("ask-galactosaemia", {never, ask, either}, "lactulose-label", "read",
                 lactulose_only);
}

TEST_CASE("ask-galactosaemia: not this test: milk sugar holds galactose "
          "(galactosaemia pages)") {
  check_question("ask-galactosaemia", {never, ask, either}, "galactosaemia-pages", "read",
                 {"lactose-25g"});
  check_asked_in("ask-galactosaemia", with_milk_sugar);
}

TEST_CASE("ask-milk-allergy: lactose and lactulose syrup can hold milk protein (Santoro)") {
  check_question("ask-milk-allergy", {ask, ask, the_doctor}, "milk-protein", "read",
                 with_milk_sugar);
  check_asked_in("ask-milk-allergy", with_milk_sugar);
}

TEST_CASE("ask-fructose-intolerance: never a fructose test, not when unsure, on nobody's word; a "
          "challenge could result in death (GeneReviews)") {
  check_question("ask-fructose-intolerance", {never, never, nobody}, "genereviews-hfi", "read",
                 {"fructose-25g"});
  const caution& asked = caution_in("fructose-25g", "ask-fructose-intolerance");
  CHECK(contains(asked.text, "could even cause death")); // not: has
  CHECK(contains(asked.ask, "may I have a new kit?"));
  CHECK(contains(find_source(shipped("fructose-25g"), "genereviews-hfi")->citation,
                 "could result in death"));
}

TEST_CASE("ask-fructose-intolerance: lactulose syrup holds a little fructose (product "
          "information); the other packets are asked about (our inference)") {
  check_question("ask-fructose-intolerance", {ask, ask, the_doctor}, "lactulose-information",
                 "read", lactulose_only);
  check_question("ask-fructose-intolerance", {ask, ask, either}, "our-inference", "inferred",
                 {"glucose-50g", "glucose-75g", "lactose-25g"});
  check_asked_in("ask-fructose-intolerance", shipped_ids());
}

TEST_CASE("who was never told a name for it can answer about fructose, and no text says what a "
          "person has") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const caution& asked = fructose_question(id);
    CHECK_FALSE(contains(asked.question, "hereditary"));
    REQUIRE(asked.recognise.size() == 5);
    CHECK(contains(asked.recognise[0], "sweat, shake or vomit"));
    CHECK(contains(asked.recognise[1], "avoided sweet things all your life"));
    CHECK(contains(asked.recognise[2], "family"));
    CHECK(contains(asked.recognise[3], "As a baby"));
    CHECK(contains(asked.is_not, "is common"));
    CHECK(contains(asked.is_not, "not what we mean"));
    for (const std::string& text : {asked.text, asked.is_not})
      for (const char* verdict : {"You have", "you have", "malabsorption", "harmless"})
        CHECK_FALSE(contains(text, verdict));
  }
}

TEST_CASE("morning-tubes: asked with the box in hand, on the laboratory's word (common practice)") {
  check_question("morning-tubes", {ask, ask, {releaser::laboratory}}, "kit-practice",
                 "common-practice");
}

TEST_CASE("no-packet-allergy: read the packet first (product information; our inference)") {
  check_question("no-packet-allergy", {never, ask, either}, "lactulose-information", "read",
                 lactulose_only);
  check_question("no-packet-allergy", {never, ask, either}, "our-inference", "inferred",
                 all_but_lactulose);
}

TEST_CASE("ask-insulin: above all insulin and sulfonylureas, asked before anything else; nothing "
          "is changed by oneself, and a low sugar is treated at once (WAI, HOSP-E)") {
  check_question("ask-insulin", {ask, ask, the_doctor}, "waiting-leaflets", "read");
  for (const std::string& id : shipped_ids()) {
    const std::string& text = caution_in(id, "ask-insulin").text;
    CHECK(contains(text, "insulin and some tablets (sulfonylureas)"));
    CHECK(contains(text, "Ask first, and change nothing by yourself"));
    CHECK(contains(text, "treat it at once, test or no test"));
  }
}

TEST_CASE("ask-diabetes: no fast before the team has said how (WAI, HOSP-E)") {
  check_question("ask-diabetes", {ask, ask, the_doctor}, "waiting-leaflets", "read");
  for (const std::string& id : shipped_ids())
    CHECK(contains(caution_in(id, "ask-diabetes").text, "until your diabetes team has said how"));
}

TEST_CASE("ask-timed-medicines: epilepsy and others, never left out for the test "
          "(WAI, HOSP-E)") {
  check_question("ask-timed-medicines", {ask, ask, the_doctor}, "waiting-leaflets", "read");
}

TEST_CASE("ask-never-fast: who was told never to fast asks that doctor (MCAD pages)") {
  check_question("ask-never-fast", {ask, ask, the_doctor}, "fasting-pages", "read");
}

TEST_CASE("ask-dumping: a sweet drink after stomach surgery, with a low sugar hours later "
          "(dumping 2020)") {
  check_question("ask-dumping", {ask, ask, the_doctor}, "dumping-2020", "read");
}

TEST_CASE("ask-sglt2: a long fast with a gliflozin, asked first (gliflozin advice)") {
  check_question("ask-sglt2", {ask, ask, the_doctor}, "gliflozin-advice", "inferred");
}

TEST_CASE("ask-slow-stomach: injections that slow the stomach, asked first (from memory)") {
  check_asked_first("ask-slow-stomach", either);
}

TEST_CASE("ask-liver: lactulose or rifaximin for the liver goes on, asked first (from memory)") {
  check_asked_first("ask-liver", the_doctor);
  for (const std::string& id : shipped_ids())
    CHECK(contains(caution_in(id, "ask-liver").text, "Keep taking it as prescribed"));
}

TEST_CASE("ask-surgery: an early rise can mislead, fluid may be lost, asked first "
          "(from memory)") {
  check_asked_first("ask-surgery", either);
}

TEST_CASE("ask-obstruction: a narrow or blocked bowel, asked first (product information; from "
          "memory)") {
  check_question("ask-obstruction", {ask, ask, the_doctor}, "lactulose-information", "read",
                 lactulose_only);
  check_asked_first("ask-obstruction", the_doctor, all_but_lactulose);
}

TEST_CASE("ask-eating: an eating disorder or frailty, asked first (from memory)") {
  check_asked_first("ask-eating", the_doctor);
}

TEST_CASE("ask-pregnancy: asked first (from memory)") {
  check_asked_first("ask-pregnancy", the_doctor);
}

TEST_CASE("morning-new-medicine: asked again on the day (from memory)") {
  check_asked_first("morning-new-medicine", either);
}

TEST_CASE("morning-fever: asked again on the day (from memory)") {
  check_asked_first("morning-fever", either);
}

TEST_CASE("morning-diarrhoea: asked again on the day (from memory)") {
  check_asked_first("morning-diarrhoea", either);
}

TEST_CASE("morning-pregnancy: asked again on the day (from memory)") {
  check_asked_first("morning-pregnancy", the_doctor);
}

TEST_CASE("morning-weak: too weak to fast any longer may eat now (from memory)") {
  check_asked_first("morning-weak", either);
}

TEST_CASE("morning-low-sugar: treated at once, and the test is off for today on nobody's word "
          "(low sugar pages)") {
  check_question("morning-low-sugar", {never, never, nobody}, "low-sugar-pages", "read");
  for (const std::string& id : shipped_ids()) {
    const caution& asked = caution_in(id, "morning-low-sugar");
    CHECK(contains(asked.text, "Eat or drink your own sugar now, not the kit's"));
    CHECK(contains(asked.text, "No test today"));
    CHECK(shipped(id).morning.front().why.rule == "morning-low-sugar");
  }
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
