// Pieces of facts as JSON and back.
#include "core/record/codec_parts.hpp"

#include "core/time/zone.hpp"

namespace qb::inline records {

using json::fields;
using json::value;

value embedded(std::string_view canonical_text) {
  auto v = json::parse(canonical_text);
  QB_BELIEVE(v.has_value()); // it was read by its strict reader before it became a fact
  return *v;
}

std::string read_embedded(fields& d, const char* key) {
  const value* v = d.child(key);
  return v == nullptr ? std::string() : json::canonical(*v);
}
std::string_view read_embedded(json::canonical_fields& d, const char* key) {
  const json::spot* v = d.child(key);
  return v == nullptr ? std::string_view() : v->bytes;
}

template <typename Fields>
civil_date read_date(Fields& d, const char* key) {
  const auto date = parse_date(text_to_read(d, key));
  if (date) return *date;
  d.refuse(key, "another form", "a date such as 2027-03-28");
  return {};
}

template <typename Fields>
instant read_instant(Fields& d, const char* key) {
  const auto t = parse_rfc3339_utc(text_to_read(d, key));
  if (t) return *t;
  d.refuse(key, "another form", t.error().expected);
  return {};
}

template <typename Fields>
how_known read_how(Fields& d) {
  static const std::vector<std::string> names{key_of(how_known::observed), key_of(how_known::told),
                                              key_of(how_known::estimated)};
  return static_cast<how_known>(d.choice("how", names));
}

template <typename Fields>
bool read_mark(Fields& d, const char* key) {
  if (!d.has(key)) return false;
  if (!d.boolean(key)) d.refuse(key, "false", "true, or no such field");
  return true;
}

void add_said_by(json::object& out, const std::optional<releaser>& said_by) {
  if (said_by) out.emplace_back("said_by", key_of(*said_by));
}
template <typename Fields>
std::optional<releaser> read_said_by(Fields& d) {
  static const std::vector<std::string> names{
      key_of(releaser::doctor), key_of(releaser::laboratory), key_of(releaser::pharmacist),
      key_of(releaser::person)};
  if (!d.has("said_by")) return std::nullopt;
  return static_cast<releaser>(d.choice("said_by", names));
}

value number_of(sample_number n) {
  return std::int64_t{n.value()};
}
template <typename Fields>
sample_number read_number(Fields& d, const char* key) {
  return sample_number(static_cast<int>(d.integer(key, 1, sample_number::most)));
}

value encode_scores(const std::vector<symptom_score>& scores) {
  json::array out;
  for (const symptom_score& s : scores)
    out.emplace_back(json::object{
        {"id", s.id}, {"score", s.score ? value(std::int64_t{*s.score}) : value(nullptr)}});
  return out;
}

namespace {

template <typename Value, typename Fields>
symptom_score read_score(const Value& v, Fields& one) {
  symptom_score score{one.text("id"), std::nullopt};
  const Value* given = v.find("score");
  if (given != nullptr && given->is_null()) {
    one.null("score");
  } else {
    score.score = static_cast<int>(one.integer("score", 0, most_score));
  }
  return score;
}

} // namespace

template <typename Fields>
std::vector<symptom_score> read_scores(Fields& d) {
  std::vector<symptom_score> out;
  const auto items = d.children("scores", 0, most_items);
  for (std::size_t i = 0; i < items.size(); ++i) {
    Fields one(*items[i], d.place("scores", i));
    out.push_back(read_score(*items[i], one));
    d.absorb(one.finish());
  }
  return out;
}

template <typename Fields>
std::vector<std::string> read_list(Fields& d, const char* key) {
  return d.texts(key, 0, most_items);
}

// For both readers of fields.
template civil_date read_date(fields&, const char*);
template civil_date read_date(json::canonical_fields&, const char*);
template instant read_instant(fields&, const char*);
template instant read_instant(json::canonical_fields&, const char*);
template how_known read_how(fields&);
template how_known read_how(json::canonical_fields&);
template bool read_mark(fields&, const char*);
template bool read_mark(json::canonical_fields&, const char*);
template std::optional<releaser> read_said_by(fields&);
template std::optional<releaser> read_said_by(json::canonical_fields&);
template sample_number read_number(fields&, const char*);
template sample_number read_number(json::canonical_fields&, const char*);
template std::vector<symptom_score> read_scores(fields&);
template std::vector<symptom_score> read_scores(json::canonical_fields&);
template std::vector<std::string> read_list(fields&, const char*);
template std::vector<std::string> read_list(json::canonical_fields&, const char*);

} // namespace qb::inline records
