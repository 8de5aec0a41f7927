// The head of a log, gathered from its events.
#include "core/record/log_header.hpp"

#include "core/record/codec.hpp"

#include <algorithm>

namespace qb {

namespace {

using json::array;
using json::object;
using json::value;

value part(const value& v, const char* name) {
  const value* found = v.find(name);
  return found == nullptr ? value(nullptr) : *found;
}

// The fact itself, as the event in the log has it.
value data_of(const event& e) {
  return part(encode_event(e), "data");
}

value named_rules(const value& rules) {
  return object{{"id", part(rules, "id")}, {"sha256", sha256_hex(json::canonical(rules))}};
}

value without(const value& v, const char* name) {
  object kept;
  for (const json::member& m : *v.members()) {
    if (m.first != name) kept.push_back(m);
  }
  return kept;
}

// The latest answer of each rule takes the place of its first.
void put_answer(array& answers, const value& data) {
  const std::string rule = json::canonical(part(data, "rule"));
  const auto same = std::find_if(answers.begin(), answers.end(), [&](const value& one) {
    return json::canonical(part(one, "rule")) == rule;
  });
  if (same == answers.end()) {
    answers.push_back(data);
  } else {
    *same = data;
  }
}

struct gathered {
  value zone;
  value profile;
  value protocol;
  value person;
  value ready;
  array cautions;
  array washouts;
  array slips;

  void take(const event& e) {
    if (std::holds_alternative<opened>(e.what)) {
      profile = named_rules(part(data_of(e), "profile"));
    } else if (std::holds_alternative<plan_made>(e.what)) {
      const value data = data_of(e);
      protocol = named_rules(part(data, "protocol"));
      zone = part(data, "zone");
    } else if (std::holds_alternative<reported_person>(e.what)) {
      person = without(data_of(e), "laboratory");
    } else if (std::holds_alternative<reported_caution>(e.what)) {
      put_answer(cautions, data_of(e));
    } else if (std::holds_alternative<reported_washout>(e.what)) {
      put_answer(washouts, data_of(e));
    } else if (std::holds_alternative<reported_slip>(e.what)) {
      slips.push_back(data_of(e));
    } else if (std::holds_alternative<reported_ready>(e.what)) {
      ready = data_of(e);
    }
  }
};

} // namespace

json::object header_of(const std::vector<event>& events) {
  gathered all;
  if (!events.empty()) all.zone = value(events.front().at.zone);
  for (const event& e : events)
    all.take(e);
  return object{{"zone", all.zone},
                {"rules", object{{"profile", all.profile}, {"protocol", all.protocol}}},
                {"person", all.person},
                {"answers", object{{"cautions", std::move(all.cautions)},
                                   {"washouts", std::move(all.washouts)},
                                   {"slips", std::move(all.slips)},
                                   {"ready", all.ready}}}};
}

} // namespace qb
