// The head of a log, gathered from its events.
#include "core/record/log_header.hpp"

#include "core/record/codec.hpp"
#include "core/record/codec_kinds.hpp"

#include <algorithm>

namespace qb::inline records {

namespace {

using json::array;
using json::object;
using json::value;

value named_rules(const std::string& id, const std::string& digest) {
  return object{{"id", id}, {"sha256", digest}};
}

value without(const value& v, const char* name) {
  object kept;
  for (const json::member& m : *v.members()) {
    if (m.first != name) kept.push_back(m);
  }
  return kept;
}

const std::string& rule_of(const reported_caution& x) {
  return x.rule;
}
const std::string& rule_of(const reported_washout& x) {
  return x.what.rule;
}

// The latest answer of each rule takes the place of its first.
template <typename Answer>
void put_answer(std::vector<const event*>& answers, const event& e) {
  const auto rule = [](const event& one) -> const std::string& {
    return rule_of(std::get<Answer>(one.what));
  };
  const auto same = std::find_if(answers.begin(), answers.end(),
                                 [&](const event* one) { return rule(*one) == rule(e); });
  if (same == answers.end()) {
    answers.push_back(&e);
  } else {
    *same = &e;
  }
}

array data_of(const std::vector<const event*>& all) {
  array out;
  for (const event* e : all)
    out.push_back(encode_payload(e->what));
  return out;
}

} // namespace

header_events header_events_of(const std::vector<event>& events) {
  header_events in;
  for (const event& e : events) {
    if (std::holds_alternative<opened>(e.what)) {
      in.opening = &e;
    } else if (std::holds_alternative<plan_made>(e.what)) {
      in.plan = &e;
    } else if (std::holds_alternative<reported_person>(e.what)) {
      in.person = &e;
    } else if (std::holds_alternative<reported_caution>(e.what)) {
      put_answer<reported_caution>(in.cautions, e);
    } else if (std::holds_alternative<reported_washout>(e.what)) {
      put_answer<reported_washout>(in.washouts, e);
    } else if (std::holds_alternative<reported_slip>(e.what)) {
      in.slips.push_back(&e);
    } else if (std::holds_alternative<reported_ready>(e.what)) {
      in.ready = &e;
    }
  }
  return in;
}

const std::string& header_zone(const std::vector<event>& events, const header_events& in) {
  return in.plan == nullptr ? events.front().at.zone
                            : std::get<plan_made>(in.plan->what).what.zone_name;
}

// Of rules that cannot be read, which no reader lets in, nothing is said.
value header_rules(const header_events& in, frozen_rules& known) {
  value profile;
  value test;
  if (in.opening != nullptr) {
    if (const auto rules = known.profile(std::get<opened>(in.opening->what).profile_text))
      profile = named_rules((*rules)->rules->id, (*rules)->digest);
  }
  if (in.plan != nullptr) {
    if (const auto rules = known.plan(std::get<plan_made>(in.plan->what).protocol_text))
      test = named_rules((*rules)->rules->id, (*rules)->digest);
  }
  return object{{"profile", std::move(profile)}, {"protocol", std::move(test)}};
}

json::object header_of(const std::vector<event>& events) {
  frozen_rules known;
  const header_events in = header_events_of(events);
  const auto one = [](const event* e) { return e == nullptr ? value() : encode_payload(e->what); };
  const value person = one(in.person);
  return object{{"zone", events.empty() ? value() : value(header_zone(events, in))},
                {"rules", header_rules(in, known)},
                {"person", in.person == nullptr ? value() : without(person, not_in_header)},
                {"answers", object{{"cautions", data_of(in.cautions)},
                                   {"washouts", data_of(in.washouts)},
                                   {"slips", data_of(in.slips)},
                                   {"ready", one(in.ready)}}}};
}

} // namespace qb::inline records
