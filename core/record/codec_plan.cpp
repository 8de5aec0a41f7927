// A plan written and read back. Its due times are not written: they follow from the frozen protocol
// and the start, and what follows is not kept twice.
#include "core/record/codec_plan.hpp"

#include "core/protocol/preparation_reader.hpp"
#include "core/record/codec_parts.hpp"
#include "core/time/zone.hpp"

namespace qb {

namespace {

using json::array;
using json::fields;
using json::object;
using json::value;

} // namespace

value encode_fact(const plan_made& x) {
  array windows;
  for (const planned_window& w : x.what.windows)
    windows.emplace_back(
        object{{"rule", w.rule}, {"from", rfc3339_utc(w.from)}, {"until", rfc3339_utc(w.until)}});
  array washouts;
  for (const planned_washout& w : x.what.washouts)
    washouts.emplace_back(
        object{{"rule", w.rule}, {"last_dose_on_or_before", date_text(w.last_dose_on_or_before)}});
  return object{{"protocol", embedded(x.protocol_text)},
                {"form", x.form},
                {"zone", x.what.zone_name},
                {"start", rfc3339_utc(x.what.start)},
                {"windows", windows},
                {"washouts", washouts},
                {"post_on_or_before", date_text(x.what.post_on_or_before)}};
}

void decode_fact(fields& d, plan_made& x) {
  x.protocol_text = read_embedded(d, "protocol");
  x.form = d.text("form");
  x.what.zone_name = d.text("zone");
  x.what.start = read_instant(d, "start");
  const auto windows = d.children("windows", 0, most_rules);
  for (std::size_t i = 0; i < windows.size(); ++i) {
    fields w(*windows[i], d.place("windows", i));
    planned_window out{w.text("rule"), {}, {}};
    out.from = read_instant(w, "from");
    out.until = read_instant(w, "until");
    d.absorb(w.finish());
    x.what.windows.push_back(std::move(out));
  }
  const auto washouts = d.children("washouts", 0, most_rules);
  for (std::size_t i = 0; i < washouts.size(); ++i) {
    fields w(*washouts[i], d.place("washouts", i));
    planned_washout out{w.text("rule"), {}};
    out.last_dose_on_or_before = read_date(w, "last_dose_on_or_before");
    d.absorb(w.finish());
    x.what.washouts.push_back(std::move(out));
  }
  x.what.post_on_or_before = read_date(d, "post_on_or_before");
  if (d.failed()) return;
  const auto read = read_protocol(x.protocol_text);
  if (!read) {
    d.refuse("protocol", "another form (" + sentence(read.error()) + ")", "a protocol");
    return;
  }
  x.what.protocol_id = read->id;
  for (std::size_t i = 0; i < read->offsets.size(); ++i)
    x.what.samples.push_back({sample_number::from_index(i), x.what.start + read->offsets[i]});
  x.what.ends = x.what.samples.back().due;
}

} // namespace qb
