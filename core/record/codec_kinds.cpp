// Field by field: for each kind of fact what is written and how it is read back, one below the
// other, and at the end the names of all kinds.
#include "core/record/codec_kinds.hpp"

#include "core/record/codec.hpp"
#include "core/record/codec_before.hpp"
#include "core/record/codec_later.hpp"
#include "core/record/codec_parts.hpp"

#include <array>

namespace qb {

namespace {

using json::array;
using json::fields;
using json::object;
using json::value;

value encode_fact(const opened& x) {
  return object{{"test_id", x.test_id},
                {"program", x.program},
                {"rehearsal", x.rehearsal},
                {"profile", embedded(x.profile_text)}};
}
void decode_fact(fields& d, opened& x) {
  x.test_id = d.text("test_id");
  x.program = d.text("program");
  x.rehearsal = d.boolean("rehearsal");
  x.profile_text = read_embedded(d, "profile");
  if (d.failed()) return;
  if (const auto read = read_profile(x.profile_text); !read)
    d.refuse("profile", "another form (" + sentence(read.error()) + ")", "a laboratory's profile");
}

value encode_fact(const reported_person& x) {
  return object{{"name", x.name},
                {"birth_date", date_text(x.birth_date)},
                {"doctor", x.doctor},
                {"kit_number", x.kit_number},
                {"laboratory", x.laboratory}};
}
void decode_fact(fields& d, reported_person& x) {
  x.name = d.text("name", most_words);
  x.birth_date = read_date(d, "birth_date");
  x.doctor = d.text("doctor", most_words, true);
  x.kit_number = d.text("kit_number", most_words);
  x.laboratory = d.text("laboratory", most_words, true);
}

value encode_fact(const reported_slip& x) {
  return object{{"rule", x.rule},
                {"subject", x.subject},
                {"when", rfc3339_utc(x.when)},
                {"how", key_of(x.how)},
                {"words", x.words}};
}
void decode_fact(fields& d, reported_slip& x) {
  x.rule = d.text("rule", most_words);
  x.subject = d.text("subject", most_words, true);
  x.when = read_instant(d, "when");
  x.how = read_how(d);
  x.words = d.text("words", most_words, true);
}

value encode_fact(const reported_checklist& x) {
  return object{{"name", x.name}, {"items", json::list_of(x.items)}};
}
void decode_fact(fields& d, reported_checklist& x) {
  x.name = d.text("name", most_words);
  x.items = read_list(d, "items");
}

value encode_fact(const reported_ready& x) {
  object out{{"checks", json::list_of(x.checks)},
             {"not_kept", json::list_of(x.not_kept)},
             {"agreed", x.agreed}};
  add_said_by(out, x.said_by);
  return out;
}
void decode_fact(fields& d, reported_ready& x) {
  x.checks = read_list(d, "checks");
  x.not_kept = read_list(d, "not_kept");
  x.agreed = d.text("agreed", most_words, true);
  x.said_by = read_said_by(d);
}

value encode_fact(const reported_symptoms& x) {
  return object{
      {"sample", number_of(x.sample)}, {"scores", encode_scores(x.scores)}, {"comment", x.comment}};
}
void decode_fact(fields& d, reported_symptoms& x) {
  x.sample = read_number(d);
  x.scores = read_scores(d);
  x.comment = d.text("comment", most_words, true);
}

value encode_fact(const breath_begun& x) {
  return object{{"sample", number_of(x.sample)}};
}
void decode_fact(fields& d, breath_begun& x) {
  x.sample = read_number(d);
}

value encode_fact(const breath_abandoned& x) {
  return object{{"sample", number_of(x.sample)}, {"reason", x.reason}};
}
void decode_fact(fields& d, breath_abandoned& x) {
  x.sample = read_number(d);
  x.reason = d.text("reason", most_words, true);
}

value encode_fact(const tube_closed& x) {
  return object{{"sample", number_of(x.sample)}};
}
void decode_fact(fields& d, tube_closed& x) {
  x.sample = read_number(d);
}

value encode_fact(const reported_breath& x) {
  return object{
      {"sample", number_of(x.sample)}, {"closed", rfc3339_utc(x.closed)}, {"how", key_of(x.how)}};
}
void decode_fact(fields& d, reported_breath& x) {
  x.sample = read_number(d);
  x.closed = read_instant(d, "closed");
  x.how = read_how(d);
}

value encode_fact(const repeat_wanted& x) {
  return object{{"sample", number_of(x.sample)}, {"reason", x.reason}};
}
void decode_fact(fields& d, repeat_wanted& x) {
  x.sample = read_number(d);
  x.reason = d.text("reason", most_words, true);
}

value encode_fact(const label_written& x) {
  return object{{"sample", number_of(x.sample)}};
}
void decode_fact(fields& d, label_written& x) {
  x.sample = read_number(d);
}

value encode_fact(const drink_ended& x) {
  return object{{"all_of_it", x.all_of_it}};
}
void decode_fact(fields& d, drink_ended& x) {
  x.all_of_it = d.boolean("all_of_it");
}

value encode_fact(const reported_comment& x) {
  return object{{"words", x.words}};
}
void decode_fact(fields& d, reported_comment& x) {
  x.words = d.text("words", most_words);
}

value encode_fact(const test_ended& x) {
  return object{{"reason", x.reason}};
}
void decode_fact(fields& d, test_ended& x) {
  x.reason = d.text("reason", most_words);
}

const std::vector<std::string>& change_names() {
  static const std::vector<std::string> names{"stepped", "rebooted", "zone-changed"};
  return names;
}

value encode_fact(const clock_changed& x) {
  return object{{"change", change_names()[static_cast<std::size_t>(x.what.what)]},
                {"by_ms", std::int64_t{x.what.by.count()}}};
}
void decode_fact(fields& d, clock_changed& x) {
  x.what.what = static_cast<clock_change::kind>(d.choice("change", change_names()));
  x.what.by = duration{d.integer("by_ms", -json::most_whole, json::most_whole)};
}

value encode_fact(const unwell_over& x) {
  return x.passed ? object{{"passed", true}} : object{};
}
void decode_fact(fields& d, unwell_over& x) {
  x.passed = read_mark(d, "passed");
}

value encode_fact(const plan_called_off& x) {
  return object{{"reason", x.reason}};
}
void decode_fact(fields& d, plan_called_off& x) {
  x.reason = d.text("reason", most_words, true);
}

// Of the kinds that say only that they happened.
template <typename Fact>
std::enable_if_t<std::is_empty_v<Fact>, value> encode_fact(const Fact&) {
  return object{};
}
template <typename Fact>
std::enable_if_t<std::is_empty_v<Fact>> decode_fact(fields&, Fact&) {}

template <typename Fact>
payload decoded(fields& d) {
  Fact x;
  decode_fact(d, x);
  return x;
}

// The names by the variant's order; a test holds the table against the variant.
struct kind {
  const char* name;
  payload (*read)(fields&);
};
constexpr std::size_t kinds = std::variant_size_v<any_fact>;

constexpr std::array<kind, kinds> table{{
    {"opened", decoded<opened>},
    {"person", decoded<reported_person>},
    {"plan", decoded<plan_made>},
    {"slip", decoded<reported_slip>},
    {"checklist", decoded<reported_checklist>},
    {"ready", decoded<reported_ready>},
    {"sugar-set-aside", decoded<sugar_set_aside>},
    {"symptoms", decoded<reported_symptoms>},
    {"breath-begun", decoded<breath_begun>},
    {"breath-abandoned", decoded<breath_abandoned>},
    {"tube-closed", decoded<tube_closed>},
    {"breath-told", decoded<reported_breath>},
    {"repeat-wanted", decoded<repeat_wanted>},
    {"label-written", decoded<label_written>},
    {"drink-started", decoded<drink_started>},
    {"drink-ended", decoded<drink_ended>},
    {"comment", decoded<reported_comment>},
    {"unwell", decoded<reported_unwell>},
    {"unwell-over", decoded<unwell_over>},
    {"ended", decoded<test_ended>},
    {"resumed", decoded<resumed>},
    {"clock-changed", decoded<clock_changed>},
    {"exported", decoded<exported>},
    {"kit", decoded<reported_kit>},
    {"caution", decoded<reported_caution>},
    {"washout", decoded<reported_washout>},
    {"plan-called-off", decoded<plan_called_off>},
    {"drink-told", decoded<reported_drink>},
    {"drink-trouble", decoded<reported_drink_trouble>},
    {"corrected", decoded<corrected>},
    {"scorer", decoded<reported_scorer>},
    {"red-flags", decoded<reported_red_flags>},
    {"packet", decoded<reported_packet>},
    {"symptoms-after", decoded<reported_symptoms_after>},
    {"breath-spoiled", decoded<reported_spoil>},
}};

} // namespace

const char* kind_name(const payload& p) {
  return table.at(p.index()).name;
}

value encode_payload(const payload& p) {
  return std::visit([](const auto& x) { return encode_fact(x); }, p);
}

std::optional<payload> decode_payload(const std::string& name, fields& f) {
  const value* v = f.child("data");
  if (v == nullptr) return std::nullopt;
  for (const kind& k : table) {
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
