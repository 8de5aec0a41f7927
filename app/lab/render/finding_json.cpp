// Field by field, in one order.
#include "app/lab/render/finding_json.hpp"

namespace qb::lab {

namespace {

using json::list_of;
using json::object;
using json::value;

value aside_json(const std::optional<override_of>& o) {
  if (!o) return nullptr;
  return object{{"by", o->by}, {"reason", o->reason}, {"at", rfc3339_utc(o->at)}};
}

} // namespace

value finding_json(const finding& f) {
  return object{{"rule", f.rule},
                {"weight", consequence_text(f.weight)},
                {"tube", f.sample ? value(f.sample->value()) : value()},
                {"words", f.words},
                {"events", list_of(f.events)},
                {"figures", list_of(f.figures)}};
}

value finding_json(const case_finding& f) {
  value out = finding_json(f.what);
  out.set("name", f.name);
  out.set("source", json::text_or_null(f.source));
  out.set("consequence", consequence_text(f.weight));
  out.set("set_aside", aside_json(f.aside));
  return out;
}

value finding_json(const std::string& rule) {
  return object{{"rule", rule},     {"weight", value()}, {"tube", value()},
                {"words", value()}, {"events", value()}, {"figures", value()}};
}

} // namespace qb::lab
