// What is told later as JSON and back.
#include "core/record/codec_later.hpp"

#include "core/record/codec_parts.hpp"

namespace qb::inline records {

using json::fields;
using json::object;
using json::value;

namespace {

template <typename Fields>
score_time read_score_time(Fields& d, const char* key) {
  static const std::vector<std::string> times{key_of(score_time::after_last),
                                              key_of(score_time::later)};
  return static_cast<score_time>(d.choice(key, times));
}

} // namespace

value encode_fact(const reported_drink& x) {
  return object{{"started", rfc3339_utc(x.started)}, {"how", key_of(x.how)}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_drink& x) {
  x.started = read_instant(d, "started");
  x.how = read_how(d);
}

value encode_fact(const reported_drink_trouble& x) {
  return object{{"what", key_of(x.what)},
                {"kept", key_of(x.kept)},
                {"when", rfc3339_utc(x.when)},
                {"how", key_of(x.how)},
                {"words", x.words}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_drink_trouble& x) {
  static const std::vector<std::string> whats{
      key_of(drink_mishap::slow), key_of(drink_mishap::unfinished), key_of(drink_mishap::spilled),
      key_of(drink_mishap::vomited)};
  static const std::vector<std::string> parts{
      key_of(drink_part::all), key_of(drink_part::more_than_half),
      key_of(drink_part::less_than_half), key_of(drink_part::none)};
  x.what = static_cast<drink_mishap>(d.choice("what", whats));
  x.kept = static_cast<drink_part>(d.choice("kept", parts));
  x.when = read_instant(d, "when");
  x.how = read_how(d);
  x.words = d.text("words", most_words, true);
}

namespace {

void add(object& out, const right_time& x) {
  out.emplace_back("field", "time");
  out.emplace_back("time", rfc3339_utc(x.time));
  out.emplace_back("how", key_of(x.how));
}
void add(object& out, const right_tube& x) {
  out.emplace_back("field", "tube");
  out.emplace_back("really", number_of(x.really));
}
void add(object& out, const right_score& x) {
  out.emplace_back("field", "score");
  out.emplace_back("symptom", x.symptom);
  if (x.score) out.emplace_back("score", std::int64_t{*x.score});
}

template <typename Fields>
decltype(corrected::to) read_right(Fields& d) {
  static const std::vector<std::string> names{"time", "tube", "score"};
  const std::string& field = names[d.choice("field", names)];
  if (field == "time") {
    right_time to{read_instant(d, "time"), how_known::told};
    to.how = read_how(d);
    return to;
  }
  if (field == "tube") return right_tube{read_number(d, "really")};
  right_score to{d.text("symptom"), std::nullopt};
  if (const auto score = d.optional_integer("score", 0, most_score))
    to.score = static_cast<int>(*score);
  return to;
}

} // namespace

value encode_fact(const corrected& x) {
  object out{{"corrects", x.seq}, {"reason", x.reason}};
  std::visit([&](const auto& to) { add(out, to); }, x.to);
  return out;
}
template <typename Fields>
void decode_fact(Fields& d, corrected& x) {
  x.seq = d.integer("corrects", 1, json::most_whole);
  x.reason = d.text("reason", most_words);
  x.to = read_right(d);
}

value encode_fact(const reported_scorer& x) {
  return object{{"self", x.self}, {"who", x.who}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_scorer& x) {
  x.self = d.boolean("self");
  x.who = d.text("who", most_words, true);
}

value encode_fact(const reported_symptoms_after& x) {
  return object{
      {"when", key_of(x.when)}, {"scores", encode_scores(x.scores)}, {"comment", x.comment}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_symptoms_after& x) {
  x.when = read_score_time(d, "when");
  x.scores = read_scores(d);
  x.comment = d.text("comment", most_words, true);
}

value encode_fact(const reported_spoil& x) {
  return object{{"sample", number_of(x.sample)}, {"what", x.what}, {"words", x.words}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_spoil& x) {
  x.sample = read_number(d);
  x.what = d.text("what", most_words, true);
  x.words = d.text("words", most_words, true);
}

value encode_fact(const reported_red_flags& x) {
  object out{{"sample", number_of(x.sample)}, {"present", json::list_of(x.present)}};
  if (x.after) out.emplace_back("after", key_of(*x.after));
  return out;
}
template <typename Fields>
void decode_fact(Fields& d, reported_red_flags& x) {
  x.sample = read_number(d);
  x.present = read_list(d, "present");
  if (d.has("after")) x.after = read_score_time(d, "after");
}

value encode_fact(const record_salvaged& x) {
  return object{{"lost", std::int64_t{x.lost}},
                {"complete", x.complete},
                {"ask_again", json::list_of(x.ask_again)}};
}
template <typename Fields>
void decode_fact(Fields& d, record_salvaged& x) {
  x.lost = static_cast<int>(d.integer("lost", 0, most_events));
  x.complete = d.boolean("complete");
  x.ask_again = read_list(d, "ask_again");
}

// For both readers of fields.
template void decode_fact(fields&, reported_drink&);
template void decode_fact(json::canonical_fields&, reported_drink&);
template void decode_fact(fields&, reported_drink_trouble&);
template void decode_fact(json::canonical_fields&, reported_drink_trouble&);
template void decode_fact(fields&, corrected&);
template void decode_fact(json::canonical_fields&, corrected&);
template void decode_fact(fields&, reported_scorer&);
template void decode_fact(json::canonical_fields&, reported_scorer&);
template void decode_fact(fields&, reported_symptoms_after&);
template void decode_fact(json::canonical_fields&, reported_symptoms_after&);
template void decode_fact(fields&, reported_spoil&);
template void decode_fact(json::canonical_fields&, reported_spoil&);
template void decode_fact(fields&, reported_red_flags&);
template void decode_fact(json::canonical_fields&, reported_red_flags&);
template void decode_fact(fields&, record_salvaged&);
template void decode_fact(json::canonical_fields&, record_salvaged&);

} // namespace qb::inline records
