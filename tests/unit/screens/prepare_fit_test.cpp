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

void choosing(stage& s, int page) {
  s.m.open();
  s.m.introduce();
  drafted(s.u);
  s.u.page = page;
}

void at_gate(stage& s, int page, const std::string& time) {
  planned(s.m);
  s.m.go_to(time);
  s.u.page = page;
  s.u.ticked = gate_checks();
  s.u.text["gate.ticked_at"] = std::to_string(to_unix_ms(s.m.at.wall));
}

std::vector<page_case> first_cases() {
  std::vector<page_case> out;
  for (int page = 0; page <= 1; ++page)
    out.push_back({"agree", draw_agree, [page](stage& s) { s.u.page = page; }});
  for (int page = 1; page <= 7; ++page)
    out.push_back({"who", draw_who, [page](stage& s) {
                     planned(s.m);
                     s.u.open = "who";
                     s.u.page = page;
                   }});
  out.push_back({"who wrong", draw_who, [](stage& s) {
                   s.m.open();
                   s.u.page = 2;
                   s.u.text["who.birth"] = "31.2.1957";
                 }});
  for (const int page :
       {1,   2,   3,   4,   5,   6,   7,   8,   9,   10,  100, 101, 104, 200,  201,
        204, 300, 301, 400, 401, 500, 501, 507, 600, 607, 700, 800, 900, 1000, 1100})
    out.push_back({"choose", draw_choose, [page](stage& s) {
                     choosing(s, page);
                     s.m.preview_of("2027-04-06 07:30");
                   }});
  out.push_back(
      {"choose too soon", draw_choose, [](stage& s) {
         choosing(s, 4);
         s.u.open = "choose";
         s.m.tell(reported_washout{
             {"antibiotics", washout_answer::last_on, *parse_date("2027-03-20"), false}, ""});
         s.m.preview_of("2027-04-01 20:00");
       }});
  out.push_back({"choose missing", draw_choose, [](stage& s) {
                   choosing(s, 4);
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
  out.push_back(
      {"prepare more", draw_prepare, [](stage& s) { at_gate(s, 1, "2027-04-06 05:00"); }});
  for (const char* told : {"", "none", "still", "2027-03-08"})
    out.push_back({std::string("timeline ") + told, draw_timeline, [told](stage& s) {
                     planned(s.m);
                     for (const washout& w : s.m.s.test->washouts)
                       s.u.text[dose_key(w.why.rule)] = told;
                   }});
  out.push_back({"medicines with a plan", draw_choose, [](stage& s) {
                   planned(s.m);
                   s.u.open = "choose";
                 }});
  out.push_back({"evening", draw_evening, [](stage& s) { planned(s.m); }});
  for (const int page : {0, 1, 10})
    out.push_back({"labels", draw_labels_ahead, [page](stage& s) {
                     planned(s.m);
                     s.u.page = page;
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
    for (const auto& cases : {first_cases(), later_cases()}) {
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
