// Names, moments, codes and notes, as FHIR wants them.
#include "core/fhir/parts.hpp"

#include "core/base/text.hpp"
#include "core/fhir/uuid.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fmt/core.h>
#include <string_view>

namespace qb::fhir {

namespace {

// Our own names live under a host that nobody can own.
constexpr const char* own_space = "https://quarterbreath.invalid/";

constexpr std::chrono::hours furthest_offset{14}; // the greatest offset a dateTime can have

// The spaces that a FHIR string must not hold: all of Unicode's but the plain one, line ends and
// the tabulator.
constexpr std::array<std::string_view, 20> other_spaces{
    "\u00a0", "\u1680", "\u2000", "\u2001", "\u2002", "\u2003", "\u2004",
    "\u2005", "\u2006", "\u2007", "\u2008", "\u2009", "\u200a", "\u2028",
    "\u2029", "\u202f", "\u205f", "\u3000", "\ufeff", "\u0085"};

// How many bytes such a space takes at that place; 0 where there is none.
std::size_t space_at(const std::string& text, std::size_t at) {
  for (const std::string_view one : other_spaces)
    if (text.compare(at, one.size(), one) == 0) return one.size();
  return 0;
}

value coding(const listed_code& c) {
  return object{{"system", c.system}, {"code", c.code}, {"display", c.display}};
}

// Whether the patient's side says so itself.
bool was_for_trying(const making& m) {
  return std::any_of(m.told.findings.begin(), m.told.findings.end(),
                     [](const finding& f) { return f.rule == "for-trying"; });
}

} // namespace

std::string clean(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t other = space_at(text, i);
    out += other > 0 ? ' ' : text[i];
    i += other > 0 ? other : 1;
  }
  return trimmed(out);
}

std::string moment(const making& m, instant t) {
  const instant whole{std::chrono::floor<std::chrono::seconds>(t)};
  const std::chrono::seconds offset = m.told.place.offset_at(whole);
  if (offset <= furthest_offset && offset >= -furthest_offset) {
    if (const auto local = rfc3339(whole, m.told.place)) return *local;
  }
  return rfc3339_utc(whole);
}

value period(const making& m, std::optional<instant> start, std::optional<instant> end) {
  value out = object{};
  if (start) out.set("start", moment(m, *start));
  if (end && (!start || *end >= *start)) out.set("end", moment(m, *end));
  return out;
}

std::string uuid_of(const making& m, const std::string& part) {
  return uuid_of_url(own_space + std::string("test/") + m.told.test_id + "/" + part);
}

value reference(const making& m, const std::string& part) {
  return object{{"reference", "urn:uuid:" + uuid_of(m, part)}};
}

value marks(const making& m) {
  array tags;
  const auto mark = [&](const char* use, const char* words) {
    const listed_code* known = m.codes.find(use);
    tags.push_back(known != nullptr ? coding(*known) : object{{"display", words}});
  };
  if (m.told.rehearsal) mark("tag.rehearsal", "Rehearsal: practice, never a patient's result");
  if (!m.told.matches_itself) mark("tag.record-mismatch", "The log does not match its own record");
  if (was_for_trying(m)) mark("tag.for-trying", "For trying: an invented laboratory's test");
  if (!m.mark.empty()) tags.push_back(object{{"display", clean(m.mark)}});
  return object{{"tag", std::move(tags)}};
}

value begin(const making& m, const char* type, const std::string& part) {
  return object{{"resourceType", type}, {"id", uuid_of(m, part)}, {"meta", marks(m)}};
}

value identifier(const char* space, const std::string& name) {
  return object{{"system", std::string(own_space) + space}, {"value", clean(name)}};
}

std::string test_of(const making& m) {
  return uuid_of_url(own_space + std::string("test/") + m.told.test_id);
}

std::string tube_name(const making& m, sample_number n) {
  return fmt::format("{}/{}", test_of(m), n.value());
}

std::string name_after(const making& m, score_time t) {
  return test_of(m) + "/" + key_of(t);
}

value concept_of(const making& m, const std::vector<std::string>& uses, const std::string& words) {
  array codings;
  for (const std::string& use : uses)
    if (const listed_code* known = m.codes.find(use)) codings.push_back(coding(*known));
  return object{{"coding", std::move(codings)}, {"text", clean(words)}};
}

value words_only(const std::string& words) {
  return object{{"text", clean(words)}};
}

value quantity(const making& m, value number, const std::string& unit) {
  value out = object{{"value", std::move(number)}, {"unit", unit}};
  if (const listed_code* known = m.codes.find("unit." + unit))
    out.set("system", known->system).set("code", known->code);
  return out;
}

value note(const std::string& text) {
  return object{{"text", clean(text)}};
}

value notes(const std::vector<std::string>& texts) {
  array out;
  for (const std::string& text : texts)
    out.push_back(note(text));
  return out;
}

std::string because(const std::string& reason) {
  const std::string words = clean(reason);
  return words.empty() ? "" : " Reason: " + words;
}

const event& event_of(const making& m, std::int64_t seq) {
  QB_BELIEVE(seq >= 1 && static_cast<std::size_t>(seq) <= m.log.events.size());
  return m.log.events[static_cast<std::size_t>(seq - 1)];
}

std::string how_sentence(how_known how) {
  switch (how) {
  case how_known::observed: return "pressed on the device as it happened.";
  case how_known::told: return "told afterwards, read off a clock.";
  case how_known::estimated: return "told afterwards, from memory.";
  }
  QB_BELIEVE(false);
  return "";
}

} // namespace qb::fhir
