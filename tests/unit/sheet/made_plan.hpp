// Plans of the shipped protocols for the tests of reminders and of the preparation page.
// From a state of events, as the program has it, so that a test can move and call off as well.
#pragma once

#include "core/sheet/prepared_plan.hpp"

#include "tests/support/repository.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

namespace qb::test {

inline std::string shipped_text(const std::string& path) {
  std::ifstream file(repository() + "/" + path);
  std::ostringstream text;
  text << file.rdbuf();
  REQUIRE_FALSE(text.str().empty());
  return text.str();
}

inline const char* const shipped_protocols[] = {"lactulose-10g", "glucose-75g", "glucose-50g",
                                                "lactose-25g", "fructose-25g"};

// A zone of the source of rules for Europe: clocks go forward on the last Sunday of March.
inline zone london() {
  // The machine's own zone file; its rules for 2027 are those of the European directive.
  std::ifstream file("/usr/share/zoneinfo/Europe/London", std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  auto z = zone::read("Europe/London", bytes.str());
  REQUIRE(z.has_value());
  return *z;
}

// A record on its way to the test.
class made_plan {
public:
  explicit made_plan(const std::string& id = "lactulose-10g", bool rehearsal = false)
      : protocol_text(shipped_text("assets/protocols/" + id + ".json")) {
    at.wall = instant_of("2027-03-01 10:00");
    at.zone = z.name();
    tell(opened{"a1b2c3d4e5f60718293a4b5c6d7e8f90", "quarterbreath test", rehearsal,
                shipped_text("assets/laboratories/fenwick-vale.json")});
    person("Marguerite Ångström-Fennimore");
  }

  void person(const std::string& name) {
    tell(reported_person{name, *parse_date("1957-02-11"), "Dr Isolde Fennimore", "FV-2071",
                         "Fenwick Vale Breath Laboratory"});
  }
  void tell(payload what) {
    at.wall += std::chrono::minutes{1};
    s = apply(std::move(s), event{s.seq + 1, at, std::move(what)});
  }
  void plan_for(const std::string& civil) {
    const protocol p = *read_protocol(protocol_text);
    tell(plan_made{protocol_text, p.sugar.forms.front().form, *make_plan(p, instant_of(civil), z)});
  }
  void told(const std::string& rule, washout_answer answer) {
    tell(reported_washout{{rule, answer, std::nullopt, false}, ""});
  }
  [[nodiscard]] instant instant_of(const std::string& civil) const {
    const civil_meaning meaning = z.meaning_of(*parse_civil(civil));
    if (const auto* two = std::get_if<twofold_time>(&meaning)) return two->first;
    return std::get<unique_time>(meaning).at;
  }
  [[nodiscard]] prepared_plan get() const {
    auto p = prepared_plan_of(s);
    REQUIRE(p.has_value());
    return *p;
  }

  std::string protocol_text;
  zone z = london();
  state s;
  clock_reading at{};
};

} // namespace qb::test
