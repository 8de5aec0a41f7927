// Every page of living through the preparation, in each situation it can be met in.
// One list, so that the fit of all pages and their pictures are about the same situations.
#pragma once

#include "app/patient/screens/days/diet.hpp"
#include "core/session/readiness.hpp"
#include "tests/unit/screens/panels.hpp"

#include <functional>

namespace qb::test {

struct living_page {
  std::string name;
  screen draw;
  std::function<void(stage&)> set;
};

inline void look_through_leaves(stage& s, const living_page& c) {
  show_afresh(s, c.draw, c.set);
  look_at_leaves(s, c.name);
}

// A plan for Tuesday 6 April 2027 at 07:30 with every question answered, at that moment. `test` is
// the place of its protocol in the view.
inline void living_at(stage& s, const std::string& civil, std::size_t test = 0) {
  s.m.open();
  s.m.introduce();
  const protocol& p = s.m.tests.at(test).test;
  for (const caution& c : p.cautions)
    s.m.tell(reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""});
  for (const washout& w : p.washouts)
    s.m.tell(reported_washout{{w.why.rule, washout_answer::never, {}, false}, ""});
  s.m.plan_for("2027-04-06 07:30", test);
  s.m.go_to(civil);
}

// The morning's questions answered with no, at the present moment.
inline void fresh_morning(stage& s) {
  for (const caution& c : s.m.s.test->morning)
    s.m.tell(reported_caution{c.why.rule, caution_answer::no, asked_outcome::not_asked, "", ""});
}

// The right packet was read out at the gate.
inline void packet_read(stage& s) {
  s.m.tell(right_packet(s.m.s));
}

// At the gate, past the packet, at that page of it.
inline void gate_at(stage& s, const std::string& civil, gate_page page, std::size_t test = 0) {
  living_at(s, civil, test);
  packet_read(s);
  fresh_morning(s);
  s.u.nav.page = page;
  s.u.drafts.ticked = gate_checks();
}

inline void slip_before(stage& s, const std::string& when, const char* rule = "fast",
                        const char* subject = "meal") {
  s.m.tell(reported_slip{rule, s.m.instant_of(when), how_known::told, "", subject});
}

// The slip's thanks, for what was told at `when`.
inline void thanked(stage& s, const std::string& when, const char* rule, const char* subject) {
  slip_before(s, when, rule, subject);
  s.u.nav.open = side_page::slip;
  s.u.drafts.slip.rule = rule;
  s.u.drafts.slip.subject = subject;
  s.u.drafts.slip.at = s.m.instant_of(when);
  s.u.drafts.slip.told = true;
}

inline std::vector<living_page> home_pages() {
  std::vector<living_page> out;
  for (const char* time : {"2027-04-01 10:00", "2027-04-05 10:00", "2027-04-05 18:30",
                           "2027-04-05 21:00", "2027-04-06 05:10", "2027-04-06 06:10"}) {
    out.push_back(
        {std::string("home ") + time, draw_prepare, [=](stage& s) { living_at(s, time); }});
    out.push_back({std::string("home confirmed ") + time, draw_prepare, [=](stage& s) {
                     living_at(s, time);
                     s.m.tell(reported_checklist{"fast", {}});
                     s.m.tell(reported_checklist{"awake", {}});
                     s.m.tell(reported_checklist{"evening", {"pen"}});
                   }});
  }
  out.push_back({"home elsewhere", draw_prepare, [](stage& s) {
                   living_at(s, "2027-04-05 21:00");
                   s.m.s.planned->what.zone_name = "Europe/Paris";
                 }});
  out.push_back({"home more", draw_prepare, [](stage& s) {
                   living_at(s, "2027-04-06 06:10");
                   s.m.plan_for("2027-04-06 07:45");
                   s.u.nav.page = prepare_page::more;
                 }});
  for (const char* time : {"2027-04-01 10:00", "2027-04-05 10:00", "2027-04-05 21:00"})
    out.push_back(
        {std::string("foods ") + time, draw_foods, [=](stage& s) { living_at(s, time); }});
  out.push_back({"foods nothing", draw_foods, [](stage& s) {
                   living_at(s, "2027-04-05 10:00");
                   s.u.nav.page = foods_page::nothing;
                 }});
  out.push_back({"low sugar", draw_low_sugar, [](stage& s) { living_at(s, "2027-04-05 21:00"); }});
  out.push_back({"evening", draw_evening, [](stage& s) { living_at(s, "2027-04-05 21:00"); }});
  out.push_back({"evening ticked", draw_evening, [](stage& s) {
                   living_at(s, "2027-04-05 21:00");
                   s.u.drafts.ticked = {"tubes", "alarm"};
                 }});
  out.push_back(
      {"evening seven tubes", draw_evening, [](stage& s) { living_at(s, "2027-04-05 21:00", 2); }});
  out.push_back({"morning", draw_morning, [](stage& s) {
                   living_at(s, "2027-04-06 06:40");
                   s.u.drafts.ticked = {"awake"};
                 }});
  out.push_back({"call off", draw_call_off, [](stage& s) { living_at(s, "2027-04-05 21:00"); }});
  out.push_back({"history", draw_history, [](stage& s) {
                   living_at(s, "2027-04-05 21:00");
                   s.m.plan_for("2027-04-07 07:30");
                   s.m.tell(plan_called_off{"A cold, and nobody at home"});
                   s.m.plan_for("2027-04-14 07:30");
                 }});
  return out;
}

inline std::vector<living_page> slip_living_pages() {
  std::vector<living_page> out;
  for (const char* time :
       {"2027-04-01 10:00", "2027-04-05 10:00", "2027-04-05 21:07", "2027-04-06 07:10"}) {
    for (const slip_page page : {slip_page::what, slip_page::medicine})
      out.push_back({std::string("slip ") + time, draw_slip, [=](stage& s) {
                       living_at(s, time);
                       s.u.nav.page = page;
                     }});
  }
  for (const slip_page page : {slip_page::when, slip_page::words})
    out.push_back({"slip telling", draw_slip, [=](stage& s) {
                     living_at(s, "2027-04-05 21:07");
                     s.u.drafts.slip.rule = "fast";
                     s.u.drafts.slip.subject = "drink";
                     s.u.nav.page = page;
                   }});
  struct meaning {
    const char* when;
    const char* rule;
    const char* subject;
  };
  for (const meaning m :
       {meaning{"2027-04-05 21:30", "fast", "meal"}, meaning{"2027-04-06 00:30", "fast", "meal"},
        meaning{"2027-04-05 15:00", "plain-diet", "other-food"},
        meaning{"2027-03-27 20:00", "antibiotics", ""},
        meaning{"2027-04-05 06:00", "plain-diet", "other-food"},
        meaning{"2027-04-05 20:00", "medicine", ""}})
    out.push_back({std::string("thanks ") + m.rule + m.when, draw_slip, [=](stage& s) {
                     living_at(s, "2027-04-06 06:10");
                     thanked(s, m.when, m.rule, m.subject);
                   }});
  return out;
}

inline std::vector<living_page> gate_living_pages() {
  std::vector<living_page> out;
  for (const char* time : {"2027-04-06 06:50", "2027-04-06 08:10"}) {
    out.push_back(
        {std::string("gate intro ") + time, draw_gate, [=](stage& s) { living_at(s, time); }});
    for (const gate_page page : {gate_page::sugar, gate_page::things, gate_page::time,
                                 gate_page::check, gate_page::rules, gate_page::wrong_sugar})
      out.push_back(
          {std::string("gate ") + time, draw_gate, [=](stage& s) { gate_at(s, time, page); }});
  }
  out.push_back({"gate packet", draw_gate, [](stage& s) {
                   living_at(s, "2027-04-06 07:40");
                   s.u.nav.page = gate_page::sugar;
                 }});
  out.push_back({"gate packet told", draw_gate, [](stage& s) {
                   living_at(s, "2027-04-06 07:40");
                   s.u.nav.page = gate_page::wrong_sugar;
                   s.u.drafts.packet_says = "Lactulose, 20 g, a powder to be stirred into water";
                 }});
  for (const std::vector<std::string>& ticked :
       {std::vector<std::string>{}, std::vector<std::string>{"morning-fever"}})
    out.push_back({"gate morning", draw_gate, [=](stage& s) {
                     living_at(s, "2027-04-06 07:40");
                     packet_read(s);
                     s.u.nav.page = gate_page::morning;
                     s.u.drafts.ticked = ticked;
                   }});
  out.push_back({"gate not today", draw_gate,
                 [](stage& s) { gate_at(s, "2027-04-06 07:40", gate_page::not_today); }});
  out.push_back({"gate unanswered", draw_gate, [](stage& s) {
                   planned(s.m);
                   s.m.go_to("2027-04-06 07:40");
                   packet_read(s);
                   s.u.nav.page = gate_page::ask;
                 }});
  for (const char* meal : {"2027-04-05 21:30", "2027-04-06 01:00"}) {
    for (const gate_page page :
         {gate_page::intro, gate_page::check, gate_page::agreed, gate_page::rules})
      out.push_back({std::string("gate slip ") + meal, draw_gate, [=](stage& s) {
                       gate_at(s, "2027-04-06 07:40", page);
                       slip_before(s, meal);
                       slip_before(s, "2027-04-06 07:35", "smoke-free", "cigarette");
                     }});
  }
  out.push_back({"gate early far", draw_gate,
                 [](stage& s) { gate_at(s, "2027-04-05 23:50", gate_page::check); }});
  out.push_back(
      {"gate other kit", draw_gate, [](stage& s) {
         gate_at(s, "2027-04-06 07:40", gate_page::check);
         s.m.s.kit = reported_kit{"code", "QB7", "glucose-75g", *parse_date("2027-12-31")};
       }});
  return out;
}

} // namespace qb::test
