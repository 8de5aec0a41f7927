// Every page of the preparation at every promised size: nothing cut, small, outside or overlapping,
// and no sentence missing.
#include "tests/unit/screens/panels.hpp"

#include <algorithm>
#include <functional>
#include <set>

using namespace qb;
using test::drafted;
using test::planned;
using test::stage;

namespace {

struct page_case {
  std::string name;
  test::screen draw;
  std::function<void(stage&)> set;
};

void choosing(stage& s, choose_page page) {
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.nav.page = std::move(page);
}

// Every page of making a plan: each by itself, then each part of some questions.
std::vector<choose_page> pages_of(const protocol& p) {
  std::vector<choose_page> out{plan_page::test,       plan_page::form,   plan_page::hours,
                               plan_page::start,      plan_page::review, plan_page::waiting,
                               plan_page::ask_packet, plan_page::fold,   plan_page::days,
                               plan_page::times};
  const auto& washouts = p.washouts;
  for (const washout* w : {&washouts.at(0), &washouts.at(1), &washouts.at(4)}) {
    for (const auto part :
         {medicine_part::question, medicine_part::advice, medicine_part::last_dose,
          medicine_part::how, medicine_part::who, medicine_part::said})
      out.emplace_back(medicine_page{w->why.rule, part});
  }
  for (const caution* c : {&p.cautions.at(0), &p.cautions.at(1), &p.cautions.back()}) {
    for (const auto part : {caution_part::question, caution_part::ask, caution_part::answer,
                            caution_part::who, caution_part::said})
      out.emplace_back(caution_page{c->why.rule, part});
  }
  return out;
}

std::vector<page_case> first_cases(const protocol& first) {
  std::vector<page_case> out;
  for (const agree_page page : {agree_page::what, agree_page::kept})
    out.push_back({"agree", draw_agree, [page](stage& s) { s.u.nav.page = page; }});
  for (const who_page page : {who_page::name, who_page::birth, who_page::doctor, who_page::kit,
                              who_page::laboratory, who_page::check, who_page::change})
    out.push_back({"who", draw_who, [page](stage& s) {
                     planned(s.m);
                     s.u.nav.open = side_page::who;
                     s.u.nav.page = page;
                   }});
  out.push_back({"who wrong", draw_who, [](stage& s) {
                   s.m.open();
                   s.u.nav.page = who_page::birth;
                   s.u.drafts.who.birth.text = "31.2.1957";
                 }});
  for (const choose_page& page : pages_of(first))
    out.push_back({"choose", draw_choose, [page](stage& s) {
                     choosing(s, page);
                     s.m.preview_of("2027-04-06 07:30");
                   }});
  out.push_back(
      {"choose too soon", draw_choose, [](stage& s) {
         choosing(s, plan_page::start);
         s.u.nav.open = side_page::choose;
         s.m.tell(reported_washout{
             {"antibiotics", washout_answer::last_on, *parse_date("2027-03-20"), false}, ""});
         s.m.preview_of("2027-04-01 20:00");
       }});
  out.push_back({"choose missing", draw_choose, [](stage& s) {
                   choosing(s, plan_page::start);
                   s.m.preview.problem = "no such time";
                 }});
  return out;
}

std::vector<page_case> later_cases() {
  std::vector<page_case> out;
  for (const char* time :
       {"2027-04-01 10:00", "2027-04-05 10:00", "2027-04-05 21:00", "2027-04-06 05:00"}) {
    for (const bool laid_out : {false, true})
      out.push_back({std::string("prepare ") + time, draw_prepare, [=](stage& s) {
                       planned(s.m);
                       if (laid_out) s.m.tell(reported_checklist{"evening", {"pen"}});
                       s.m.go_to(time);
                     }});
  }
  out.push_back({"prepare more", draw_prepare, [](stage& s) {
                   planned(s.m);
                   s.m.go_to("2027-04-06 05:00");
                   s.u.nav.page = prepare_page::more;
                 }});
  out.push_back({"timeline", draw_timeline, [](stage& s) { planned(s.m); }});
  out.push_back({"medicines with a plan", draw_choose, [](stage& s) {
                   planned(s.m);
                   s.u.nav.open = side_page::choose;
                 }});
  out.push_back({"evening", draw_evening, [](stage& s) { planned(s.m); }});
  for (const int tube : {0, 1, 10})
    out.push_back({"labels", draw_labels_ahead, [tube](stage& s) {
                     planned(s.m);
                     if (tube > 0) s.u.nav.page = labels_page{sample_number(tube)};
                   }});
  return out;
}

void look_through(stage& s, const page_case& c, bool practice) {
  show_afresh(s, c.draw, [&](stage& on) {
    on.m.practice = practice;
    on.m.can_practise = !practice;
    c.set(on);
  });
  look_at_leaves(s, c.name);
}

} // namespace

TEST_CASE("every preparation page fits every promised window and says something") {
  const std::pair<float, float> sizes[] = {{360, 640}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : sizes) {
    stage s(draw_agree, width, height);
    for (const auto& cases : {first_cases(s.m.tests.front().test), later_cases()}) {
      for (const page_case& c : cases) {
        for (const bool practice : {false, true})
          look_through(s, c, practice);
      }
    }
  }
}

TEST_CASE("the preparation's sentences are short") {
  const words t = test::shipped_words();
  const std::set<std::string> prefixes{"agree",    "who",  "choose",  "prepare", "gate",
                                       "timeline", "slip", "evening", "labels"};
  for (const auto& [key, text] : t.all()) {
    if (prefixes.count(key.substr(0, key.find('.'))) == 0) continue;
    std::size_t words_so_far = 1;
    std::size_t longest = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] == ' ') ++words_so_far;
      if (text[i] == '.' || text[i] == '?' || text[i] == ':') words_so_far = 0;
      longest = std::max(longest, words_so_far);
    }
    INFO(key << ": " << text);
    CHECK(longest <= 15);
  }
}
