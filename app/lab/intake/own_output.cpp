// One form after the other.
#include "app/lab/intake/own_output.hpp"

#include "app/page/report_page.hpp"
#include "core/base/json.hpp"

#include <array>

namespace qb::lab {

namespace {

bool begins(std::string_view bytes, std::string_view head) {
  return bytes.substr(0, head.size()) == head;
}

bool holds(std::string_view bytes, std::string_view part) {
  return bytes.find(part) != std::string_view::npos;
}

// The first columns: later versions add some at the end.
constexpr std::array own_tables{"kit,test_id,protocol,rehearsal,", "test,tube,tests,due,",
                                drafted_letters};
// Records, signatures, keys, sealed files and databases.
constexpr std::array kept_heads{"SQLite format 3", "untrusted comment:", "age-encryption.org/",
                                "# created:", "AGE-SECRET-KEY-"};
constexpr const char* own_names = "https://quarterbreath.invalid/"; // core/fhir/parts.cpp

found_output of_pdf(std::string_view bytes) {
  if (holds(bytes, page::report_mark(true))) return found_output::draft;
  if (holds(bytes, page::report_mark(false))) return found_output::issued;
  // A paper of a record, or a sheet with the log attached.
  return holds(bytes, "(Quarterbreath)") ? found_output::kept : found_output::foreign;
}

found_output of_resource(const json::value& one) {
  const json::value* status = one.find("status");
  const json::value* type = one.find("resourceType");
  if (type == nullptr || type->text() == nullptr || *type->text() != "DiagnosticReport")
    return found_output::plain;
  const bool preliminary =
      status != nullptr && status->text() != nullptr && *status->text() == "preliminary";
  return preliminary ? found_output::draft : found_output::issued;
}

found_output of_bundle(const json::value& bundle) {
  found_output out = found_output::plain;
  const json::value* entries = bundle.find("entry");
  if (entries == nullptr || entries->items() == nullptr) return out;
  for (const json::value& entry : *entries->items()) {
    const json::value* one = entry.find("resource");
    if (one != nullptr && of_resource(*one) != found_output::plain) out = of_resource(*one);
  }
  return out;
}

found_output of_json(std::string_view bytes) {
  // Of lines of resources the first is asked.
  const std::string_view first = bytes.substr(0, bytes.find('\n'));
  auto read = json::parse(bytes, json::numbers::exact);
  if (!read) read = json::parse(first, json::numbers::exact);
  if (!read || read->members() == nullptr) return found_output::foreign;
  const json::value* format = read->find("format");
  if (format != nullptr && format->text() != nullptr && begins(*format->text(), "quarterbreath-")) {
    if (*format->text() != "quarterbreath-report") return found_output::kept;
    const json::value* draft = read->find("draft");
    const bool is_draft = draft != nullptr && draft->boolean() != nullptr && *draft->boolean();
    return is_draft ? found_output::draft : found_output::issued;
  }
  const json::value* type = read->find("resourceType");
  if (type == nullptr || type->text() == nullptr || !holds(bytes, own_names))
    return found_output::foreign;
  return *type->text() == "Bundle" ? of_bundle(*read) : found_output::plain;
}

} // namespace

found_output found_in(std::string_view bytes) {
  if (bytes.empty()) return found_output::plain; // nothing is lost by it
  for (const char* head : kept_heads)
    if (begins(bytes, head)) return found_output::kept;
  for (const char* head : own_tables)
    if (begins(bytes, head)) return found_output::plain;
  if (begins(bytes, "%PDF-")) return of_pdf(bytes);
  return bytes.front() == '{' ? of_json(bytes) : found_output::foreign;
}

} // namespace qb::lab
