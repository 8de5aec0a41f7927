// Kit code, cautions, washouts and the plan as JSON and back. A plan's due times are not written:
// they follow from the frozen protocol and the start, and what follows is not kept twice.
#include "core/record/codec_before.hpp"

#include "core/protocol/preparation_reader.hpp"
#include "core/record/codec_parts.hpp"
#include "core/time/zone.hpp"

namespace qb::inline records {

using json::array;
using json::fields;
using json::object;
using json::value;

value encode_fact(const reported_kit& x) {
  return object{{"code", x.code},
                {"kit_number", x.kit_number},
                {"protocol", x.protocol_id},
                {"expires", date_text(x.expires)}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_kit& x) {
  x.code = d.text("code", most_words);
  x.kit_number = d.text("kit_number", most_words);
  x.protocol_id = d.text("protocol", most_words);
  x.expires = read_date(d, "expires");
}

namespace {

const std::vector<std::string>& answerer_keys() {
  static const std::vector<std::string> keys{key_of(answerer::person), key_of(answerer::parent),
                                             key_of(answerer::carer)};
  return keys;
}

const std::vector<std::string>& releasers() {
  static const std::vector<std::string> keys{key_of(releaser::doctor),
                                             key_of(releaser::laboratory)};
  return keys;
}

} // namespace

// What was not said is left out, as records before version 3 have it.
value encode_fact(const reported_caution& x) {
  object out{{"rule", x.rule},
             {"answer", key_of(x.answer)},
             {"outcome", key_of(x.outcome)},
             {"who", x.who},
             {"words", x.words}};
  if (x.by) out.emplace_back("by", key_of(*x.by));
  if (x.said_by) out.emplace_back("said_by", key_of(*x.said_by));
  if (x.asked_again) out.emplace_back("asked_again", true);
  if (!x.for_test.empty()) out.emplace_back("for_test", x.for_test);
  return out;
}
template <typename Fields>
void decode_fact(Fields& d, reported_caution& x) {
  static const std::vector<std::string> answers{
      key_of(caution_answer::no), key_of(caution_answer::yes), key_of(caution_answer::unsure)};
  static const std::vector<std::string> outcomes{key_of(asked_outcome::not_asked),
                                                 key_of(asked_outcome::go_on),
                                                 key_of(asked_outcome::not_this_test)};
  x.rule = d.text("rule", most_words);
  x.answer = static_cast<caution_answer>(d.choice("answer", answers));
  x.outcome = static_cast<asked_outcome>(d.choice("outcome", outcomes));
  x.who = d.text("who", most_words, true);
  x.words = d.text("words", most_words, true);
  if (d.has("by")) x.by = static_cast<answerer>(d.choice("by", answerer_keys()));
  if (d.has("said_by")) x.said_by = static_cast<releaser>(d.choice("said_by", releasers()));
  x.asked_again = read_mark(d, "asked_again");
  if (d.has("for_test")) x.for_test = d.text("for_test", most_words);
}

value encode_fact(const reported_packet& x) {
  object out{
      {"name", x.name}, {"amount", std::int64_t{x.amount}}, {"unit", x.unit}, {"words", x.words}};
  if (x.asked_again) out.emplace_back("asked_again", true);
  return out;
}
template <typename Fields>
void decode_fact(Fields& d, reported_packet& x) {
  x.name = d.text("name", most_words, true);
  x.amount = static_cast<int>(d.integer("amount", 0, most_amount));
  x.unit = d.text("unit", most_words, true);
  x.words = d.text("words", most_words, true);
  x.asked_again = read_mark(d, "asked_again");
}

value encode_fact(const reported_washout& x) {
  object out{{"rule", x.what.rule},
             {"answer", washout_key(x.what.answer)},
             {"on", x.what.on ? value(date_text(*x.what.on)) : value(nullptr)},
             {"agreed", x.what.agreed},
             {"who", x.who}};
  add_said_by(out, x.said_by);
  if (x.asked_again) out.emplace_back("asked_again", true);
  return out;
}
template <typename Fields>
void decode_fact(Fields& d, reported_washout& x) {
  static const std::vector<std::string> answers{
      washout_key(washout_answer::never), washout_key(washout_answer::last_on),
      washout_key(washout_answer::until), washout_key(washout_answer::cannot_stop),
      washout_key(washout_answer::unknown)};
  x.what.rule = d.text("rule", most_words);
  x.what.answer = static_cast<washout_answer>(d.choice("answer", answers));
  const bool dated =
      x.what.answer == washout_answer::last_on || x.what.answer == washout_answer::until;
  if (dated) {
    x.what.on = read_date(d, "on");
  } else {
    d.null("on");
  }
  x.what.agreed = d.boolean("agreed");
  x.who = d.text("who", most_words, true);
  x.said_by = read_said_by(d);
  x.asked_again = read_mark(d, "asked_again");
}

value encode_fact(const plan_made& x) {
  array windows;
  for (const planned_window& w : x.what.windows)
    windows.emplace_back(
        object{{"rule", w.rule}, {"from", rfc3339_utc(w.from)}, {"until", rfc3339_utc(w.until)}});
  array washouts;
  for (const planned_washout& w : x.what.washouts)
    washouts.emplace_back(
        object{{"rule", w.rule}, {"last_dose_on_or_before", date_text(w.last_dose_on_or_before)}});
  object out{{"protocol", embedded(x.protocol_text)},
             {"form", x.form},
             {"zone", x.what.zone_name},
             {"start", rfc3339_utc(x.what.start)},
             {"windows", windows},
             {"washouts", washouts},
             {"post_on_or_before", date_text(x.what.post_on_or_before)}};
  if (x.what.start_offset) out.emplace_back("offset_s", std::int64_t{x.what.start_offset->count()});
  return out;
}

template <typename Fields>
void decode_fact(Fields& d, plan_made& x, frozen_rules& known) {
  const auto text = read_embedded(d, "protocol");
  x.form = d.text("form");
  x.what.zone_name = d.text("zone");
  x.what.start = read_instant(d, "start");
  const auto windows = d.children("windows", 0, most_rules);
  for (std::size_t i = 0; i < windows.size(); ++i) {
    Fields w(*windows[i], d.place("windows", i));
    planned_window out{w.text("rule"), {}, {}};
    out.from = read_instant(w, "from");
    out.until = read_instant(w, "until");
    d.absorb(w.finish());
    x.what.windows.push_back(std::move(out));
  }
  const auto washouts = d.children("washouts", 0, most_rules);
  for (std::size_t i = 0; i < washouts.size(); ++i) {
    Fields w(*washouts[i], d.place("washouts", i));
    planned_washout out{w.text("rule"), {}};
    out.last_dose_on_or_before = read_date(w, "last_dose_on_or_before");
    d.absorb(w.finish());
    x.what.washouts.push_back(std::move(out));
  }
  x.what.post_on_or_before = read_date(d, "post_on_or_before");
  constexpr std::int64_t most = std::chrono::seconds{most_zone_offset}.count();
  if (d.has("offset_s"))
    x.what.start_offset = std::chrono::seconds{d.integer("offset_s", -most, most)};
  if (d.failed()) return;
  const auto read = known.plan(text);
  if (!read) {
    d.refuse("protocol", "another form (" + sentence(read.error()) + ")", "a protocol");
    return;
  }
  x.protocol_text = (*read)->text;
  x.rules = (*read)->rules;
  x.what.protocol_id = x.rules->id;
  for (std::size_t i = 0; i < x.rules->offsets.size(); ++i)
    x.what.samples.push_back({sample_number::from_index(i), x.what.start + x.rules->offsets[i]});
  x.what.ends = x.what.samples.back().due;
}

// For both readers of fields.
template void decode_fact(fields&, reported_kit&);
template void decode_fact(json::canonical_fields&, reported_kit&);
template void decode_fact(fields&, reported_caution&);
template void decode_fact(json::canonical_fields&, reported_caution&);
template void decode_fact(fields&, reported_packet&);
template void decode_fact(json::canonical_fields&, reported_packet&);
template void decode_fact(fields&, reported_washout&);
template void decode_fact(json::canonical_fields&, reported_washout&);
template void decode_fact(fields&, plan_made&, frozen_rules&);
template void decode_fact(json::canonical_fields&, plan_made&, frozen_rules&);

} // namespace qb::inline records
