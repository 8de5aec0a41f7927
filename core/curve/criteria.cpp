// The strict reader of criteria. The published contract is assets/schema/criteria.schema.json.
#include "core/curve/criteria.hpp"

#include "core/protocol/rule_reader.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline curves {

namespace {

using json::fields;

// Ranges that no plausible criterion leaves: they catch a slip of the hand in a file.
constexpr std::int64_t most_weight = 10;
constexpr std::int64_t most_threshold = 1000;
constexpr std::int64_t most_minutes = 1440;
constexpr std::size_t most_listed = 40;
constexpr std::int64_t most_dose = 1000;

void read_measured(const json::value& v, criterion& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("measured"));
  out.kind = f.choice("kind", {"rise-from-baseline", "level"}) == 0 ? measured_kind::rise
                                                                    : measured_kind::level;
  out.h2_weight = static_cast<int>(f.integer("h2", 0, most_weight));
  out.ch4_weight = static_cast<int>(f.integer("ch4", 0, most_weight));
  if (!f.failed() && out.h2_weight == 0 && out.ch4_weight == 0)
    f.refuse("h2", "0, and 0 for ch4", "a gas that is counted", refusal_kind::out_of_range);
  out.measured_source = rules.source_id(f, "source");
  up.absorb(f.finish());
}

void read_threshold(const json::value& v, criterion& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("threshold"));
  out.threshold = exact(f.integer("at_least_ppm", 1, most_threshold));
  out.threshold_source = rules.source_id(f, "source");
  up.absorb(f.finish());
}

void read_window(const json::value& v, criterion& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("window"));
  out.until = exact(f.integer("until_min", 1, most_minutes));
  out.window_source = rules.source_id(f, "source");
  up.absorb(f.finish());
}

void read_published(const json::value& v, criterion& out, fields& up, rule_reader& rules) {
  fields f(v, up.place("published_for"));
  out.published_for = f.text("dose");
  out.published_source = rules.source_id(f, "source");
  up.absorb(f.finish());
}

// A sugar of any dose beside the same with one would say nothing more.
bool covers(const applied_to& there, const applied_to& another) {
  return there.substrate == another.substrate &&
         (!there.dose_g || !another.dose_g || there.dose_g == another.dose_g);
}

void read_applies_to(fields& f, criterion& out, rule_reader& rules) {
  rules.each(f, "applies_to", 1, most_listed, [&](fields& one) {
    applied_to a;
    a.substrate = rules.id_text(one, "substrate");
    if (const auto dose = one.optional_integer("dose_g", 1, most_dose))
      a.dose_g = static_cast<int>(*dose);
    a.source = rules.source_id(one, "source");
    if (std::any_of(out.applies_to.begin(), out.applies_to.end(),
                    [&](const applied_to& there) { return covers(there, a); }))
      one.refuse("substrate", "a sugar with that dose twice", "each once");
    out.applies_to.push_back(std::move(a));
  });
}

void read_accuracy(fields& f, criterion& out, rule_reader& rules) {
  constexpr std::int64_t all = 1000; // permille
  for (const json::value* v : f.children("accuracy", 0, most_listed)) {
    fields one(*v, f.place("accuracy", out.accuracy.size()));
    pooled_accuracy a;
    a.substrate = rules.id_text(one, "substrate");
    a.sensitivity_permille = static_cast<int>(one.integer("sensitivity_permille", 0, all));
    a.specificity_permille = static_cast<int>(one.integer("specificity_permille", 0, all));
    a.source = rules.source_id(one, "source");
    if (accuracy_for(out, a.substrate) != nullptr)
      one.refuse("substrate", "a sugar twice", "each once");
    f.absorb(one.finish());
    out.accuracy.push_back(std::move(a));
  }
}

std::string citation_in(const criterion& c, const std::string& id) {
  for (const source& s : c.sources) {
    if (s.id == id) return s.citation;
  }
  QB_BELIEVE(false); // the reader refuses a source that is not listed
  return {};
}

// Ids, each once.
std::vector<std::string> read_ids(fields& f, const char* key) {
  std::vector<std::string> ids = f.texts(key, 0, most_listed);
  for (auto id = ids.begin(); id != ids.end(); ++id) {
    if (std::find(ids.begin(), id, *id) != id)
      f.refuse(key, json::shown(json::value(*id)) + " twice", "each once");
  }
  return ids;
}

bool same_name(std::string_view a, std::string_view b) {
  const auto small = [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return small(x) == small(y); });
}

void add_gas(std::string& out, int weight, const char* gas) {
  if (weight == 0) return;
  if (!out.empty()) out += " + ";
  out += weight == 1 ? std::string(gas) : fmt::format("{} x {}", weight, gas);
}

} // namespace

result<criterion> read_criterion(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-criterion");
  criterion out;
  rule_reader rules(f, out.sources);
  out.id = rules.id_text(f, "id");
  out.title = f.text("title");
  read_applies_to(f, out, rules);
  if (const json::value* v = f.child("measured")) read_measured(*v, out, f, rules);
  if (const json::value* v = f.child("threshold")) read_threshold(*v, out, f, rules);
  if (const json::value* v = f.optional_child("window")) read_window(*v, out, f, rules);
  if (const json::value* v = f.child("published_for")) read_published(*v, out, f, rules);
  out.beside = read_ids(f, "beside");
  if (std::find(out.beside.begin(), out.beside.end(), out.id) != out.beside.end())
    f.refuse("beside", "its own id", "other criteria");
  read_accuracy(f, out, rules);
  out.notes = f.texts("notes", 0, most_listed);
  if (auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

bool is_for(const criterion& c, const substrate& sugar) {
  return std::any_of(c.applies_to.begin(), c.applies_to.end(), [&](const applied_to& a) {
    return same_name(a.substrate, sugar.name) && (!a.dose_g || *a.dose_g == sugar.dose_g);
  });
}

bool is_for_sugar(const criterion& c, const substrate& sugar) {
  return std::any_of(c.applies_to.begin(), c.applies_to.end(),
                     [&](const applied_to& a) { return same_name(a.substrate, sugar.name); });
}

std::string measured_text(const criterion& c) {
  std::string gases;
  add_gas(gases, c.h2_weight, "H2");
  add_gas(gases, c.ch4_weight, "CH4");
  if (c.kind == measured_kind::level) return gases;
  const bool one_gas = c.h2_weight == 0 || c.ch4_weight == 0;
  return one_gas ? gases + " rise" : "rise of " + gases;
}

std::string citation_of(const criterion& c) {
  return citation_in(c, c.threshold_source);
}

const pooled_accuracy* accuracy_for(const criterion& c, std::string_view sugar) {
  const auto found = std::find_if(c.accuracy.begin(), c.accuracy.end(),
                                  [&](const auto& a) { return same_name(a.substrate, sugar); });
  return found == c.accuracy.end() ? nullptr : &*found;
}

std::string accuracy_words(const criterion& c, const pooled_accuracy& a) {
  const auto percent = [](int permille) {
    return fmt::format("{}.{} %", permille / 10, permille % 10);
  };
  return fmt::format("Tests with this sugar, pooled over studies: sensitivity {}, specificity {} "
                     "({}); not of this criterion alone, and of no single person.",
                     percent(a.sensitivity_permille), percent(a.specificity_permille),
                     citation_in(c, a.source));
}

result<void> check_criteria(const std::vector<criterion>& all) {
  const auto count = [&](const std::string& id) {
    return std::count_if(all.begin(), all.end(), [&](const criterion& c) { return c.id == id; });
  };
  for (const criterion& c : all) {
    if (count(c.id) > 1)
      return tl::unexpected(
          refusal{refusal_kind::malformed, "", c.id, "this id twice", "each criterion once"});
    for (const std::string& other : c.beside) {
      if (count(other) == 0)
        return tl::unexpected(refusal{refusal_kind::missing, "", c.id + ": beside",
                                      "\"" + other + "\"", "the id of another criterion here"});
    }
  }
  return {};
}

} // namespace qb::inline curves
