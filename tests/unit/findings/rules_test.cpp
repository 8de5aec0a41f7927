// Findings as data: every rule that the code can find stands in the file, and nothing else does.
#include "core/findings/rules.hpp"

#include "core/base/json.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

const finding_rules& shipped_findings() {
  static const finding_rules all =
      read_finding_rules(source_file("assets/findings/findings.json")).value();
  return all;
}

// Rules that stand in the sources of findings, as the first text of a list before a consequence or
// a list of tubes; and those that helpers take.
std::set<std::string> rules_in_code() {
  const std::regex emitted(R"re("([a-z0-9-]+)",\s*(?:consequence::|whole \?|stands \?))re"
                           R"re(|(?:clock_note|say|too_many)\(\s*"([a-z0-9-]+)")re"
                           R"re(|"((?:profile|protocol)-other)")re"
                           R"re(|_rule = "([a-z0-9-]+)")re"
                           R"re(|return \{"([a-z0-9-]+)", ")re"
                           R"re(|(?:\? |: )"(sample-(?:late|early)|tube-mixed-up|corrected)")re");
  std::set<std::string> out;
  for (const char* folder :
       {"core/findings", "core/curve", "core/receiving", "core/report", "core/case"}) {
    const std::filesystem::path at = std::filesystem::path(repository()) / folder;
    for (const auto& entry : std::filesystem::directory_iterator(at)) {
      const auto kind = entry.path().extension();
      if (kind != ".cpp" && kind != ".hpp") continue;
      const std::string text =
          source_file(std::string(folder) + "/" + entry.path().filename().string());
      for (std::sregex_iterator found(text.begin(), text.end(), emitted), end; found != end;
           ++found) {
        for (std::size_t i = 1; i < found->size(); ++i)
          if ((*found)[i].matched) out.insert((*found)[i].str());
      }
    }
  }
  for (const drink_mishap m :
       {drink_mishap::slow, drink_mishap::unfinished, drink_mishap::spilled, drink_mishap::vomited})
    out.insert(std::string("drink-") + key_of(m));
  out.insert("medicine"); // slips that no protocol names
  out.insert("other");
  return out;
}

// Every rule of preparation and every question that a shipped protocol has, or had: old records are
// still received.
std::set<std::string> rules_of_protocols() {
  std::set<std::string> out{rule_kit_expiry};
  std::vector<protocol> all;
  for (const std::string& id : shipped_ids()) {
    all.push_back(shipped(id));
    const std::string before = "tests/fixtures/protocols/version-1/" + id + ".json";
    all.push_back(read_protocol(source_file(before)).value());
  }
  for (const protocol& p : all) {
    out.insert(p.age_why.rule);
    out.insert(p.kit_why.rule);
    for (const preparation_window& w : p.windows)
      out.insert(w.why.rule);
    for (const washout& w : p.washouts)
      out.insert(w.why.rule);
    for (const auto* list : {&p.cautions, &p.morning})
      for (const caution& c : *list)
        out.insert(c.why.rule);
  }
  return out;
}

finding of(const char* rule, consequence weight) {
  return {rule, weight, {}, {}, {}, "words"};
}

} // namespace

TEST_CASE("what the code can find stands in the data of findings") {
  const auto code = rules_in_code();
  CHECK(code.size() > 50); // the sources were read
  for (const std::string& rule : code) {
    INFO(rule);
    CHECK(find_rule(shipped_findings(), rule) != nullptr);
  }
  for (const std::string& rule : rules_of_protocols()) {
    INFO(rule);
    CHECK(find_rule(shipped_findings(), rule) != nullptr);
  }
}

TEST_CASE("what stands in the data of findings can be found by the code") {
  const auto code = rules_in_code();
  const auto protocols = rules_of_protocols();
  for (const finding_rule& r : shipped_findings().rules) {
    INFO(r.rule);
    CHECK((code.count(r.rule) != 0 || protocols.count(r.rule) != 0));
  }
}

TEST_CASE("a consequence is the data's, the lesser one for a mere note, and the profile's first") {
  lab_profile none;
  CHECK(consequence_of(of("fast", consequence::note), shipped_findings(), none) ==
        consequence::note);
  CHECK(consequence_of(of("fast", consequence::review), shipped_findings(), none) ==
        consequence::review);
  CHECK(consequence_of(of("lid-bad", consequence::review), shipped_findings(), none) ==
        consequence::cannot_be_used);
  CHECK(consequence_of(of("own-rule", consequence::review), shipped_findings(), none) ==
        consequence::review); // of a laboratory's own protocol
  none.consequences = {{"lid-bad", consequence::review, {}},
                       {"fast", consequence::cannot_be_used, consequence::review}};
  CHECK(consequence_of(of("lid-bad", consequence::review), shipped_findings(), none) ==
        consequence::review);
  CHECK(consequence_of(of("fast", consequence::note), shipped_findings(), none) ==
        consequence::review);
  CHECK(consequence_of(of("fast", consequence::review), shipped_findings(), none) ==
        consequence::cannot_be_used);
}

TEST_CASE("a profile sets consequences of its own, each finding once, and no other words") {
  const std::string fenwick = source_file("assets/laboratories/fenwick-vale.json");
  const auto with = [&](const std::string& of_list) {
    const auto at = fenwick.find("\"analysis\": {");
    return read_profile(fenwick.substr(0, at) +
                        R"("consequences": {"rule": "own-consequences", "of": [)" + of_list +
                        R"(], "source": "laboratory-choice"}, )" + fenwick.substr(at));
  };
  const auto good =
      with(R"({"finding": "sample-late", "consequence": "cannot-be-used", "lesser": "note"})");
  REQUIRE(good.has_value());
  REQUIRE(good->consequences.size() == 1);
  CHECK(good->consequences[0].weight == consequence::cannot_be_used);
  CHECK(good->consequences[0].lesser == consequence::note);
  const std::string one = R"({"finding": "sample-late", "consequence": "note"})";
  CHECK(with(one + "," + one).error().found == "a finding twice");
  CHECK(with(R"({"finding": "sample-late", "consequence": "ignore"})").error().expected ==
        "note, review or cannot-be-used");
}

TEST_CASE("the reader of findings refuses a rule twice, an unlisted source, another consequence") {
  const std::string text = source_file("assets/findings/findings.json");
  const auto changed = [&](const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != text.npos);
    return read_finding_rules(text.substr(0, at) + to + text.substr(at + from.size()));
  };
  CHECK_FALSE(changed("\"rule\": \"fast\"", "\"rule\": \"plain-diet\"").has_value());
  CHECK_FALSE(changed("\"source\": \"kit-practice\"", "\"source\": \"hearsay\"").has_value());
  CHECK_FALSE(changed("\"consequence\": \"review\"", "\"consequence\": \"guilty\"").has_value());
  CHECK_FALSE(changed("\"about\": \"test\"", "\"about\": \"person\"").has_value());
}
