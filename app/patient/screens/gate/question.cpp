// The page and its second page. Three answers that look alike: none of them is wished for.
#include "app/patient/screens/gate/question.hpp"

namespace qb::inline screens {

namespace {

const noted_caution* told_before(const view& v, const caution& c) {
  return find_noted_caution(v.s, c.why.rule);
}

std::string answer_words(const view& v, caution_answer a) {
  return v.t(std::string("screening.") + key_of(a));
}

// "Yes is right"
std::string right_words(const view& v, caution_answer a) {
  return v.t(std::string("screening.right.") + key_of(a));
}

// The same answer again says nothing against what whoever was asked said.
void keep_refusal(const reported_caution& before, reported_caution& wanted) {
  if (before.outcome != asked_outcome::not_this_test) return;
  wanted.outcome = before.outcome;
  wanted.who = before.who;
  wanted.words = before.words;
  wanted.for_test = before.for_test;
}

// Asked once more, with both answers and their times: only here is an answer taken back.
asked_in_full ask_again(toolkit& k, const view& v, ui_state& u, const full_question& q,
                        const noted_caution& before, const reported_caution& wanted) {
  asked_in_full did;
  bool now = false;
  bool earlier = false;
  const auto content = [&] {
    quiet_text(k, "again", v.t("screening.again"));
    show_question(k, v, q.asked);
    paragraph(k, "both",
              v.t("screening.again.both", {{"time", when(v, before.at.wall)},
                                           {"was", answer_words(v, before.what.answer)},
                                           {"now", answer_words(v, wanted.answer)}}));
  };
  const auto actions = [&] {
    earlier = secondary_button(k, "again-earlier", right_words(v, before.what.answer));
    now = secondary_button(k, "again-now", right_words(v, wanted.answer));
  };
  did.out = framed_page(k, v, "answer-again", content, actions, page_kind::calm, q.asked.why.rule);
  if (now) did.told = wanted;
  if (now || earlier) u.drafts.taking_back.reset();
  if (earlier) did.back = true;
  return did;
}

} // namespace

void show_question(toolkit& k, const view& v, const caution& c) {
  headline(k, "title", c.question);
  if (!c.recognise.empty()) heading(k, "signs", v.t("screening.signs"));
  for (std::size_t i = 0; i < c.recognise.size(); ++i)
    paragraph(k, "sign-" + std::to_string(i + 1),
              v.t("screening.sign", {{"what", c.recognise[i]}}));
  if (!c.is_not.empty()) paragraph(k, "is-not", c.is_not);
}

std::string said_words(const view& v, const reported_caution& told) {
  std::string out = v.t("screening.you-said", {{"what", answer_words(v, told.answer)}});
  if (told.outcome != asked_outcome::not_asked)
    out += " " + v.t(std::string("screening.outcome.") + key_of(told.outcome), {{"who", told.who}});
  return out;
}

asked_in_full ask_in_full(toolkit& k, const view& v, ui_state& u, const full_question& q) {
  const noted_caution* before = told_before(v, q.asked);
  reported_caution wanted{q.asked.why.rule, {}, asked_outcome::not_asked, "", ""};
  wanted.by = u.drafts.answers;
  const auto& taking_back = u.drafts.taking_back;
  if (before != nullptr && taking_back && taking_back->rule == q.asked.why.rule) {
    wanted.answer = taking_back->now;
    wanted.asked_again = true;
    return ask_again(k, v, u, q, *before, wanted);
  }
  asked_in_full did;
  std::optional<caution_answer> said;
  const auto content = [&] {
    if (!q.place.empty()) over_headline(k, "place", q.place);
    show_question(k, v, q.asked);
    if (before != nullptr) paragraph(k, "said", said_words(v, before->what));
  };
  const auto actions = [&] {
    if (secondary_button(k, "none-true", v.t("common.no"))) said = caution_answer::no;
    if (secondary_button(k, "one-true", v.t("common.yes"))) said = caution_answer::yes;
    if (secondary_button(k, "not-sure", v.t("screening.not-sure"))) said = caution_answer::unsure;
    if (q.back && q.cancel) {
      const int pair = button_pair(k, "back", v.t("common.back"), "cancel", v.t("common.cancel"));
      did.back = pair == 1;
      did.cancel = pair == 2;
    } else if (q.back) {
      did.back = quiet_button(k, "back", v.t("common.back"));
    } else if (q.cancel) {
      did.cancel = quiet_button(k, "cancel", v.t("common.cancel"));
    }
  };
  did.out = framed_page(k, v, q.screen, content, actions, page_kind::asking, q.asked.why.rule);
  if (!said) return did;
  wanted.answer = *said;
  if (before != nullptr && before->what.answer == *said) keep_refusal(before->what, wanted);
  if (before != nullptr && takes_back(before->what, wanted)) {
    u.drafts.taking_back = taken_back{q.asked.why.rule, *said};
  } else {
    did.told = wanted;
  }
  return did;
}

} // namespace qb::inline screens
