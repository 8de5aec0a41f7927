// Every element at every size the window is promised for, with long words.
// Nothing small, nothing outside, nothing overlapping, nothing cut.
#include "tests/unit/ui/harness.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using test::harness;

namespace {

struct sample_page {
  const char* name;
  void (*content)(toolkit&);
  void (*actions)(toolkit&);
};

void waiting(toolkit& k) {
  headline(k, "h", "Ruhen Sie sich aus. Nächster Atemstoß um 08:15");
  k.fill();
  quarter(k, "q", {0.8F, "12:27", "until tube 6", "Wednesday 08:15", false});
  k.fill();
}

void late(toolkit& k) {
  headline(k, "h", "Tube 6 is due now");
  quarter(k, "q", {0, "0:00", "tube 6", "late by 12 minutes", true});
}

void form_page(toolkit& k) {
  std::string name = "Maria-Theresia von Hohenzollernbergerhausen-Wittenstein";
  headline(k, "h", "Wer macht den Test?");
  paragraph(k, "p", "What you write stays on this device until you send it yourself.");
  (void)text_field(k, "n", {"Name", "as on the form", "", text_kind::name, 80}, name);
  (void)text_field(k, "k", {"Kit number", "", "That number has a slip in it.", text_kind::code, 20},
                   name);
  for (int i = 0; i < 2; ++i)
    (void)stepper(k, i == 0 ? "d" : "t", "Day", "Wednesday 24 September");
}

void lists_page(toolkit& k) {
  headline(k, "h", "Your preparation");
  timeline(k, "t",
           {{"Monday 07:30", "Plain food only", moment_state::past},
            {"Monday 19:30", "Only water, until it is over", moment_state::now},
            {"Tuesday 07:30", "First breath, then the drink", moment_state::next}});
  notice(k, "n", notice_kind::needs_you, "That is too soon. Choose a later start, please.");
  notice(k, "m", notice_kind::note, "The earliest start is Wednesday 25 November 07:30.");
  facts(k, "f",
        {{"Breaths recorded", "9 of 10"}, {"Post on or before", "Tuesday 8 December 2026"}});
  copy_card(k, "c", "Tube", {"10", "09:45", {{"Bloating", "2"}, {"Pain", "not said", true}}, ""});
}

void choosing(toolkit& k) {
  headline(k, "h", "Which sugar is in your kit?");
  (void)choice_list(k, "c", {{"a", "Lactulose, 10 g", "A syrup, or a powder"}, {"b", "Other", ""}},
                    "");
  for (const char* key : {"r1", "r2", "r3"})
    (void)check_row(k, key, "Ten tubes are here", true);
  for (const char* key : {"s1", "s2"}) {
    (void)score(k, key, {"Bauchschmerzen", "keine", "die schlimmsten", "Leave out", 4, false});
  }
}

void breathing(toolkit& k) {
  headline(k, "h", "Straw halfway into tube 10");
  breath(k, "b1", {breath_phase::lead_in, "3", "Breathe in as usual", 0.4F, 0.6F});
  breath(k, "b2", {breath_phase::blow, "5", "Keep blowing gently", 0.5F, 0.6F});
  breath(k, "b3", {breath_phase::close, "", "Close the lid at once", 1, 0.6F});
  label_card(k, "l", "Label 10", {{"Date", "24 Nov 2026"}, {"Doctor", "Dr Isolde Fennimore"}});
  big_figure(k, "g", "started at", "Wednesday 07:34");
  picture(k, "pic", picture_of::drink, "A glass");
}

void some_actions(toolkit& k) {
  (void)primary_button(k, "go", "Ich habe alles gelesen und verstanden, weiter");
  (void)secondary_button(k, "other", "Take the earliest start");
  (void)quiet_button(k, "quiet", "Move the test");
}

void pair_actions(toolkit& k) {
  (void)button_pair(k, "before", "Row before", "next", "Next row");
  waiting_button(k, "wait", "Choose one to go on");
}

const sample_page pages[] = {
    {"waiting", waiting, some_actions},   {"late", late, pair_actions},
    {"form", form_page, some_actions},    {"lists", lists_page, pair_actions},
    {"choosing", choosing, some_actions}, {"breathing", breathing, pair_actions},
};

void walk(harness& h) {
  h.frames(1);
  CHECK(h.faults() == std::vector<std::string>{});
  for (int panel = 0; h.find("page-more") != nullptr && panel < 20; ++panel) {
    REQUIRE(h.press("page-more"));
    CHECK(h.faults() == std::vector<std::string>{});
  }
}

} // namespace

TEST_CASE("every element fits every promised window, in both banners and all looks") {
  const std::pair<float, float> windows[] = {{360, 640}, {390, 844}, {480, 800}, {800, 480}};
  for (const auto& [width, height] : windows) {
    for (const sample_page& page : pages) {
      for (const bool practice : {false, true}) {
        harness h(width, height, 0, practice ? look::dark : look::light);
        h.draw = [&](toolkit& k) {
          page_options o;
          o.screen = page.name;
          o.practice = practice;
          if (practice) o.rack.assign(10, tube_mark::next);
          if (!practice) o.where = "Sample 6 of 10";
          (void)k.page(
              o, [&] { page.content(k); }, [&] { page.actions(k); });
        };
        INFO(page.name << " at " << width << " by " << height << (practice ? " practice" : ""));
        walk(h);
      }
    }
  }
}

TEST_CASE("in the smallest window there is, nothing is cut, small or in another's place") {
  for (const sample_page& page : pages) {
    harness h(360, 480);
    h.draw = [&](toolkit& k) {
      page_options o;
      o.screen = page.name;
      o.where = "Sample 6 of 10";
      (void)k.page(
          o, [&] { page.content(k); }, [&] { pair_actions(k); });
    };
    INFO(page.name);
    walk(h);
  }
}

TEST_CASE("the page turn's words fit beside each other, however they are called") {
  for (const float width : {360.0F, 390.0F, 480.0F, 800.0F}) {
    harness h(width, width > 500 ? 480.0F : 640.0F);
    toolkit_words long_words = test::some_words();
    long_words.back = "Page before";
    long_words.more = "More of this";
    h.the_kit().set_words(long_words);
    for (const bool on_all : {false, true}) {
      h.draw = [&](toolkit& k) {
        page_options o;
        o.screen = on_all ? "all" : "last";
        o.actions_on_all = on_all;
        (void)k.page(
            o, [&] { lists_page(k), choosing(k); }, [&] { waiting_button(k, "w", "Wait"); });
      };
      INFO(width << (on_all ? " on all" : ""));
      walk(h);
    }
  }
}

TEST_CASE("the countdown has one size for the whole quarter, and a large one in the least ring") {
  harness h(360, 640);
  h.draw = [](toolkit& k) {
    const pen p = k.ink();
    for (float room = 100; room < 300; room += 5) {
      const face whole = quarter_face(p, "15:00", room);
      for (const char* figure : {"14:59", "11:11", "10:00", "9:59", "1:11", "0:00"}) {
        INFO(figure << " in " << room);
        CHECK(quarter_face(p, figure, room) == whole);
        if (whole != face::figure) CHECK(p.figures_width(whole, figure) <= room);
      }
    }
    CHECK(quarter_face(p, "15:00", 169) == face::countdown_close);
    CHECK(quarter_face(p, "0:00", 230) == face::countdown);
    CHECK(quarter_face(p, "1:15:00", 169) == face::figure);
  };
  h.frames(1);
}

TEST_CASE("a long name on a label is as large as the date beneath it, over two lines if need be") {
  harness h(360, 640);
  std::string name = "Bo";
  h.draw = [&](toolkit& k) {
    page_options o;
    o.screen = "label";
    (void)k.page(
        o,
        [&] {
          label_card(k, "l", "Tube 3", {{"Name", name}, {"Date", "24 Nov 2026"}});
        },
        [] {});
  };
  h.frames(1);
  const element short_name = *h.find("l-1");
  CHECK(short_name.h == h.find("l-2")->h);
  name = "Maria Theresia Wittensteinberger";
  h.frames(1);
  CHECK(h.find("l-1")->h > short_name.h);
  CHECK(h.find("l-2")->y >= h.find("l-1")->y + h.find("l-1")->h);
  CHECK(h.faults() == std::vector<std::string>{});
  name = "Maria-Theresia Annunziata von Hohenzollernbergerhausen-Wittenstein";
  h.frames(1);
  CHECK(h.find("l-1")->h > 80);
  CHECK(h.faults() == std::vector<std::string>{});
}

TEST_CASE("syrup is poured from another picture than powder, and neither is the drinking") {
  harness h(360, 640);
  picture_of what = picture_of::syrup_glass;
  h.draw = [&](toolkit& k) {
    page_options o;
    o.screen = "picture";
    (void)k.page(
        o, [&] { picture(k, "p", what, "A glass"); }, [] {});
  };
  h.frames(1);
  const auto syrup = h.picture();
  CHECK(h.find("p") != nullptr);
  for (const picture_of other : {picture_of::sugar_glass, picture_of::drink}) {
    what = other;
    h.frames(1);
    CHECK(h.picture() != syrup);
  }
}

TEST_CASE("lines of running text stay under sixty characters, and no-break spaces hold") {
  harness h(1600, 2600, 1);
  h.draw = [](toolkit& k) {
    const pen p = k.ink();
    std::string words;
    for (int i = 0; i < 60; ++i)
      words += "plain words ";
    for (const std::string& line : p.wrap(face::body, words, 1500).text)
      CHECK(line.size() <= 64);
    const std::string held = "at\u00A008:15";
    const lines set = p.wrap(face::body, "Blow into the tube " + held, 120);
    bool whole = false;
    for (const std::string& line : set.text)
      whole |= line.find(held) != std::string::npos;
    CHECK(set.text.size() > 1);
    CHECK(whole);
  };
  h.frames(1);
}
