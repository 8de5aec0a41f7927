// What all resources of a bundle are made with: names, moments, codes, notes.
// One place decides how each looks, so that no resource can differ from another.
#pragma once

#include "core/base/json.hpp"
#include "core/fhir/bundle.hpp"

#include <string>
#include <vector>

namespace qb::fhir {

using json::array;
using json::object;
using json::value;

// One bundle in the making: the log, what it adds up to, and what is wanted of it.
struct making {
  const read_log_result& log;
  const state& s;
  const report& told;
  const code_list& codes;
  bool with_name{false};
  std::string mark{}; // words that every resource bears
};

// A resource, with what is not known left empty in it, and its part's name in the bundle
// ("tube/4"), from which its UUID is made.
struct resource {
  std::string part;
  value body;
};

// A text as FHIR takes it: spaces of other scripts are plain ones, none at either end.
[[nodiscard]] std::string clean(const std::string& text);

// "2027-04-06T07:45:12+01:00" in the zone of the test; in UTC where its offset is one that FHIR
// cannot write.
[[nodiscard]] std::string moment(const making& m, instant t);

// {start, end}; without the end where a clock that was set has it before the start.
[[nodiscard]] value period(const making& m, std::optional<instant> start,
                           std::optional<instant> end);

// The UUID of a part, and a reference to it.
[[nodiscard]] std::string uuid_of(const making& m, const std::string& part);
[[nodiscard]] value reference(const making& m, const std::string& part);

// A resource of that type with its id and its marks (practice; a log that does not match itself).
[[nodiscard]] value begin(const making& m, const char* type, const std::string& part);
[[nodiscard]] value marks(const making& m);

// A name in one of our own spaces: "kit", "sample", "test".
[[nodiscard]] value identifier(const char* space, const std::string& name);

// The UUID of the test's id, by which all is named: two tests may bear one kit number, and then
// nothing of one may pass for the other's.
[[nodiscard]] std::string test_of(const making& m);
// The same and "/4".
[[nodiscard]] std::string tube_name(const making& m, sample_number n);
// The same of scores that belong to no tube.
[[nodiscard]] std::string name_after(const making& m, score_time t);

// A CodeableConcept of words, with the codes that the list has for these uses.
[[nodiscard]] value concept_of(const making& m, const std::vector<std::string>& uses,
                               const std::string& words);
[[nodiscard]] value words_only(const std::string& words);

// A Quantity; with a UCUM code only where the list has one for that unit.
[[nodiscard]] value quantity(const making& m, value number, const std::string& unit);

// An Annotation, and all those that say something.
[[nodiscard]] value note(const std::string& text);
[[nodiscard]] value notes(const std::vector<std::string>& texts);

// " Reason: …", or nothing where there is none.
[[nodiscard]] std::string because(const std::string& reason);

// The event of that number, which must be one of the log's.
[[nodiscard]] const event& event_of(const making& m, std::int64_t seq);

// How a time is known, as a sentence.
[[nodiscard]] std::string how_sentence(how_known how);

} // namespace qb::fhir
