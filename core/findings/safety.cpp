// From answers, packets and the drink to findings; nothing is judged here, only said.
#include "core/findings/safety.hpp"
#include "core/session/most_rules.hpp"
#include "core/session/readiness.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline findings {

namespace {

using list = std::vector<finding>;

const char* answer_words(caution_answer a) {
  switch (a) {
  case caution_answer::no: return "no";
  case caution_answer::yes: return "yes";
  case caution_answer::unsure: return "not sure";
  }
  QB_BELIEVE(false);
  return "";
}

std::string name_of(const state& s, const std::string& rule) {
  return s.test ? name_of_rule(*s.test, rule) : rule;
}

// What an answer became: the next that weighed less, or the one that counts.
void answers_taken_back(const state& s, const zone& z, list& out) {
  for (const noted_caution& told : s.cautions) {
    for (const earlier_answer& was : told.earlier) {
      const bool same_answer = was.answer == was.became; // what was said of it became less
      const bool released = same_answer && was.became_outcome == asked_outcome::go_on;
      std::string words = fmt::format(
          "{}: said {} at {}, then {} at {}", name_of(s, told.what.rule),
          same_answer ? "not this test" : answer_words(was.answer),
          day_and_time(was.at, was.until, z), released ? "go on" : answer_words(was.became),
          clock_text(z.civil_at(was.until)));
      out.push_back({"answer-taken-back",
                     consequence::review,
                     {},
                     {was.seq, was.until_seq},
                     {},
                     std::move(words)});
    }
  }
}

// The same of medicines and what else is waited for: a shorter wait than was told before.
void washouts_taken_back(const state& s, const zone& z, list& out) {
  for (const noted_washout& told : s.washouts) {
    for (const earlier_washout& was : told.earlier) {
      std::string words =
          fmt::format("{}: said {} at {}, then {} at {}", name_of(s, told.what.what.rule),
                      words_of(was.was), day_and_time(was.at, was.until, z), words_of(was.became),
                      clock_text(z.civil_at(was.until)));
      out.push_back({"answer-taken-back",
                     consequence::review,
                     {},
                     {was.seq, was.until_seq},
                     {},
                     std::move(words)});
    }
  }
}

// Another packet than the plan's, and when it was taken back, if it was.
void other_packets(const state& s, const zone& z, list& out) {
  for (const noted_other_packet& other : s.other_packets) {
    const noted_packet& told = other.told;
    std::string words = "the packet of sugar was told to say something else";
    if (!told.what.name.empty())
      words += fmt::format(": {}, {} {}", told.what.name, told.what.amount, told.what.unit);
    if (!told.what.words.empty()) words += " (" + told.what.words + ")";
    std::vector<std::int64_t> events{told.seq};
    if (other.until_seq != 0) {
      events.push_back(other.until_seq);
      words += fmt::format(" at {}, then the right one at {}",
                           day_and_time(told.at.wall, other.until, z),
                           clock_text(z.civil_at(other.until)));
    }
    out.push_back(
        {"packet-differs", consequence::review, {}, std::move(events), {}, std::move(words)});
  }
}

std::string hindrance_words(const state& s, const hindrance& h) {
  switch (h.what) {
  case hindrance_kind::never: return name_of(s, h.rule) + " (not this test)";
  case hindrance_kind::refused: return name_of(s, h.rule) + " (was told not to)";
  case hindrance_kind::ask_first: return name_of(s, h.rule) + " (nobody said to go on)";
  case hindrance_kind::not_agreed: return name_of(s, h.rule) + " (nobody agreed who may)";
  case hindrance_kind::old_rules: return "rules of an earlier version";
  case hindrance_kind::wrong_age: return "age";
  case hindrance_kind::other_kit: return "a kit for another test";
  case hindrance_kind::kit_expired: return "the kit's last day";
  case hindrance_kind::packet_differs: return "another packet";
  case hindrance_kind::unwell: return "felt unwell";
  case hindrance_kind::signs_unasked: return "the warning signs were not asked";
  case hindrance_kind::unanswered: return name_of(s, h.rule) + " (not answered)";
  case hindrance_kind::packet_unread: return "the packet was not read out";
  case hindrance_kind::below_least: return name_of(s, h.rule) + " (under the least)";
  }
  QB_BELIEVE(false);
  return "";
}

void drunk_against(const state& s, list& out) {
  if (!s.drink_start || s.drunk_against.empty()) return;
  std::string names;
  for (const hindrance& h : s.drunk_against)
    names += (names.empty() ? "" : "; ") + hindrance_words(s, h);
  out.push_back({"drunk-against",
                 consequence::review,
                 {},
                 {s.drink_start->seq},
                 {static_cast<std::int64_t>(s.drunk_against.size())},
                 "drunk while this stood against it: " + names});
}

// What the state does not keep any more.
void beyond_any_test(const state& s, list& out) {
  for (const auto& [kept, name] :
       {std::pair(s.cautions.size(), "questions"), std::pair(s.washouts.size(), "medicines")})
    if (kept == most_kept_rules)
      out.push_back(
          {"record-unusual",
           consequence::review,
           {},
           {},
           {static_cast<std::int64_t>(kept)},
           fmt::format("more {} were answered than any test asks; the first {} are weighed", name,
                       kept)});
}

} // namespace

std::vector<finding> safety_findings(const state& s, const zone& z) {
  list out;
  if (s.profile && s.profile->for_trying && !s.rehearsal())
    out.push_back({"for-trying",
                   consequence::review,
                   {},
                   {1},
                   {},
                   "done for an invented laboratory, to try the program: not a test"});
  beyond_any_test(s, out);
  answers_taken_back(s, z, out);
  washouts_taken_back(s, z, out);
  other_packets(s, z, out);
  drunk_against(s, out);
  return out;
}

} // namespace qb::inline findings
