// What protocol and profile files share: format and version, sources, rule ids.
// One place sees to it that every number names a rule once and a source that is listed.
#pragma once

#include "core/base/json_fields.hpp"
#include "core/protocol/protocol.hpp"

#include <set>
#include <string>
#include <vector>

namespace qb::inline protocols {

// Refuses a file whose "format" is another, or whose "version" is not one of 1 to `newest` (a newer
// one in its own words). Answers the version; 1 after a refusal.
int check_format(json::fields& f, const char* format, int newest = 1);

// A stable key: 1 to 40 lower-case letters, digits and inner hyphens, starting with a letter.
[[nodiscard]] std::string read_id(json::fields& f, const char* key);

// The five numbers of sample bounds, in an object whose rule reference is already read.
[[nodiscard]] sample_bounds read_sample_bounds(json::fields& f);

// Reads rule references. Made once a file, first of all, since it reads the file's list of sources.
class rule_reader {
public:
  rule_reader(json::fields& file, std::vector<source>& sources, int version = 1);

  // The version of the file, for what only a later one has.
  [[nodiscard]] int version() const { return version_; }

  // The fields "rule" and "source" of one object: a rule id not used before, a source listed.
  [[nodiscard]] rule_ref ref(json::fields& f);
  // A field that names a listed source.
  [[nodiscard]] std::string source_id(json::fields& f, const char* key);
  // A stable key: 1 to 40 lower-case letters, digits and inner hyphens, starting with a letter.
  [[nodiscard]] std::string id_text(json::fields& f, const char* key);

  // Two characters of the alphabet of kit codes, without those that are mistaken for others.
  [[nodiscard]] std::string kit_letters(json::fields& f, const char* key);

  // Reads a list of least..most objects, each by `read(fields&)`, and absorbs their refusals.
  template <typename Read>
  void each(json::fields& f, const char* key, std::size_t least, std::size_t most, Read read) {
    const auto items = f.children(key, least, most);
    for (std::size_t i = 0; i < items.size(); ++i) {
      json::fields item(*items[i], f.place(key, i));
      read(item);
      f.absorb(item.finish());
    }
  }

private:
  std::vector<source>& sources_;
  int version_;
  std::set<std::string> rules_;
};

} // namespace qb::inline protocols
