// The person, by a pseudonym unless their name is asked for, and the program.
#include "core/fhir/resources.hpp"

namespace qb::fhir {

resource patient_of(const making& m) {
  value out = begin(m, "Patient", "patient");
  out.set("identifier", array{identifier("person", test_of(m))});
  if (m.with_name) {
    out.set("name", array{words_only(m.told.name)});
    if (m.told.birth_date) out.set("birthDate", date_text(*m.told.birth_date));
  }
  return {"patient", std::move(out)};
}

resource device_of(const making& m) {
  const std::string program = clean(m.told.program);
  const auto space = program.rfind(' ');
  const std::string version = space == std::string::npos ? "" : program.substr(space + 1);
  value out = begin(m, "Device", "device");
  out.set("deviceName",
          array{object{{"name", clean(program.substr(0, space))}, {"type", "user-friendly-name"}}});
  out.set("version", array{object{{"value", version}}});
  return {"device", std::move(out)};
}

} // namespace qb::fhir
