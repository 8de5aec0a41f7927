// Bundles of tests that were made by hand, read back, so that a test can ask for what it is about.
#pragma once

#include "core/fhir/bundle.hpp"
#include "core/fhir/uuid.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>

namespace qb::fhir {

// The files of assets/codes.
inline std::vector<code_file> shipped_code_files() {
  std::vector<code_file> out;
  for (const char* name : {"hl7-v2-0487", "local", "loinc", "snomed-gps", "ucum"})
    out.push_back(read_code_file(canonical_asset("codes/" + std::string(name) + ".json")).value());
  return out;
}

inline const code_list& shipped_codes() {
  static const code_list all = code_list::of(shipped_code_files()).value();
  return all;
}

inline result<std::string> try_bundle(const std::string& log, const bundle_choices& choices = {},
                                      const std::optional<laboratory_results>& more = {}) {
  const read_log_result read = read_log(log).value();
  return bundle_text(read, report_of(read, london_only), shipped_codes(), choices, more);
}

inline std::string log_of(const std::vector<event>& events) {
  return write_log(events, "quarterbreath 0.1.0", "");
}

// The events with more at their end, each a minute after the one before.
inline std::vector<event> and_then(std::vector<event> events, const std::vector<payload>& more) {
  for (const payload& what : more) {
    event next{events.back().seq + 1, events.back().at, what};
    next.at.wall += std::chrono::minutes{1};
    *next.at.boot += std::chrono::minutes{1};
    events.push_back(next);
  }
  return events;
}

// The events of one kind left out, or changed; numbers follow each other again.
template <typename Keep>
std::vector<event> only(const std::vector<event>& events, Keep keep) {
  std::vector<event> out;
  for (const event& e : events) {
    if (!keep(e)) continue;
    out.push_back(e);
    out.back().seq = static_cast<std::int64_t>(out.size());
  }
  return out;
}

// A bundle that was read again.
class read_bundle {
public:
  explicit read_bundle(const std::string& text) : whole_(json::parse(text).value()) {}

  [[nodiscard]] const json::value& whole() const { return whole_; }

  [[nodiscard]] std::vector<const json::value*> all(const std::string& type) const {
    std::vector<const json::value*> out;
    for (const json::value& entry : *whole_.find("entry")->items()) {
      const json::value* r = entry.find("resource");
      if (*r->find("resourceType")->text() == type) out.push_back(r);
    }
    return out;
  }
  // The one of that type that the test names so: "4/pain".
  [[nodiscard]] const json::value& named(const std::string& type, const std::string& name,
                                         const std::string& test = "test-1") const {
    const std::string whole = uuid_of_url("https://quarterbreath.invalid/test/" + test) +
                              (name.empty() ? "" : "/" + name);
    for (const json::value* r : all(type))
      if (at(*r, "identifier.0.value") == whole) return *r;
    FAIL("no " << type << " is named " << name);
    return whole_;
  }

  // What stands at a path ("code.coding.0.code"), as text; "-" where nothing does.
  static std::string at(const json::value& from, const std::string& path) {
    const json::value* v = &from;
    std::size_t begin = 0;
    while (v != nullptr && begin <= path.size()) {
      const std::size_t end = std::min(path.find('.', begin), path.size());
      const std::string key = path.substr(begin, end - begin);
      begin = end + 1;
      if (v->items() != nullptr) {
        const std::size_t i = std::stoul(key);
        v = i < v->items()->size() ? &(*v->items())[i] : nullptr;
      } else {
        v = v->find(key);
      }
    }
    if (v == nullptr) return "-";
    return v->text() != nullptr ? *v->text() : json::canonical(*v);
  }

  // All notes of a resource, one a line.
  static std::string notes(const json::value& r) {
    std::string out;
    const json::value* all = r.find("note");
    for (std::size_t i = 0; all != nullptr && i < all->items()->size(); ++i)
      out += at((*all->items())[i], "text") + "\n";
    return out;
  }

private:
  json::value whole_;
};

} // namespace qb::fhir
