// What keeps the patient safe during the shipped tests and after them: warning signs, times of
// scoring, how to blow, what is told. Each rule with the source it names.
#include "app/machine/files.hpp"
#include "core/words/words.hpp"
#include "tests/support/repository.hpp"
#include "tests/unit/protocol/figures.hpp"

#include <map>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

// That sign in all five: its id, whether going on is offered, and its source.
void check_sign(const std::string& id, bool is_final, const std::string& source,
                const std::string& basis) {
  for (const std::string& test : shipped_ids()) {
    INFO(test << " " << id);
    const auto& all = shipped(test).warnings.signs;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const warning_sign& s) { return s.id == id; });
    REQUIRE(found != all.end());
    CHECK(found->why.rule == "sign-" + id);
    CHECK(found->is_final == is_final);
    CHECK(found->why.source == source);
    CHECK(basis_of(test, source) == basis);
  }
}

constexpr bool final_one = true;
constexpr bool may_go_on = false;

// That line of one of the lists in these protocols, with its source.
void check_advice(std::vector<advice> protocol::*list, const std::string& rule,
                  const std::string& source, const std::string& says,
                  const std::vector<std::string>& in = shipped_ids()) {
  for (const std::string& id : in) {
    INFO(id << " " << rule);
    const auto& all = shipped(id).*list;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const advice& a) { return a.why.rule == rule; });
    REQUIRE(found != all.end());
    CHECK(found->why.source == source);
    CHECK(contains(found->text, says));
  }
}

// That way in which a breath goes wrong in all five, and where it leads.
void check_spoil(const std::string& id, spoil_leads_to leads, const std::string& says) {
  for (const std::string& test : shipped_ids()) {
    INFO(test << " " << id);
    const breath_spoil* x = find_spoil(shipped(test), id);
    REQUIRE(x != nullptr);
    CHECK(x->why.rule == "spoiled-" + id);
    CHECK(x->why.source == "our-inference");
    CHECK(x->leads == leads);
    CHECK(contains(x->text, says));
  }
}

const std::vector<std::string> lactulose_only{"lactulose-10g"};
const std::vector<std::string> all_but_lactulose{"fructose-25g", "glucose-50g", "glucose-75g",
                                                 "lactose-25g"};

} // namespace

TEST_CASE("warning-signs: asked at a rise of 5 points, or at 9 of 10 (our inference)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const warning_rules& w = shipped(id).warnings;
    CHECK(w.why.rule == "warning-signs");
    CHECK(basis_of(id, w.why.source) == "inferred");
    CHECK(w.rise == 5);
    CHECK(w.level == 9);
    CHECK(w.signs.size() == 11);
  }
}

TEST_CASE("sign-pain: strong or growing pain (when to call)") {
  check_sign("pain", may_go_on, "when-to-call", "read");
}
TEST_CASE("sign-fainting: final (when to call)") {
  check_sign("fainting", final_one, "when-to-call", "read");
}
TEST_CASE("sign-chest: final (when to call)") {
  check_sign("chest", final_one, "when-to-call", "read");
}
TEST_CASE("sign-breathing: final (when to call)") {
  check_sign("breathing", final_one, "when-to-call", "read");
}
TEST_CASE("sign-swelling: lips, tongue, throat, or hives: final (when to call)") {
  check_sign("swelling", final_one, "when-to-call", "read");
}
TEST_CASE("sign-fit: final (when to call)") {
  check_sign("fit", final_one, "when-to-call", "read");
}
TEST_CASE("sign-confusion: sudden, and final (when to call)") {
  check_sign("confusion", final_one, "when-to-call", "read");
}
TEST_CASE("sign-drowsy: drowsy, sweating or shaking, as of a low sugar (low sugar pages)") {
  check_sign("drowsy", may_go_on, "low-sugar-pages", "read");
}
TEST_CASE("sign-blood: black stool or blood: final (when to call)") {
  check_sign("blood", final_one, "when-to-call", "read");
}
TEST_CASE("sign-vomiting: again and again (common practice)") {
  check_sign("vomiting", may_go_on, "kit-practice", "common-practice");
}
TEST_CASE("sign-dry: too dry to pee (common practice)") {
  check_sign("dry", may_go_on, "kit-practice", "common-practice");
}

TEST_CASE(
    "symptom-times: with each tube; of intolerance once more after it and later (our inference)") {
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const symptom_times& t = shipped(id).symptom_times;
    CHECK(t.why.rule == "symptom-times");
    CHECK(basis_of(id, t.why.source) == "inferred");
    // What a sugar may do lasts for some hours (NHS-K, NHS-C): where the question is how it is
    // borne, one more step of the grid is scored, and the afternoon.
    const bool intolerance = id == "lactose-25g" || id == "fructose-25g";
    CHECK(t.after_last == (intolerance ? std::optional(30min) : std::nullopt));
    CHECK(t.later == (intolerance ? std::optional(360min) : std::nullopt));
  }
}

TEST_CASE("blow-first: a usual breath out and in comes first (common practice)") {
  check_advice(&protocol::breath_how, "blow-first", "kit-practice", "Breathe out as usual first");
  for (const std::string& id : shipped_ids())
    CHECK(shipped(id).breath_how.front().why.rule == "blow-first");
}
TEST_CASE("blow-gently: to the end of the breath, until the tube mists (common practice)") {
  check_advice(&protocol::breath_how, "blow-gently", "kit-practice", "to the end of your breath");
}
TEST_CASE("blow-straw-out: while still blowing (common practice)") {
  check_advice(&protocol::breath_how, "blow-straw-out", "kit-practice", "Keep blowing");
}
TEST_CASE("blow-cap: at once, last of all (common practice)") {
  check_advice(&protocol::breath_how, "blow-cap", "kit-practice", "at once");
  for (const std::string& id : shipped_ids())
    CHECK(shipped(id).breath_how.back().why.rule == "blow-cap");
}

TEST_CASE("spoiled-room-air: blown again where there is time (our inference)") {
  check_spoil("room-air", spoil_leads_to::repeat, "room air");
}
TEST_CASE("spoiled-straw-early: blown again where there is time (our inference)") {
  check_spoil("straw-early", spoil_leads_to::repeat, "too early");
}
TEST_CASE("spoiled-lid-late: blown again where there is time (our inference)") {
  check_spoil("lid-late", spoil_leads_to::repeat, "too late");
}
TEST_CASE("spoiled-lid: blown again where there is time (our inference)") {
  check_spoil("lid", spoil_leads_to::repeat, "was open");
}
TEST_CASE("spoiled-short: blown again where there is time (our inference)") {
  check_spoil("short", spoil_leads_to::repeat, "too little");
}
TEST_CASE("spoiled-fell: blown again where there is time (our inference)") {
  check_spoil("fell", spoil_leads_to::repeat, "not broken");
}
TEST_CASE("spoiled-other: told to the laboratory (our inference)") {
  check_spoil("other", spoil_leads_to::tell, "Something else");
}

TEST_CASE("medicines-morning: as prescribed, or as the prescriber said for this test (WAI)") {
  check_advice(&protocol::medicines, "medicines-morning", "waiting-leaflets", "as prescribed");
}
TEST_CASE("medicines-diabetes: as they were told for this fast (WAI)") {
  check_advice(&protocol::medicines, "medicines-diabetes", "waiting-leaflets",
               "Diabetes medicines as told");
}

TEST_CASE("expected-belly: wind, cramps, a full belly (product information; NHS-K, NHS-C)") {
  check_advice(&protocol::expected, "expected-belly", "lactulose-information", "for some hours",
               lactulose_only);
  check_advice(&protocol::expected, "expected-belly", "expected-leaflets", "for some hours",
               all_but_lactulose);
}
TEST_CASE("expected-sick: feeling a little sick (product information; NHS-K, NHS-C)") {
  check_advice(&protocol::expected, "expected-sick", "lactulose-information", "a little sick",
               lactulose_only);
  check_advice(&protocol::expected, "expected-sick", "expected-leaflets", "a little sick",
               all_but_lactulose);
}
TEST_CASE("expected-stool: loose stool (product information; NHS-K, NHS-C)") {
  check_advice(&protocol::expected, "expected-stool", "lactulose-information", "a laxative",
               lactulose_only);
  check_advice(&protocol::expected, "expected-stool", "expected-leaflets", "more than once",
               all_but_lactulose);
}
TEST_CASE("expected-toilet: stay near one (common practice)") {
  check_advice(&protocol::expected, "expected-toilet", "kit-practice", "near a toilet");
}

TEST_CASE("not-expected-danger: call the emergency number (when to call)") {
  check_advice(&protocol::not_expected, "not-expected-danger", "when-to-call",
               "Call the emergency number");
}
TEST_CASE("not-expected-danger-more: the other signs of danger (when to call)") {
  check_advice(&protocol::not_expected, "not-expected-danger-more", "when-to-call", "a fit");
}
TEST_CASE("not-expected-ill: end the test, call a doctor (common practice)") {
  check_advice(&protocol::not_expected, "not-expected-ill", "kit-practice", "end the test");
}

TEST_CASE("after-eat: as usual again, beginning with something small (common practice)") {
  check_advice(&protocol::afterwards, "after-eat", "kit-practice", "something small");
}
TEST_CASE("after-tonight: it may go on, drink enough (our inference)") {
  check_advice(&protocol::afterwards, "after-tonight", "our-inference", "Drink enough");
}
TEST_CASE("after-watch: the same signs, whom to call (our inference)") {
  check_advice(&protocol::afterwards, "after-watch", "our-inference", "call the emergency number");
}
TEST_CASE("after-watch-more: the other signs of danger (our inference)") {
  check_advice(&protocol::afterwards, "after-watch-more", "our-inference", "a fit");
}

// Whether the text names every sign of danger, one after the other in this order.
bool names_all_signs(const std::string& text) {
  std::size_t from = 0;
  for (const char* sign : {"chest pain", "breath", "swollen lips or tongue", "a fit", "fainting",
                           "confusion", "blood in poo or vomit", "severe pain"}) {
    const auto at = text.find(sign, from);
    if (at == std::string::npos) return false;
    from = at + 1;
  }
  return true;
}

// That advice and the one that goes on from it.
std::string said(const std::vector<advice>& all, const std::string& rule) {
  std::string out;
  for (const advice& a : all) {
    if (a.why.rule == rule) out += a.text;
    if (a.why.rule == rule + "-more") out += " " + a.text;
  }
  return out;
}

TEST_CASE("before the drink, afterwards and when unwell the same signs stand in the same order") {
  const auto texts = words::read(*read_file(repository() + "/assets/texts/en/test.json"));
  REQUIRE(texts);
  const std::string unwell = (*texts)("unwell.emergency", {{"call", "112"}});
  CHECK(unwell.find("Call 112 now") == 0);
  CHECK(names_all_signs(unwell));
  CHECK_FALSE(names_all_signs("Call 112 now: chest pain, hard to breathe, a fit."));
  for (const std::string& id : shipped_ids()) {
    INFO(id);
    const protocol& p = shipped(id);
    CHECK(names_all_signs(said(p.not_expected, "not-expected-danger")));
    CHECK(names_all_signs(said(p.afterwards, "after-watch")));
  }
}

TEST_CASE("after-drive: not while weak, sick or dizzy (our inference)") {
  check_advice(&protocol::afterwards, "after-drive", "our-inference", "Do not drive");
}
