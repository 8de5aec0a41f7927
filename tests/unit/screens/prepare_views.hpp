// A made-up person, plan and moment for the preparation screens, from the shipped files.
// One value holds all a view refers to, so that a test only changes what it is about.
#pragma once

#include "app/machine/files.hpp"
#include "app/patient/screens/view.hpp"
#include "app/patient/shell/preview.hpp"

#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"

#include <filesystem>
#include <stdexcept>
#include <string>

namespace qb::test {

inline std::string source_text(const std::string& path) {
  auto text = read_file(repository() + "/" + path);
  if (!text) throw std::runtime_error(sentence(text.error()));
  return *text;
}

// All sentences of the shipped language.
inline words shipped_words() {
  words out;
  const std::string folder = "assets/texts/en";
  for (const auto& file : std::filesystem::directory_iterator(repository() + "/" + folder)) {
    const auto read = words::read(source_text(folder + "/" + file.path().filename().string()));
    if (!read) throw std::runtime_error(sentence(read.error()));
    out.add(*read);
  }
  return out;
}

class made_view {
public:
  made_view() {
    for (const char* id :
         {"lactulose-10g", "glucose-75g", "lactose-25g", "fructose-25g", "glucose-50g"}) {
      const std::string text = source_text(std::string("assets/protocols/") + id + ".json");
      tests.push_back({id, text, *read_protocol(text)});
    }
    go_to("2027-04-01 10:00");
  }

  // Sets the clocks to a civil time; what is to be done now follows.
  void go_to(const std::string& civil) {
    at.wall = instant_of(civil);
    at.zone = z.name();
    now = what_now(s, at);
  }
  // Adds a fact at the present moment.
  void tell(payload what) {
    const event e{s.seq + 1, at, std::move(what)};
    s = apply(std::move(s), e);
    now = what_now(s, at);
  }
  // Everything that is asked at the gate, answered well, and the gate itself.
  void pass_the_gate() {
    for (payload& one : gate_answers(s, at))
      tell(std::move(one));
  }
  void open() { tell(opened{"made-up", "quarterbreath test", false, profile_text}); }
  void introduce() {
    tell(reported_person{"Marguerite Ångström-Fennimore", *parse_date("1957-02-11"),
                         "Dr Isolde Fennimore", "QB7-4410-2", lab.name});
  }
  // A plan of that test for that start.
  void plan_for(const std::string& civil, std::size_t test = 0) {
    const offered_test& chosen = tests.at(test);
    tell(plan_made{chosen.canonical_text, chosen.test.sugar.forms.front().form,
                   *make_plan(chosen.test, instant_of(civil), z)});
  }
  // What the shell would answer for a draft of that start of the first test.
  void preview_of(const std::string& civil) {
    const civil_time start = *parse_civil(civil);
    const auto midnight = std::chrono::floor<std::chrono::days>(start);
    plan_draft draft;
    draft.test = tests.front().id;
    draft.date = date_of(start);
    draft.minute = static_cast<int>((start - midnight).count());
    preview = preview_plan(draft, s, tests, at.wall, z);
  }
  [[nodiscard]] instant instant_of(const std::string& civil) const {
    return std::get<unique_time>(z.meaning_of(*parse_civil(civil))).at;
  }
  [[nodiscard]] view get() const {
    view out{s, now, at, z, t, tests, lab, preview, {}, {}, {}, {}};
    out.kept_in = "a-folder/quarterbreath";
    out.trouble = trouble;
    out.paper_what = paper_what;
    out.paper_time = paper_time;
    out.practice = practice;
    out.trial = trial;
    out.can_practise = can_practise;
    out.sound = sound;
    out.plan_zone = plan_zone;
    out.salvaged = salvaged;
    out.on_paper = on_paper;
    return out;
  }

  words t = shipped_words();
  zone z = zone::fixed("Europe/London", std::chrono::seconds{0});
  std::string profile_text = fenwick_text();
  lab_profile lab = *read_profile(profile_text);
  std::vector<offered_test> tests;
  state s;
  clock_reading at{};
  now_answer now;
  plan_preview preview;
  std::string trouble;
  std::string paper_what;
  std::string paper_time;
  bool practice{false};
  bool trial{false};
  bool can_practise{true};
  bool sound{true};
  const zone* plan_zone{nullptr}; // where the plan was made in another zone
  std::optional<salvage_note> salvaged;
  std::optional<paper_why> on_paper;
};

} // namespace qb::test
