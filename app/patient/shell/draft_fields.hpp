// Every draft that is kept, under its key in the journal's draft table: one list for writing and
// reading. Keys stay as they are, since tests of an earlier version are opened with theirs.
#pragma once

#include "app/patient/screens/drafts.hpp"

namespace qb::inline shells {

// Hands each field to `keep`: one(key, field), by_rule(prefix, fields by rule, member),
// names(prefix, names), samples(prefix, samples), told(prefix, one of them). `Drafts` is
// all_drafts, const for writing.
template <typename Keep, typename Drafts>
void each_draft(Keep& keep, Drafts& d) {
  const auto answer = [&](const char* key, const char* seen, auto& of) {
    keep.one(key, of.text);
    keep.one(seen, of.seen);
  };
  answer("who.name", "who.name.seen", d.who.name);
  answer("who.birth", "who.birth.seen", d.who.birth);
  answer("who.doctor", "who.doctor.seen", d.who.doctor);
  answer("who.kit", "who.kit.seen", d.who.kit);
  answer("who.laboratory", "who.laboratory.seen", d.who.laboratory);
  keep.one("who.code", d.who.code);
  keep.one("who.code.none", d.who.no_code);

  keep.one("plan.test", d.plan.test);
  keep.one("plan.form", d.plan.form);
  keep.one("plan.date", d.plan.date);
  keep.one("plan.minute", d.plan.minute);
  keep.one("plan.fold", d.plan.which);
  keep.by_rule("plan.ask.", d.plan.medicines, &medicine_draft::again);
  keep.by_rule("plan.how.", d.plan.medicines, &medicine_draft::ends);
  keep.by_rule("plan.dose.", d.plan.medicines, &medicine_draft::day);
  keep.names("ask.later.", d.plan.asks_later);
  keep.one("ask.outcome", d.plan.advice.outcome);
  keep.one("ask.who", d.plan.advice.who);
  keep.one("ask.who.other", d.plan.advice.other);
  keep.one("ask.words", d.plan.advice.words);
  keep.one("home.days", d.plan.home.days);
  keep.one("home.from", d.plan.home.from);
  keep.one("home.to", d.plan.home.to);
  keep.one("home.seen", d.plan.home.answered);

  keep.one("slip.rule", d.slip.rule);
  keep.one("slip.subject", d.slip.subject);
  keep.one("slip.at", d.slip.at);
  keep.one("slip.words", d.slip.words);
  keep.one("slip.told", d.slip.told);

  keep.samples("score.", d.samples);
  keep.told("score-after.after-last.", d.after[0]);
  keep.told("score-after.later.", d.after[1]);
  keep.one("draft.right.own", d.own_reason);
  keep.one("comment", d.comment);
  keep.one("call-off.reason", d.call_off_reason);
  keep.one("answers.by", d.answers);
  keep.one("gate.who", d.gate_adviser);
  keep.one("gate.packet", d.packet_says);
  keep.one("attention.silent", d.silent);
  keep.one("handed.to", d.handed_to);
}

} // namespace qb::inline shells
