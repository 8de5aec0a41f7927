// The bytes of a report, and those that go out with a conclusion and are kept with it.
#pragma once

#include "app/lab/context/case_file.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// The report as "pdf", "json" or "fhir"; FHIR refuses a case without a log.
[[nodiscard]] result<std::string> report_bytes(const lab_context& at, const kept_case& kept,
                                               const std::string& format, bool with_name);

// All forms that this case has, as they are once `next` is kept, signed so; FHIR without name.
[[nodiscard]] result<std::vector<issued_row>>
issued_with(const opened_case& open, const conclusion& next, const signed_evidence& seal);

} // namespace qb::lab
