// Field by field: for each kind of fact its name, what is written, and how it is read back.
#include "core/record/codec_kinds.hpp"

#include "core/record/codec.hpp"
#include "core/record/codec_answers.hpp"
#include "core/record/codec_later.hpp"
#include "core/record/codec_plan.hpp"

#include <array>

namespace qb {

namespace {

using json::array;
using json::fields;
using json::object;
using json::value;

constexpr std::size_t words_size = 500;
constexpr std::size_t most_items = 64;

const std::vector<std::string>& how_names() {
  static const std::vector<std::string> names{key_of(how_known::observed), key_of(how_known::told),
                                              key_of(how_known::estimated)};
  return names;
}
const std::vector<std::string>& change_names() {
  static const std::vector<std::string> names{"stepped", "rebooted", "zone-changed"};
  return names;
}

value texts(const std::vector<std::string>& all) {
  array out;
  for (const std::string& s : all)
    out.emplace_back(s);
  return out;
}

value sample(sample_number n) {
  return std::int64_t{n.value()};
}

sample_number read_sample(fields& f) {
  return sample_number(static_cast<int>(f.integer("sample", 1, sample_number::most)));
}

how_known read_how(fields& f) {
  return static_cast<how_known>(f.choice("how", how_names()));
}

struct encoder {
  value operator()(const opened& x) const {
    return object{{"test_id", x.test_id},
                  {"program", x.program},
                  {"rehearsal", x.rehearsal},
                  {"profile", embedded(x.profile_text)}};
  }
  value operator()(const reported_person& x) const {
    return object{{"name", x.name},
                  {"birth_date", date_text(x.birth_date)},
                  {"doctor", x.doctor},
                  {"kit_number", x.kit_number},
                  {"laboratory", x.laboratory}};
  }
  value operator()(const plan_made& x) const { return encode_plan(x); }
  value operator()(const reported_slip& x) const {
    return object{{"rule", x.rule},
                  {"subject", x.subject},
                  {"when", rfc3339_utc(x.when)},
                  {"how", how_names()[static_cast<std::size_t>(x.how)]},
                  {"words", x.words}};
  }
  value operator()(const reported_checklist& x) const {
    return object{{"name", x.name}, {"items", texts(x.items)}};
  }
  value operator()(const reported_ready& x) const {
    return object{
        {"checks", texts(x.checks)}, {"not_kept", texts(x.not_kept)}, {"agreed", x.agreed}};
  }
  value operator()(const sugar_set_aside&) const { return object{}; }
  value operator()(const reported_symptoms& x) const {
    array scores;
    for (const symptom_score& s : x.scores)
      scores.emplace_back(object{
          {"id", s.id}, {"score", s.score ? value(std::int64_t{*s.score}) : value(nullptr)}});
    return object{{"sample", sample(x.sample)}, {"scores", scores}, {"comment", x.comment}};
  }
  value operator()(const breath_begun& x) const { return object{{"sample", sample(x.sample)}}; }
  value operator()(const breath_abandoned& x) const {
    return object{{"sample", sample(x.sample)}, {"reason", x.reason}};
  }
  value operator()(const tube_closed& x) const { return object{{"sample", sample(x.sample)}}; }
  value operator()(const reported_breath& x) const {
    return object{{"sample", sample(x.sample)},
                  {"closed", rfc3339_utc(x.closed)},
                  {"how", how_names()[static_cast<std::size_t>(x.how)]}};
  }
  value operator()(const repeat_wanted& x) const {
    return object{{"sample", sample(x.sample)}, {"reason", x.reason}};
  }
  value operator()(const label_written& x) const { return object{{"sample", sample(x.sample)}}; }
  value operator()(const drink_started&) const { return object{}; }
  value operator()(const drink_ended& x) const { return object{{"all_of_it", x.all_of_it}}; }
  value operator()(const reported_comment& x) const { return object{{"words", x.words}}; }
  value operator()(const reported_unwell&) const { return object{}; }
  value operator()(const unwell_over&) const { return object{}; }
  value operator()(const test_ended& x) const { return object{{"reason", x.reason}}; }
  value operator()(const resumed&) const { return object{}; }
  value operator()(const clock_changed& x) const {
    return object{{"change", change_names()[static_cast<std::size_t>(x.what.what)]},
                  {"by_ms", std::int64_t{x.what.by.count()}}};
  }
  value operator()(const exported&) const { return object{}; }
  value operator()(const reported_kit& x) const { return encode_kit(x); }
  value operator()(const reported_caution& x) const { return encode_caution(x); }
  value operator()(const reported_washout& x) const { return encode_washout(x); }
  value operator()(const plan_called_off& x) const { return object{{"reason", x.reason}}; }
  value operator()(const reported_drink& x) const { return encode_later(x); }
  value operator()(const reported_drink_trouble& x) const { return encode_later(x); }
  value operator()(const corrected& x) const { return encode_later(x); }
  value operator()(const reported_scorer& x) const { return encode_later(x); }
  value operator()(const reported_red_flags& x) const { return encode_later(x); }
};

reported_person read_person(fields& d) {
  reported_person x;
  x.name = d.text("name", words_size);
  x.birth_date = read_date(d, "birth_date");
  x.doctor = d.text("doctor", words_size, true);
  x.kit_number = d.text("kit_number", words_size);
  x.laboratory = d.text("laboratory", words_size, true);
  return x;
}

reported_symptoms read_symptoms(fields& d) {
  reported_symptoms x;
  x.sample = read_sample(d);
  const auto items = d.children("scores", 0, most_items);
  for (std::size_t i = 0; i < items.size(); ++i) {
    fields one(*items[i], d.place("scores", i));
    symptom_score score{one.text("id"), std::nullopt};
    const value* given = items[i]->find("score");
    constexpr std::int64_t most_score = 10;
    if (given != nullptr && given->is_null()) {
      one.null("score");
    } else {
      score.score = static_cast<int>(one.integer("score", 0, most_score));
    }
    d.absorb(one.finish());
    x.scores.push_back(std::move(score));
  }
  x.comment = d.text("comment", words_size, true);
  return x;
}

reported_slip read_slip(fields& d) {
  reported_slip x;
  x.rule = d.text("rule");
  x.subject = d.text("subject", words_size, true);
  x.when = read_instant(d, "when");
  x.how = read_how(d);
  x.words = d.text("words", words_size, true);
  return x;
}

clock_changed read_change(fields& d) {
  clock_change c;
  constexpr std::int64_t most_ms = 9007199254740991;
  c.what = static_cast<clock_change::kind>(d.choice("change", change_names()));
  c.by = duration{d.integer("by_ms", -most_ms, most_ms)};
  return {c};
}

opened read_opened(fields& d) {
  opened x;
  x.test_id = d.text("test_id");
  x.program = d.text("program");
  x.rehearsal = d.boolean("rehearsal");
  x.profile_text = read_embedded(d, "profile");
  if (d.failed()) return x;
  if (const auto read = read_profile(x.profile_text); !read)
    d.refuse("profile", "another form (" + sentence(read.error()) + ")", "a laboratory's profile");
  return x;
}

using reader = payload (*)(fields&);

// The names by the variant's order; a test holds the table against the variant.
struct kind {
  const char* name;
  reader read;
};
constexpr std::size_t kinds = std::variant_size_v<any_fact>;

const std::array<kind, kinds>& table() {
  static const std::array<kind, kinds> all{{
      {"opened", [](fields& d) -> payload { return read_opened(d); }},
      {"person", [](fields& d) -> payload { return read_person(d); }},
      {"plan", [](fields& d) -> payload { return decode_plan(d); }},
      {"slip", [](fields& d) -> payload { return read_slip(d); }},
      {"checklist",
       [](fields& d) -> payload {
         reported_checklist x{d.text("name"), {}};
         x.items = d.texts("items", 0, most_items);
         return x;
       }},
      {"ready",
       [](fields& d) -> payload {
         reported_ready x{d.texts("checks", 0, most_items), d.texts("not_kept", 0, most_items), ""};
         x.agreed = d.text("agreed", words_size, true);
         return x;
       }},
      {"sugar-set-aside", [](fields&) -> payload { return sugar_set_aside{}; }},
      {"symptoms", [](fields& d) -> payload { return read_symptoms(d); }},
      {"breath-begun", [](fields& d) -> payload { return breath_begun{read_sample(d)}; }},
      {"breath-abandoned",
       [](fields& d) -> payload {
         const sample_number n = read_sample(d);
         return breath_abandoned{n, d.text("reason", words_size, true)};
       }},
      {"tube-closed", [](fields& d) -> payload { return tube_closed{read_sample(d)}; }},
      {"breath-told",
       [](fields& d) -> payload {
         const sample_number n = read_sample(d);
         const instant closed = read_instant(d, "closed");
         return reported_breath{n, closed, read_how(d)};
       }},
      {"repeat-wanted",
       [](fields& d) -> payload {
         const sample_number n = read_sample(d);
         return repeat_wanted{n, d.text("reason", words_size, true)};
       }},
      {"label-written", [](fields& d) -> payload { return label_written{read_sample(d)}; }},
      {"drink-started", [](fields&) -> payload { return drink_started{}; }},
      {"drink-ended", [](fields& d) -> payload { return drink_ended{d.boolean("all_of_it")}; }},
      {"comment",
       [](fields& d) -> payload { return reported_comment{d.text("words", words_size)}; }},
      {"unwell", [](fields&) -> payload { return reported_unwell{}; }},
      {"unwell-over", [](fields&) -> payload { return unwell_over{}; }},
      {"ended", [](fields& d) -> payload { return test_ended{d.text("reason", words_size)}; }},
      {"resumed", [](fields&) -> payload { return resumed{}; }},
      {"clock-changed", [](fields& d) -> payload { return read_change(d); }},
      {"exported", [](fields&) -> payload { return exported{}; }},
      {"kit", [](fields& d) -> payload { return read_reported_kit(d); }},
      {"caution", [](fields& d) -> payload { return read_reported_caution(d); }},
      {"washout", [](fields& d) -> payload { return read_reported_washout(d); }},
      {"plan-called-off",
       [](fields& d) -> payload { return plan_called_off{d.text("reason", words_size, true)}; }},
      {"drink-told", [](fields& d) -> payload { return read_reported_drink(d); }},
      {"drink-trouble", [](fields& d) -> payload { return read_drink_trouble(d); }},
      {"corrected", [](fields& d) -> payload { return read_corrected(d); }},
      {"scorer", [](fields& d) -> payload { return read_scorer(d); }},
      {"red-flags", [](fields& d) -> payload { return read_red_flags(d); }},
  }};
  return all;
}

} // namespace

const char* kind_name(const payload& p) {
  return table().at(p.index()).name;
}

value encode_payload(const payload& p) {
  return std::visit(encoder{}, p);
}

std::optional<payload> decode_payload(const std::string& name, fields& f) {
  const value* v = f.child("data");
  if (v == nullptr) return std::nullopt;
  for (const kind& k : table()) {
    if (name != k.name) continue;
    fields d(*v, f.place("data"));
    payload p = k.read(d);
    f.absorb(d.finish());
    return p;
  }
  f.refuse("kind", "\"" + name + "\"", "a kind of event that this version knows");
  return std::nullopt;
}

} // namespace qb
