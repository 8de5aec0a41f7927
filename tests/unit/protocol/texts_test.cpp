// What the shipped protocols say to the patient: short plain sentences, short enough for the
// smallest window, no order about a prescribed medicine.
#include "tests/unit/protocol/figures.hpp"

#include <sstream>

using namespace qb;
using namespace qb::test;

namespace {

struct said {
  std::string place;
  std::string text;
};

// Every text a patient reads, with its place.
std::vector<said> all_texts(const protocol& p) {
  std::vector<said> out;
  for (const preparation_window& w : p.windows) {
    out.push_back({w.why.rule, w.text});
    for (const slip_subject& s : w.subjects)
      out.push_back({w.why.rule, s.text});
  }
  for (const washout& w : p.washouts) {
    for (const std::string* text : {&w.question, &w.which, &w.text})
      out.push_back({w.why.rule, *text});
  }
  for (const holding_rule& h : p.during_test)
    out.push_back({h.why.rule, h.text});
  for (const warning_sign& s : p.warnings.signs)
    out.push_back({s.why.rule, s.text});
  for (const auto* list : {&p.breath_how, &p.expected, &p.not_expected, &p.afterwards}) {
    for (const advice& a : *list)
      out.push_back({a.why.rule, a.text});
  }
  for (const auto* list : {&p.cautions, &p.morning}) {
    for (const caution& c : *list) {
      for (const std::string* text : {&c.question, &c.text, &c.ask, &c.is_not})
        out.push_back({c.why.rule, *text});
      for (const std::string& text : c.recognise)
        out.push_back({c.why.rule, text});
    }
  }
  return out;
}

// The number of words of the longest sentence.
std::size_t longest_sentence(const std::string& text) {
  std::size_t longest = 0;
  std::size_t here = 0;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    longest = std::max(longest, ++here);
    if (std::string(".?:!").find(word.back()) != std::string::npos) here = 0;
  }
  return longest;
}

} // namespace

TEST_CASE("no sentence that a patient reads in a shipped protocol has more than 15 words") {
  CHECK(longest_sentence("Do not. Ask a doctor first.") == 4);
  for (const std::string& id : shipped_ids()) {
    for (const said& s : all_texts(shipped(id))) {
      INFO(id << " " << s.place << ": " << s.text);
      CHECK(longest_sentence(s.text) <= 15);
    }
  }
}

TEST_CASE("no text of a protocol tells anyone to stop a prescribed medicine") {
  for (const std::string& id : shipped_ids()) {
    for (const said& s : all_texts(shipped(id))) {
      INFO(id << " " << s.place << ": " << s.text);
      for (const char* order : {"Stop ", "stop taking", "Do not take your", "leave out your"})
        CHECK_FALSE(contains(s.text, order));
      // The word stands only in "never stop it" and "do not stop it", and in a question of one's
      // own.
      if (contains(s.text, "stop"))
        CHECK((contains(s.text, "Never stop") || contains(s.text, "not stop") ||
               contains(s.text, "May I stop the fast")));
    }
    for (const washout& w : shipped(id).washouts) {
      INFO(id << " " << w.text);
      if (w.kind == washout_kind::medicine) {
        CHECK(contains(w.text, "Ask your prescriber"));
        CHECK(contains(w.text, "Until they agree, keep taking them"));
      }
      if (w.kind == washout_kind::course) CHECK(contains(w.text, "Finish it as prescribed"));
    }
  }
}

TEST_CASE("how to recognise something is said in whole sentences of few words") {
  for (const std::string& id : shipped_ids()) {
    for (const auto* list : {&shipped(id).cautions, &shipped(id).morning}) {
      for (const caution& c : *list) {
        for (const std::string& one : c.recognise) {
          INFO(id << " " << c.why.rule << ": " << one);
          CHECK(one.back() == '.');
          CHECK(longest_sentence(one) <= 12);
        }
      }
    }
  }
}

TEST_CASE("every question says why it matters, whom to ask and what to ask them") {
  for (const std::string& id : shipped_ids()) {
    for (const auto* list : {&shipped(id).cautions, &shipped(id).morning}) {
      for (const caution& c : *list) {
        INFO(id << " " << c.why.rule);
        CHECK(c.text.back() == '.');
        CHECK(c.ask.back() == '?');
        CHECK_FALSE(c.whom.empty());
        const bool before = list == &shipped(id).cautions;
        CHECK((c.question.back() == '?') == before); // on the morning they are lines of one list
      }
    }
  }
}
