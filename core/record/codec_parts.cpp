// Pieces of facts as JSON and back.
#include "core/record/codec_parts.hpp"

#include "core/time/zone.hpp"

namespace qb {

using json::fields;
using json::value;

value embedded(const std::string& canonical_text) {
  auto v = json::parse(canonical_text);
  QB_BELIEVE(v.has_value()); // it was read by its strict reader before it became a fact
  return *v;
}
std::string read_embedded(fields& d, const char* key) {
  const value* v = d.child(key);
  return v == nullptr ? std::string() : json::canonical(*v);
}

civil_date read_date(fields& d, const char* key) {
  const auto date = parse_date(d.text(key));
  if (date) return *date;
  d.refuse(key, "another form", "a date such as 2027-03-28");
  return {};
}

instant read_instant(fields& d, const char* key) {
  const auto t = parse_rfc3339_utc(d.text(key));
  if (t) return *t;
  d.refuse(key, "another form", t.error().expected);
  return {};
}

how_known read_how(fields& d) {
  static const std::vector<std::string> names{key_of(how_known::observed), key_of(how_known::told),
                                              key_of(how_known::estimated)};
  return static_cast<how_known>(d.choice("how", names));
}

bool read_mark(fields& d, const char* key) {
  if (!d.has(key)) return false;
  if (!d.boolean(key)) d.refuse(key, "false", "true, or no such field");
  return true;
}

void add_said_by(json::object& out, const std::optional<releaser>& said_by) {
  if (said_by) out.emplace_back("said_by", key_of(*said_by));
}
std::optional<releaser> read_said_by(fields& d) {
  static const std::vector<std::string> names{
      key_of(releaser::doctor), key_of(releaser::laboratory), key_of(releaser::pharmacist),
      key_of(releaser::person)};
  if (!d.has("said_by")) return std::nullopt;
  return static_cast<releaser>(d.choice("said_by", names));
}

value number_of(sample_number n) {
  return std::int64_t{n.value()};
}
sample_number read_number(fields& d, const char* key) {
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

symptom_score read_score(const value& v, fields& one) {
  symptom_score score{one.text("id"), std::nullopt};
  const value* given = v.find("score");
  if (given != nullptr && given->is_null()) {
    one.null("score");
  } else {
    score.score = static_cast<int>(one.integer("score", 0, most_score));
  }
  return score;
}

} // namespace

std::vector<symptom_score> read_scores(fields& d) {
  std::vector<symptom_score> out;
  const auto items = d.children("scores", 0, most_items);
  for (std::size_t i = 0; i < items.size(); ++i) {
    fields one(*items[i], d.place("scores", i));
    out.push_back(read_score(*items[i], one));
    d.absorb(one.finish());
  }
  return out;
}

std::vector<std::string> read_list(fields& d, const char* key) {
  return d.texts(key, 0, most_items);
}

} // namespace qb
