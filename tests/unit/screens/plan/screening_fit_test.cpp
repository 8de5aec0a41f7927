// Every page before the plan at every promised size, with the words of every shipped protocol:
// nothing cut, small, outside or overlapping, and no sentence missing.
#include "app/patient/screens/plan/choose_pages.hpp"
#include "tests/unit/screens/panels.hpp"

#include <functional>
#include <set>

using namespace qb;
using test::stage;

namespace {

using page = plan_page;

struct fit_case {
  std::string name;
  std::function<void(stage&)> set;
};

void choosing_of(stage& s, std::size_t test, choose_page at) {
  s.m.open();
  s.m.introduce();
  s.u.drafts.plan.test = s.m.tests.at(test).id;
  s.u.drafts.plan.form = s.m.tests.at(test).test.sugar.forms.front().form;
  s.u.nav.page = std::move(at);
}

reported_caution reported_of(const caution& c, asked_outcome outcome) {
  const bool asked = outcome != asked_outcome::not_asked;
  return {c.why.rule, caution_answer::yes, outcome, asked ? "My diabetes nurse or care team" : "",
          asked ? "Take half of it in the evening and the rest after the last breath" : ""};
}

// Each text once: most protocols share theirs.
void add_cautions(const stage& s, std::vector<fit_case>& out) {
  std::set<std::string> seen;
  for (std::size_t t = 0; t < s.m.tests.size(); ++t) {
    const auto& all = s.m.tests[t].test.cautions;
    for (std::size_t i = 0; i < all.size(); ++i) {
      const caution& c = all[i];
      if (!seen.insert(c.question + c.text + c.ask).second) continue;
      for (const auto part : {caution_part::question, caution_part::ask, caution_part::answer})
        out.push_back({c.why.rule, [=](stage& x) {
                         choosing_of(x, t, caution_page{c.why.rule, part});
                         if (part != caution_part::question)
                           x.m.tell(reported_of(c, asked_outcome::not_asked));
                       }});
      for (const asked_outcome o : {asked_outcome::go_on, asked_outcome::not_this_test})
        out.push_back({c.why.rule + " answered", [=](stage& x) {
                         choosing_of(x, t, {});
                         if (o == asked_outcome::go_on) x.u.nav.page = caution_page{c.why.rule};
                         x.u.nav.open = side_page::choose;
                         x.m.tell(reported_of(c, o));
                       }});
    }
  }
}

void add_washouts(const stage& s, std::vector<fit_case>& out) {
  const auto& all = s.m.tests.front().test.washouts;
  for (const washout& w : all) {
    const reported_washout told{{w.why.rule, washout_answer::cannot_stop, {}, false}, ""};
    for (const auto part : {medicine_part::question, medicine_part::how, medicine_part::last_dose,
                            medicine_part::advice}) {
      for (const bool again : {false, true})
        out.push_back(
            {w.why.rule, [=](stage& x) {
               choosing_of(x, 0, medicine_page{w.why.rule, part});
               if (again) {
                 x.m.plan_for("2027-04-06 07:30");
                 x.u.nav.open = side_page::choose;
                 x.u.drafts.plan.asks_later.insert(w.why.rule);
               }
               if (again && part == medicine_part::question)
                 x.m.tell(reported_washout{
                     {w.why.rule, washout_answer::last_on, *parse_date("2027-03-24"), false}, ""});
               else if (again || part == medicine_part::advice)
                 x.m.tell(told);
             }});
    }
    out.push_back({w.why.rule + " who", [=](stage& x) {
                     choosing_of(x, 0, medicine_page{w.why.rule, medicine_part::who});
                     x.m.tell(told);
                   }});
  }
}

void look_once(stage& s) {
  s.m.preview = preview_plan(s.u.drafts.plan, s.m.s, s.m.tests, s.m.at.wall, s.m.z);
}

void at_the_start(stage& s) {
  choosing_of(s, 0, {});
  test::nothing_against(s.m);
  s.u.drafts.plan.home.days.any = true;
  s.u.drafts.plan.home.answered = true;
}

void add_starts(std::vector<fit_case>& out) {
  for (const page shown : {page::hours, page::days, page::times, page::start, page::review,
                           page::fold, page::test, page::form, page::ask_packet})
    out.push_back({"page " + std::to_string(static_cast<int>(shown)), [=](stage& s) {
                     at_the_start(s);
                     s.u.nav.page = shown;
                     look_once(s);
                   }});
  out.push_back(
      {"too soon, in a week that is short", [](stage& s) {
         at_the_start(s);
         s.m.tell(reported_washout{
             {"antibiotics", washout_answer::until, *parse_date("2027-04-03"), false}, ""});
         s.m.tell(reported_kit{"FV-L2-4K7", "FV-4K7", "lactulose-10g", *parse_date("2027-06-30")});
         s.u.drafts.plan.home.days = {false, {1, 3}};
         s.u.drafts.plan.date = *parse_date("2027-04-02");
         s.u.drafts.plan.minute = 0;
         s.u.nav.open = side_page::choose;
         look_once(s);
       }});
  out.push_back(
      {"no start before the kit's last day", [](stage& s) {
         at_the_start(s);
         s.m.tell(reported_kit{"FV-L2-4K7", "FV-4K7", "lactulose-10g", *parse_date("2027-04-01")});
         look_once(s);
       }});
  out.push_back({"a time that does not exist", [](stage& s) {
                   at_the_start(s);
                   look_once(s);
                   s.m.preview.possible.reset();
                   s.m.preview.problem = "no such time";
                 }});
  out.push_back({"who said so, someone else", [](stage& s) {
                   const caution& third = s.m.tests[0].test.cautions[2];
                   choosing_of(s, 0, caution_page{third.why.rule, caution_part::said});
                   s.m.tell(reported_of(third, asked_outcome::not_asked));
                   s.u.drafts.plan.advice.who = adviser::other;
                 }});
  for (const bool all : {false, true})
    out.push_back({"waiting for everybody", [=](stage& s) {
                     choosing_of(s, 0, page::waiting);
                     const protocol& p = s.m.tests.front().test;
                     for (const caution& c : p.cautions) {
                       if (c.leads == leads_to::ask_first && (all || c.why.rule == "ask-diabetes"))
                         s.m.tell(reported_of(c, asked_outcome::not_asked));
                     }
                     if (all) s.u.nav.open = side_page::choose;
                   }});
  out.push_back({"another age", [](stage& s) {
                   choosing_of(s, 0, {});
                   s.m.tell(reported_person{"Ottilie", *parse_date("2011-05-01"), "", "QB7", "x"});
                 }});
  out.push_back({"a kit that is not known", [](stage& s) {
                   choosing_of(s, 0, {});
                   s.m.tell(reported_kit{"FV-ZZ", "FV-4K7", "unheard", *parse_date("2027-06-30")});
                 }});
}

void look_through(stage& s, const fit_case& c, bool practice) {
  show_afresh(s, draw_choose, [&](stage& on) {
    on.m.practice = practice;
    c.set(on);
  });
  look_at_leaves(s, c.name);
}

} // namespace

TEST_CASE("every page before the plan fits every promised window, whatever the protocol says") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_agree, width, height);
    std::vector<fit_case> cases;
    add_cautions(s, cases);
    add_washouts(s, cases);
    add_starts(cases);
    for (const fit_case& c : cases)
      look_through(s, c, false);
    for (const fit_case& c : cases) {
      if (width < 400) look_through(s, c, true); // the banner takes room where there is least
    }
  }
}
