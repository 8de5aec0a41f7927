// A stage before the drink with one thing of each kind against going on, and the steps before the
// drink that it can come at.
// Shared by the tests of what holds, of the packet and of the question in full.
#pragma once

#include "tests/unit/screens/diet_pages.hpp"
#include "tests/unit/screens/mending_stages.hpp"

#include <map>

namespace qb::test {

inline constexpr const char* before_the_sugar = "2027-04-06 07:40";

// Everything that is asked at the gate answered well; the gate itself is not passed.
inline void nothing_stands(stage& s, std::size_t test = 0) {
  living_at(s, before_the_sugar, test);
  packet_read(s);
  fresh_morning(s);
}

inline reported_caution answered(const std::string& rule, caution_answer answer) {
  return {rule, answer, asked_outcome::not_asked, "", ""};
}
inline reported_caution refused_by(const std::string& rule, const std::string& who) {
  return {rule, caution_answer::yes, asked_outcome::not_this_test, who, "Not with your tablets"};
}

// A state that was changed by hand: what is to be done now follows.
inline void changed(stage& s) {
  s.m.now = what_now(s.m.s, s.m.at);
}

// One kind: how it comes about where nothing stood against it, the page that is its own, how that
// page is come to, and all that it offers.
struct held_case {
  std::string screen;
  std::set<std::string> offers;
  std::function<void(stage&)> stand;
  any_page at{}; // within the step
};

inline std::map<hindrance_kind, held_case> held_cases() {
  using kind = hindrance_kind;
  std::map<kind, held_case> out;
  out[kind::never] = {"held", {"not-today", "answer-anew"}, [](stage& s) {
                        s.m.tell(answered("ask-galactosaemia", caution_answer::yes));
                      }};
  out[kind::refused] = {"held", {"not-today", "answer-anew"}, [](stage& s) {
                          s.m.tell(refused_by("ask-insulin", "My diabetes nurse"));
                        }};
  out[kind::ask_first] = {"held", {"may-go-on", "not-today", "answer-anew"}, [](stage& s) {
                            s.m.tell(answered("ask-diabetes", caution_answer::unsure));
                          }};
  out[kind::wrong_age] = {"held-kit", {"not-today", "change-who"}, [](stage& s) {
                            s.m.tell(reported_person{"Ottilie", *parse_date("2015-05-01"), "",
                                                     "QB7-4410-2", s.m.lab.name});
                          }};
  out[kind::other_kit] = {"held-kit", {"not-today", "change-who"}, [](stage& s) {
                            s.m.tell(reported_kit{"FV2C-7HM2-3N4Q", "FV-2C7H", "lactose-25g",
                                                  *parse_date("2027-12-31")});
                          }};
  out[kind::old_rules] = {"held-old-rules", {"open-choose", "not-today"}, [](stage& s) {
                            const char* old =
                                "tests/fixtures/protocols/version-1/lactulose-10g.json";
                            s.m.s.test = frozen<protocol>(read_protocol(source_file(old)).value());
                            changed(s);
                          }};
  out[kind::kit_expired] = {"held-kit", {"not-today", "change-who"}, [](stage& s) {
                              s.m.tell(reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", "lactulose-10g",
                                                    *parse_date("2027-04-05")});
                            }};
  out[kind::packet_differs] = {"gate-other-sugar", {"not-today", "look-again"}, [](stage& s) {
                                 s.m.tell(reported_packet{"", 0, "", "sorbitol 20 g"});
                               }};
  out[kind::unwell] = {"unwell", {"unwell-over", "unwell-move", "stop-test"}, [](stage& s) {
                         s.m.tell(reported_unwell{});
                       }};
  out[kind::signs_unasked] = {"red-flags", {"red-flags-none"}, [](stage& s) {
                                s.m.tell(reported_symptoms{sample_number(1), {{"pain", 10}}, ""});
                              }};
  for (const warning_sign& sign : lactulose().warnings.signs)
    out[kind::signs_unasked].offers.insert(sign.id);
  out[kind::unanswered] = {"gate-question",
                           {"none-true", "one-true", "not-sure"},
                           [](stage& s) {
                             s.m.s.cautions.erase(s.m.s.cautions.begin());
                             changed(s);
                           },
                           gate_page::things};
  out[kind::packet_unread] = {"gate-sugar",
                              {"sugar-matches", "other-packet"},
                              [](stage& s) {
                                s.m.s.packet.reset();
                                changed(s);
                              },
                              gate_page::sugar};
  out[kind::below_least] = {"gate-check-short",
                            {"open-choose", "they-agreed", "all-rules"},
                            [](stage& s) { slip_before(s, "2027-04-06 07:00"); },
                            gate_page::check};
  return out;
}

inline constexpr hindrance_kind all_hindrances[] = {
    hindrance_kind::never,          hindrance_kind::refused,     hindrance_kind::ask_first,
    hindrance_kind::wrong_age,      hindrance_kind::other_kit,   hindrance_kind::kit_expired,
    hindrance_kind::packet_differs, hindrance_kind::unwell,      hindrance_kind::unanswered,
    hindrance_kind::packet_unread,  hindrance_kind::below_least, hindrance_kind::signs_unasked,
    hindrance_kind::old_rules};

// Shows that kind's page, with the gate passed before or not.
inline void stand_held(stage& s, const held_case& c, bool gate_passed) {
  nothing_stands(s);
  if (gate_passed) s.m.pass_the_gate();
  c.stand(s);
  s.h.frames(1); // the step's pages begin anew with it
  s.u.nav.page = c.at;
}

// Every question of that test: those before the plan and those of the morning.
inline std::vector<caution> questions_of(const protocol& p) {
  std::vector<caution> out = p.cautions;
  out.insert(out.end(), p.morning.begin(), p.morning.end());
  return out;
}

// Whether any command that leads on towards the drink is taken.
inline bool leads_on(const stage& s) {
  const auto taken = [&](payload wanted) {
    return decide(s.m.s, command{std::move(wanted)}, s.m.at).has_value();
  };
  return taken(reported_ready{gate_checks(), {"fast"}, ""}) || taken(sugar_set_aside{}) ||
         taken(breath_begun{sample_number(1)}) || taken(drink_started{});
}

} // namespace qb::test
