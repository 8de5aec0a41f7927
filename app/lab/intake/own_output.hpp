// What a file is to the laboratory's program, read inside the file: its name says nothing.
#pragma once

#include <string_view>

namespace qb::lab {

// What stands where something is to be written.
enum class found_output {
  foreign, // nothing that this program wrote
  kept,    // a record, a key, a database, or rules: what is read, and never written over
  plain,   // a table or a bundle of ours, which the store gives again; or nothing at all
  draft,   // a report of ours that nobody concluded
  issued,  // one that a qualified person concluded
};

// The first line of drafted letters as text.
inline constexpr const char* drafted_letters = "Drafts of quarterbreath-lab, for a person to sign";

// Of a file's bytes. Reports bear a mark: in PDF among the keywords, in JSON as "format" and
// "draft", in FHIR by the space of their names and the report's status; tables by their first line.
[[nodiscard]] found_output found_in(std::string_view bytes);

} // namespace qb::lab
