// What is told later as JSON and back.
#include "core/record/codec_later.hpp"

#include "core/record/codec_plan.hpp"

namespace qb {

namespace {

using json::fields;
using json::object;
using json::value;

constexpr std::size_t words_size = 500;
constexpr std::size_t most_items = 64;
constexpr std::int64_t most_seq = 9007199254740991;
constexpr std::int64_t most_score = 10;

const std::vector<std::string>& how_names() {
  static const std::vector<std::string> names{key_of(how_known::observed), key_of(how_known::told),
                                              key_of(how_known::estimated)};
  return names;
}

how_known read_how(fields& d) {
  return static_cast<how_known>(d.choice("how", how_names()));
}

sample_number read_tube(fields& d, const char* key) {
  return sample_number(static_cast<int>(d.integer(key, 1, sample_number::most)));
}

void add(object& out, const right_time& x) {
  out.emplace_back("field", "time");
  out.emplace_back("time", rfc3339_utc(x.time));
  out.emplace_back("how", key_of(x.how));
}
void add(object& out, const right_tube& x) {
  out.emplace_back("field", "tube");
  out.emplace_back("really", std::int64_t{x.really.value()});
}
void add(object& out, const right_score& x) {
  out.emplace_back("field", "score");
  out.emplace_back("symptom", x.symptom);
  if (x.score) out.emplace_back("score", std::int64_t{*x.score});
}

right_score read_score(fields& d) {
  right_score x{d.text("symptom"), std::nullopt};
  if (const auto score = d.optional_integer("score", 0, most_score))
    x.score = static_cast<int>(*score);
  return x;
}

} // namespace

value encode_later(const reported_drink& x) {
  return object{{"started", rfc3339_utc(x.started)}, {"how", key_of(x.how)}};
}

value encode_later(const reported_drink_trouble& x) {
  return object{{"what", key_of(x.what)},
                {"kept", key_of(x.kept)},
                {"when", rfc3339_utc(x.when)},
                {"how", key_of(x.how)},
                {"words", x.words}};
}

value encode_later(const corrected& x) {
  object out{{"corrects", x.seq}, {"reason", x.reason}};
  std::visit([&](const auto& to) { add(out, to); }, x.to);
  return out;
}

value encode_later(const reported_scorer& x) {
  return object{{"self", x.self}, {"who", x.who}};
}

value encode_later(const reported_red_flags& x) {
  json::array present;
  for (const std::string& one : x.present)
    present.emplace_back(one);
  return object{{"sample", std::int64_t{x.sample.value()}}, {"present", present}};
}

reported_drink read_reported_drink(fields& d) {
  reported_drink x;
  x.started = read_instant(d, "started");
  x.how = read_how(d);
  return x;
}

reported_drink_trouble read_drink_trouble(fields& d) {
  static const std::vector<std::string> whats{
      key_of(drink_mishap::slow), key_of(drink_mishap::unfinished), key_of(drink_mishap::spilled),
      key_of(drink_mishap::vomited)};
  static const std::vector<std::string> parts{
      key_of(drink_part::all), key_of(drink_part::more_than_half),
      key_of(drink_part::less_than_half), key_of(drink_part::none)};
  reported_drink_trouble x;
  x.what = static_cast<drink_mishap>(d.choice("what", whats));
  x.kept = static_cast<drink_part>(d.choice("kept", parts));
  x.when = read_instant(d, "when");
  x.how = read_how(d);
  x.words = d.text("words", words_size, true);
  return x;
}

corrected read_corrected(fields& d) {
  static const std::vector<std::string> names{"time", "tube", "score"};
  corrected x;
  x.seq = d.integer("corrects", 1, most_seq);
  x.reason = d.text("reason", words_size);
  const std::string& field = names[d.choice("field", names)];
  if (field == "time") {
    right_time to{read_instant(d, "time"), how_known::told};
    to.how = read_how(d);
    x.to = to;
  } else if (field == "tube") {
    x.to = right_tube{read_tube(d, "really")};
  } else {
    x.to = read_score(d);
  }
  return x;
}

reported_scorer read_scorer(fields& d) {
  const bool self = d.boolean("self");
  return {self, d.text("who", words_size, true)};
}

reported_red_flags read_red_flags(fields& d) {
  reported_red_flags x;
  x.sample = read_tube(d, "sample");
  x.present = d.texts("present", 0, most_items);
  return x;
}

} // namespace qb
