// The codes that may stand in a FHIR bundle, as data: each with its system, where it was read, and
// under which licence it is used.
// A wrong code is worse than none: what is not in these files is told in plain words.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace qb::fhir {

// One code as it is used. `display` is the system's own wording.
struct listed_code {
  std::string system;
  std::string code;
  std::string display;
};

// One file: a code system, its licence, and those of its codes that are used, by what for.
struct code_file {
  struct entry {
    listed_code what;
    std::string source;            // where it was read
    std::vector<std::string> uses; // "symptom.bloating": KIND.NAME, letters, digits, hyphens
  };
  std::string system;
  std::string title;
  std::string licence;
  std::vector<entry> codes;
};

// Reads a file of assets/codes. Refuses with line and field: unknown fields, an address or a code
// with a space in it, a code or a use that stands twice.
[[nodiscard]] result<code_file> read_code_file(std::string_view text);

// All the files together.
class code_list {
public:
  // Refuses a system that two files have, or a use that two codes have.
  [[nodiscard]] static result<code_list> of(std::vector<code_file> files);

  // The code for that use, or nullptr: then it is told in words alone.
  [[nodiscard]] const listed_code* find(std::string_view use) const;

private:
  std::vector<code_file> files_;
};

} // namespace qb::fhir
