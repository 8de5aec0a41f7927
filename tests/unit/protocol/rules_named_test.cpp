// Every rule of every shipped protocol and profile is named by a test together with its source.
// A figure that no test holds can be changed by a slip of the hand and nobody would see it.
#include "core/base/json.hpp"
#include "tests/unit/protocol/figures.hpp"

#include <map>
#include <set>

using namespace qb;
using namespace qb::test;

namespace {

// How the tests' names write a source.
const std::map<std::string, std::string>& names_of_sources() {
  static const std::map<std::string, std::string> names{
      {"nac-2017-t1", "NAC 2017 T1"},
      {"nac-2017-doses", "NAC 2017 doses"},
      {"nac-2017-grid", "NAC 2017, "},
      {"nhs-8611", "NHS 8611"},
      {"nhs-pl1058", "NHS PL1058"},
      {"eu-2022", "EU 2022"},
      {"smoking-1983", "SMO 1983"},
      {"kw-1988", "KW 1988"},
      {"lactulose-label", "label"},
      {"lactulose-information", "product information"},
      {"galactosaemia-pages", "galactosaemia pages"},
      {"milk-protein", "Santoro"},
      {"fasting-pages", "MCAD pages"},
      {"dumping-2020", "dumping 2020"},
      {"gliflozin-advice", "gliflozin advice"},
      {"low-sugar-pages", "low sugar pages"},
      {"when-to-call", "when to call"},
      {"expected-leaflets", "NHS-K"},
      {"clinic-leaflets", "clinic leaflets"},
      {"our-inference", "our inference"},
      {"genereviews-hfi", "GeneReviews"},
      {"waiting-leaflets", "WAI"},
      {"diet-practice", "common practice"},
      {"kit-practice", "common practice"},
      {"cautions-memory", "from memory"},
      {"laboratory-choice", "laboratory's choice"},
      {"co2-5-percent", "PMC5554383"},
      {"rum-1987-duplicates", "RUM 1987"}};
  return names;
}

// The names of the TEST_CASEs of a source text, pieces of one name put together.
std::vector<std::string> test_names(const std::string& text) {
  std::vector<std::string> out;
  const std::string opens = "TEST_CASE(";
  for (auto at = text.find(opens); at != text.npos; at = text.find(opens, at + 1)) {
    std::string name;
    bool quoted = false;
    for (auto i = at + opens.size(); i < text.size(); ++i) {
      if (text[i] == '"')
        quoted = !quoted;
      else if (quoted)
        name += text[i];
      else if (text[i] == ')' || text[i] == ',')
        break;
    }
    out.push_back(name);
  }
  return out;
}

// For each rule what the names of its tests say, those that begin with "RULE: ".
std::map<std::string, std::string> said_of_rules(const std::vector<std::string>& names) {
  std::map<std::string, std::string> out;
  for (const std::string& name : names) {
    const auto colon = name.find(": ");
    if (colon != name.npos) out[name.substr(0, colon)] += name.substr(colon) + "; ";
  }
  return out;
}

// Every object with a rule and a source, wherever it stands: (rule, source), with the least's too.
void collect(const json::value& v, std::set<std::pair<std::string, std::string>>& out) {
  if (const json::array* items = v.items()) {
    for (const json::value& item : *items)
      collect(item, out);
  }
  if (v.members() == nullptr) return;
  const json::value* rule = v.find("rule");
  for (const json::member& m : *v.members()) {
    collect(m.second, out);
    const bool names_source = m.first == "source" || m.first == "least_source";
    if (rule != nullptr && names_source) out.emplace(*rule->text(), *m.second.text());
  }
}

std::set<std::pair<std::string, std::string>> shipped_rules() {
  std::set<std::pair<std::string, std::string>> out;
  for (const std::string& id : shipped_ids())
    collect(json::parse(shipped_file(id)).value(), out);
  collect(json::parse(fenwick_text()).value(), out);
  return out;
}

// What is missing, one line each.
std::vector<std::string> not_named(const std::set<std::pair<std::string, std::string>>& rules,
                                   const std::vector<std::string>& names) {
  const auto said = said_of_rules(names);
  std::vector<std::string> out;
  for (const auto& [rule, source_id] : rules) {
    const auto found = said.find(rule);
    const auto source_name = names_of_sources().find(source_id);
    if (found == said.end())
      out.push_back("no test is named \"" + rule + ": ...\"");
    else if (source_name == names_of_sources().end())
      out.push_back("source " + source_id + " has no name here");
    else if (!contains(found->second, source_name->second))
      out.push_back("no test of " + rule + " names its source, " + source_name->second);
  }
  return out;
}

std::vector<std::string> names_here() {
  std::vector<std::string> out;
  for (const char* file : {"dose", "preparation", "question", "safety", "profile"}) {
    const std::string path = std::string("tests/unit/protocol/") + file + "_figures_test.cpp";
    for (std::string& name : test_names(source_file(path)))
      out.push_back(std::move(name));
  }
  return out;
}

} // namespace

TEST_CASE("every shipped rule is named by a test, with its source") {
  const auto rules = shipped_rules();
  CHECK(rules.size() > 80); // the files were read
  for (const std::string& line : not_named(rules, names_here()))
    FAIL_CHECK(line);
}

TEST_CASE("a shipped rule without a test, or with another source than its test names, is found") {
  const std::vector<std::string> names{"fast: asked 12 h (NHS 8611), least 8 h (NAC 2017 T1)"};
  CHECK(not_named({{"fast", "nhs-8611"}, {"fast", "nac-2017-t1"}}, names).empty());
  CHECK(not_named({{"fasting", "nhs-8611"}}, names).front() == "no test is named \"fasting: ...\"");
  CHECK(not_named({{"fast", "nhs-pl1058"}}, names).front() ==
        "no test of fast names its source, NHS PL1058");
  CHECK(not_named({{"fast", "hearsay"}}, names).front() == "source hearsay has no name here");
  CHECK(test_names("TEST_CASE(\"a: b \"\n          \"c (d)\") {}\nTEST_CASE(\"e\")") ==
        std::vector<std::string>{"a: b c (d)", "e"});
}
