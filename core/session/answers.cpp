// What was answered about cautions and washouts, as the state has it.
#include "core/session/state.hpp"

#include "core/time/civil.hpp"

#include <algorithm>

namespace qb::inline sessions {

const char* key_of(caution_answer a) {
  switch (a) {
  case caution_answer::no: return "no";
  case caution_answer::yes: return "yes";
  case caution_answer::unsure: return "unsure";
  }
  QB_BELIEVE(false);
  return "";
}

const char* key_of(asked_outcome o) {
  switch (o) {
  case asked_outcome::not_asked: return "not-asked";
  case asked_outcome::go_on: return "go-on";
  case asked_outcome::not_this_test: return "not-this-test";
  }
  QB_BELIEVE(false);
  return "";
}

const char* key_of(answerer who) {
  switch (who) {
  case answerer::person: return "person";
  case answerer::parent: return "parent";
  case answerer::carer: return "carer";
  }
  QB_BELIEVE(false);
  return "";
}

const char* key_of(releaser who) {
  switch (who) {
  case releaser::doctor: return "doctor";
  case releaser::laboratory: return "laboratory";
  case releaser::pharmacist: return "pharmacist";
  case releaser::person: return "person";
  }
  QB_BELIEVE(false);
  return "";
}

const char* key_of(score_time t) {
  switch (t) {
  case score_time::after_last: return "after-last";
  case score_time::later: return "later";
  }
  QB_BELIEVE(false);
  return "";
}

const char* words_of(score_time t) {
  switch (t) {
  case score_time::after_last: return "after the last tube";
  case score_time::later: return "later the same day";
  }
  QB_BELIEVE(false);
  return "";
}

const char* paper_row_of(score_time t) {
  return t == score_time::after_last ? "A" : "B";
}

const char* key_of(drink_mishap m) {
  switch (m) {
  case drink_mishap::slow: return "slow";
  case drink_mishap::unfinished: return "unfinished";
  case drink_mishap::spilled: return "spilled";
  case drink_mishap::vomited: return "vomited";
  }
  QB_BELIEVE(false);
  return "";
}

const char* key_of(drink_part p) {
  switch (p) {
  case drink_part::all: return "all";
  case drink_part::more_than_half: return "more-than-half";
  case drink_part::less_than_half: return "less-than-half";
  case drink_part::none: return "none";
  }
  QB_BELIEVE(false);
  return "";
}

const noted_caution* find_noted_caution(const state& s, std::string_view rule) {
  const auto found =
      std::find_if(s.cautions.begin(), s.cautions.end(),
                   [&](const noted_caution& t) { return is_same_question(t.what.rule, rule); });
  return found == s.cautions.end() ? nullptr : &*found;
}

const noted_washout* find_noted_washout(const state& s, std::string_view rule) {
  const auto found = std::find_if(s.washouts.begin(), s.washouts.end(),
                                  [&](const noted_washout& t) { return t.what.what.rule == rule; });
  return found == s.washouts.end() ? nullptr : &*found;
}

const noted_spoil* spoil_of(const state& s, const taken_breath& breath) {
  const auto found = std::find_if(s.spoils.rbegin(), s.spoils.rend(),
                                  [&](const noted_spoil& x) { return x.closing == breath.seq; });
  return found == s.spoils.rend() || found->what.what.empty() ? nullptr : &*found;
}

namespace {

// How much an answer weighs against the test.
int weight_of(caution_answer a) {
  switch (a) {
  case caution_answer::no: return 0;
  case caution_answer::unsure: return 1;
  case caution_answer::yes: return 2;
  }
  QB_BELIEVE(false);
  return 0;
}

int weight_of(washout_answer a) {
  switch (a) {
  case washout_answer::never: return 0;
  case washout_answer::last_on: return 1;
  case washout_answer::until: return 2;
  case washout_answer::unknown: return 3;
  case washout_answer::cannot_stop: return 4;
  }
  QB_BELIEVE(false);
  return 0;
}

// A record from before it was asked who said so is believed where either may.
bool may_say(const caution& asked, const std::optional<releaser>& said_by) {
  const auto may = [&](releaser who) {
    const auto& those = asked.may_release;
    return std::find(those.begin(), those.end(), who) != those.end();
  };
  return said_by ? may(*said_by) : may(releaser::doctor) && may(releaser::laboratory);
}

} // namespace

bool is_never(const caution& asked, const reported_caution& told) {
  switch (told.answer) {
  case caution_answer::no: return false;
  case caution_answer::yes: return asked.leads == leads_to::not_this_test;
  case caution_answer::unsure: return asked.unsure_leads == leads_to::not_this_test;
  }
  QB_BELIEVE(false);
  return true;
}

bool takes_back(const reported_caution& earlier, const reported_caution& later) {
  if (weight_of(later.answer) < weight_of(earlier.answer)) return true;
  return earlier.outcome == asked_outcome::not_this_test &&
         later.outcome != asked_outcome::not_this_test;
}

bool takes_back(const reported_washout& earlier, const reported_washout& later) {
  const auto& was = earlier.what;
  const auto& is = later.what;
  if (was.on && is.on && std::chrono::local_days{*is.on} < std::chrono::local_days{*was.on})
    return true;
  return weight_of(is.answer) < weight_of(was.answer);
}

std::string words_of(const answered_washout& told) {
  const auto with_day = [&](const char* words) {
    return told.on ? std::string(words) + " " + date_text(*told.on) : words;
  };
  switch (told.answer) {
  case washout_answer::never: return "none";
  case washout_answer::last_on: return with_day("last on");
  case washout_answer::until: return with_day("taken until");
  case washout_answer::cannot_stop: return "goes on";
  case washout_answer::unknown: return "not known";
  }
  QB_BELIEVE(false);
  return "";
}

bool is_open(const protocol& p, const caution& asked, const reported_caution& told) {
  if (told.answer == caution_answer::no) return false;
  // What was said of one sugar and its amount says nothing of another.
  if (!told.for_test.empty() && told.for_test != p.id) return true;
  // A test that is not for this person stays so, whoever says otherwise: the laboratory finds
  // another.
  if (is_never(asked, told) || told.outcome != asked_outcome::go_on) return true;
  return !may_say(asked, told.said_by);
}

bool word_counts(const washout& asked, word_for what, const std::optional<releaser>& said_by) {
  if (!asked.may_agree) return true;
  if (!said_by || (what == word_for::going_on && *said_by == releaser::person)) return false;
  const auto& may = *asked.may_agree;
  return std::find(may.begin(), may.end(), *said_by) != may.end();
}

bool rests_on_no_word(const washout& asked, const reported_washout& told) {
  if (told.what.agreed) return !word_counts(asked, word_for::going_on, told.said_by);
  const bool pauses =
      asked.kind == washout_kind::medicine && told.what.answer == washout_answer::until;
  return pauses && !word_counts(asked, word_for::pause, told.said_by);
}

bool is_open(const washout& asked, const reported_washout& told) {
  if (rests_on_no_word(asked, told)) return true;
  const washout_answer answer = told.what.answer;
  return !told.what.agreed &&
         (answer == washout_answer::cannot_stop || answer == washout_answer::unknown);
}

const char* words_of(const std::optional<releaser>& said_by) {
  if (!said_by) return "not known who";
  switch (*said_by) {
  case releaser::doctor: return "a doctor";
  case releaser::laboratory: return "the laboratory";
  case releaser::pharmacist: return "a pharmacist";
  case releaser::person: return "the person's own choice";
  }
  QB_BELIEVE(false);
  return "";
}

const sample_bounds& bounds_of(const state& s) {
  QB_BELIEVE(s.profile.has_value());
  return s.test && s.test->bounds ? *s.test->bounds : s.profile->bounds;
}

std::chrono::seconds before_blowing(const state& s) {
  return bounds_of(s).lead_in + s.test->breath_hold;
}

} // namespace qb::inline sessions
