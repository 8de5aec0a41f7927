// Judging, folding and writing what waits.
#include "core/record/waiting.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/record/codec.hpp"
#include "core/record/codec_kinds.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline records {

namespace {

// The fact and its reading as the record has them, so that two can be held against each other.
std::string as_kept(const payload& what, const clock_reading& at) {
  return json::canonical(encode_event(event{0, at, what}));
}

// Names the fact to whoever reads the record; with what it said where that is short enough.
reported_comment note_of(const accepted_command& a) {
  const std::string named =
      fmt::format("Pressed, and could not be kept as it was: {}", kind_name(a.wanted.wanted));
  const std::string full = named + " " + json::canonical(encode_payload(a.wanted.wanted));
  const bool fits = character_count(full) <= most_words && json::is_plain_line(full);
  return {fits ? full : named};
}

} // namespace

std::vector<payload> forms_of(const accepted_command& a) {
  std::vector<payload> out{a.wanted.wanted};
  const payload& p = a.wanted.wanted;
  // A drink that was begun is never refused, nor a tube that was closed while its breath is known
  // to nobody: the press saw the moment.
  if (std::holds_alternative<drink_started>(p))
    out.emplace_back(reported_drink{a.at.wall, how_known::observed});
  if (const auto* closed = std::get_if<tube_closed>(&p))
    out.emplace_back(reported_breath{closed->sample, a.at.wall, how_known::observed});
  out.emplace_back(note_of(a));
  return out;
}

void waiting_facts::stand_on(const engine& e) {
  durable_seq_ = e.current().seq;
  shown_ = e.expected();
  for (const accepted_command& a : waiting_) {
    for (payload& form : forms_of(a)) {
      const auto batch = batch_of(shown_, command{std::move(form)}, a.at);
      if (!batch) continue;
      for (const event& one : *batch)
        shown_ = apply(std::move(shown_), one);
      break;
    }
  }
}

result<void> waiting_facts::tell(engine* open, const command& c, const clock_reading& r) {
  if (open != nullptr && empty()) {
    const auto done = open->submit(c, r);
    if (done || done.error().kind != refusal_kind::machine) return done;
  }
  if (open != nullptr && open->failure()) take_over(*open);
  return take(c, r);
}

void waiting_facts::take_over(engine& failed) {
  const auto first = failed.take_unwritten();
  waiting_.insert(waiting_.begin(), first.begin(), first.end());
  stand_on(failed);
}

result<void> waiting_facts::take(const command& c, const clock_reading& r) {
  const auto* right = std::get_if<corrected>(&c.wanted);
  if (right != nullptr && right->seq > durable_seq_)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "no.not-saved", "",
                                  "This is not saved yet. Please put it right later."});
  const auto batch = batch_of(shown_, c, r);
  if (!batch) return tl::unexpected(batch.error());
  for (const event& e : *batch)
    shown_ = apply(std::move(shown_), e);
  waiting_.push_back({c, r});
  return {};
}

// A write that was said to have failed may have reached the disk all the same.
bool waiting_facts::is_written(const engine& reread, const accepted_command& a) const {
  std::vector<std::string> wanted;
  for (const payload& form : forms_of(a))
    wanted.push_back(as_kept(form, a.at));
  const auto& events = reread.events();
  return std::any_of(events.begin(), events.end(), [&](const event& e) {
    return e.seq > durable_seq_ &&
           std::find(wanted.begin(), wanted.end(), as_kept(e.what, e.at)) != wanted.end();
  });
}

bool waiting_facts::write_one(engine& reread, const accepted_command& a) {
  bool as_pressed = true;
  for (payload& form : forms_of(a)) {
    const auto done = reread.submit(command{std::move(form)}, a.at);
    if (!done && done.error().kind == refusal_kind::machine) return false;
    if (done && !as_pressed) aside_.push_back({a.at.wall, true});
    if (done) return true;
    as_pressed = false;
  }
  aside_.push_back({a.at.wall, false});
  return true;
}

void waiting_facts::write_to(engine& reread) {
  while (!waiting_.empty()) {
    const accepted_command& next = waiting_.front();
    if (!is_written(reread, next) && !write_one(reread, next)) break;
    waiting_.pop_front();
    durable_seq_ = reread.current().seq;
  }
  stand_on(reread);
}

} // namespace qb::inline records
