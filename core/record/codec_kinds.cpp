// Field by field: for each kind of fact what is written and how it is read back, one below the
// other, and at the end the names of all kinds.
#include "core/record/codec_kinds.hpp"

#include "core/record/codec.hpp"
#include "core/record/codec_before.hpp"
#include "core/record/codec_later.hpp"
#include "core/record/codec_parts.hpp"

#include <array>

namespace qb::inline records {

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
template <typename Fields>
void decode_fact(Fields& d, opened& x, frozen_rules& known) {
  x.test_id = d.text("test_id");
  x.program = d.text("program");
  x.rehearsal = d.boolean("rehearsal");
  const auto text = read_embedded(d, "profile");
  if (d.failed()) return;
  const auto read = known.profile(text);
  if (!read)
    return d.refuse("profile", "another form (" + sentence(read.error()) + ")",
                    "a laboratory's profile");
  x.profile_text = (*read)->text;
  x.profile = (*read)->rules;
}

value encode_fact(const reported_person& x) {
  return object{{"name", x.name},
                {"birth_date", date_text(x.birth_date)},
                {"doctor", x.doctor},
                {"kit_number", x.kit_number},
                {"laboratory", x.laboratory}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_person& x) {
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
template <typename Fields>
void decode_fact(Fields& d, reported_slip& x) {
  x.rule = d.text("rule", most_words);
  x.subject = d.text("subject", most_words, true);
  x.when = read_instant(d, "when");
  x.how = read_how(d);
  x.words = d.text("words", most_words, true);
}

value encode_fact(const reported_checklist& x) {
  return object{{"name", x.name}, {"items", json::list_of(x.items)}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_checklist& x) {
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
template <typename Fields>
void decode_fact(Fields& d, reported_ready& x) {
  x.checks = read_list(d, "checks");
  x.not_kept = read_list(d, "not_kept");
  x.agreed = d.text("agreed", most_words, true);
  x.said_by = read_said_by(d);
}

value encode_fact(const reported_symptoms& x) {
  return object{
      {"sample", number_of(x.sample)}, {"scores", encode_scores(x.scores)}, {"comment", x.comment}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_symptoms& x) {
  x.sample = read_number(d);
  x.scores = read_scores(d);
  x.comment = d.text("comment", most_words, true);
}

value encode_fact(const breath_begun& x) {
  return object{{"sample", number_of(x.sample)}};
}
template <typename Fields>
void decode_fact(Fields& d, breath_begun& x) {
  x.sample = read_number(d);
}

value encode_fact(const breath_abandoned& x) {
  return object{{"sample", number_of(x.sample)}, {"reason", x.reason}};
}
template <typename Fields>
void decode_fact(Fields& d, breath_abandoned& x) {
  x.sample = read_number(d);
  x.reason = d.text("reason", most_words, true);
}

value encode_fact(const tube_closed& x) {
  return object{{"sample", number_of(x.sample)}};
}
template <typename Fields>
void decode_fact(Fields& d, tube_closed& x) {
  x.sample = read_number(d);
}

value encode_fact(const reported_breath& x) {
  return object{
      {"sample", number_of(x.sample)}, {"closed", rfc3339_utc(x.closed)}, {"how", key_of(x.how)}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_breath& x) {
  x.sample = read_number(d);
  x.closed = read_instant(d, "closed");
  x.how = read_how(d);
}

value encode_fact(const repeat_wanted& x) {
  return object{{"sample", number_of(x.sample)}, {"reason", x.reason}};
}
template <typename Fields>
void decode_fact(Fields& d, repeat_wanted& x) {
  x.sample = read_number(d);
  x.reason = d.text("reason", most_words, true);
}

value encode_fact(const label_written& x) {
  return object{{"sample", number_of(x.sample)}};
}
template <typename Fields>
void decode_fact(Fields& d, label_written& x) {
  x.sample = read_number(d);
}

value encode_fact(const drink_ended& x) {
  return object{{"all_of_it", x.all_of_it}};
}
template <typename Fields>
void decode_fact(Fields& d, drink_ended& x) {
  x.all_of_it = d.boolean("all_of_it");
}

value encode_fact(const reported_comment& x) {
  return object{{"words", x.words}};
}
template <typename Fields>
void decode_fact(Fields& d, reported_comment& x) {
  x.words = d.text("words", most_words);
}

value encode_fact(const test_ended& x) {
  return object{{"reason", x.reason}};
}
template <typename Fields>
void decode_fact(Fields& d, test_ended& x) {
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
template <typename Fields>
void decode_fact(Fields& d, clock_changed& x) {
  x.what.what = static_cast<clock_change::kind>(d.choice("change", change_names()));
  x.what.by = duration{d.integer("by_ms", -json::most_whole, json::most_whole)};
}

value encode_fact(const unwell_over& x) {
  return x.passed ? object{{"passed", true}} : object{};
}
template <typename Fields>
void decode_fact(Fields& d, unwell_over& x) {
  x.passed = read_mark(d, "passed");
}

value encode_fact(const plan_called_off& x) {
  return object{{"reason", x.reason}};
}
template <typename Fields>
void decode_fact(Fields& d, plan_called_off& x) {
  x.reason = d.text("reason", most_words, true);
}

// Of the kinds that say only that they happened.
template <typename Fact>
std::enable_if_t<std::is_empty_v<Fact>, value> encode_fact(const Fact&) {
  return object{};
}
template <typename Fields, typename Fact>
std::enable_if_t<std::is_empty_v<Fact>> decode_fact(Fields&, Fact&) {}

template <typename Fields, typename Fact>
payload decoded(Fields& d, frozen_rules& known) {
  Fact x;
  if constexpr (std::is_same_v<Fact, opened> || std::is_same_v<Fact, plan_made>) {
    decode_fact(d, x, known);
  } else {
    decode_fact(d, x);
  }
  return x;
}

// The names by the variant's order; a test holds the table against the variant.
struct kind {
  std::string_view name;
  payload (*read)(fields&, frozen_rules&);
  payload (*read_canonical)(json::canonical_fields&, frozen_rules&);

  [[nodiscard]] payload of(fields& d, frozen_rules& known) const { return read(d, known); }
  [[nodiscard]] payload of(json::canonical_fields& d, frozen_rules& known) const {
    return read_canonical(d, known);
  }
};
template <typename Fact>
constexpr kind kind_of(std::string_view name) {
  return {name, decoded<fields, Fact>, decoded<json::canonical_fields, Fact>};
}
constexpr std::size_t kinds = std::variant_size_v<any_fact>;

constexpr std::array<kind, kinds> table{
    kind_of<opened>("opened"),
    kind_of<reported_person>("person"),
    kind_of<plan_made>("plan"),
    kind_of<reported_slip>("slip"),
    kind_of<reported_checklist>("checklist"),
    kind_of<reported_ready>("ready"),
    kind_of<sugar_set_aside>("sugar-set-aside"),
    kind_of<reported_symptoms>("symptoms"),
    kind_of<breath_begun>("breath-begun"),
    kind_of<breath_abandoned>("breath-abandoned"),
    kind_of<tube_closed>("tube-closed"),
    kind_of<reported_breath>("breath-told"),
    kind_of<repeat_wanted>("repeat-wanted"),
    kind_of<label_written>("label-written"),
    kind_of<drink_started>("drink-started"),
    kind_of<drink_ended>("drink-ended"),
    kind_of<reported_comment>("comment"),
    kind_of<reported_unwell>("unwell"),
    kind_of<unwell_over>("unwell-over"),
    kind_of<test_ended>("ended"),
    kind_of<resumed>("resumed"),
    kind_of<clock_changed>("clock-changed"),
    kind_of<exported>("exported"),
    kind_of<reported_kit>("kit"),
    kind_of<reported_caution>("caution"),
    kind_of<reported_washout>("washout"),
    kind_of<plan_called_off>("plan-called-off"),
    kind_of<reported_drink>("drink-told"),
    kind_of<reported_drink_trouble>("drink-trouble"),
    kind_of<corrected>("corrected"),
    kind_of<reported_scorer>("scorer"),
    kind_of<reported_red_flags>("red-flags"),
    kind_of<reported_packet>("packet"),
    kind_of<reported_symptoms_after>("symptoms-after"),
    kind_of<reported_spoil>("breath-spoiled"),
    kind_of<entry_lost>("entry-lost"),
    kind_of<record_salvaged>("salvaged"),
};

} // namespace

std::string_view kind_name(const payload& p) {
  return table.at(p.index()).name;
}

value encode_payload(const payload& p) {
  return std::visit([](const auto& x) { return encode_fact(x); }, p);
}

template <typename Fields>
std::optional<payload> decode_payload(const std::string& name, Fields& f, frozen_rules& known) {
  const auto* v = f.child("data");
  if (v == nullptr) return std::nullopt;
  for (const kind& k : table) {
    if (name != k.name) continue;
    Fields d(*v, f.place("data"));
    payload p = k.of(d, known);
    f.absorb(d.finish());
    return p;
  }
  f.refuse("kind", "\"" + name + "\"", "a kind of event that this version knows");
  return std::nullopt;
}
template std::optional<payload> decode_payload(const std::string&, fields&, frozen_rules&);
template std::optional<payload> decode_payload(const std::string&, json::canonical_fields&,
                                               frozen_rules&);

} // namespace qb::inline records
