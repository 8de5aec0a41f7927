// What Cairo 1.16 cannot put into a PDF: its language, and files attached to it.
// With the log attached, the sheet is the one file a patient hands over: read by eye, and by a
// program. Any PDF reader lists the attachments; `pdfdetach -saveall` takes them out.
#pragma once

#include "core/base/result.hpp"

#include <string>
#include <vector>

namespace qb::page {

// A file inside a PDF. `name` has no folders.
struct attached_file {
  std::string name;
  std::string bytes;
  std::string media_type; // "application/json"
  std::string about;      // one line for the reader's list
};

// The same pages with the document's language ("en") and the title shown in the window's bar.
// Tags stay. The same input gives the same bytes.
[[nodiscard]] result<std::string> with_language(const std::string& pdf,
                                                const std::string& language);

// The same pages marked as a paper of that test, among the file's keywords: a name like
// "quarterbreath-FV-2071.labels.pdf" does not tell two tests of one kit number apart. The id is a
// random name, not the person's.
[[nodiscard]] result<std::string> with_test_id(const std::string& pdf, const std::string& test_id);
// Whether these bytes are a PDF marked so.
[[nodiscard]] bool is_paper_of(const std::string& bytes, const std::string& test_id);

// The same pages with these files attached, each once by its name; dated `made_at`
// ("2027-04-06T10:05:00Z"). The same input gives the same bytes.
[[nodiscard]] result<std::string> with_attachments(const std::string& pdf,
                                                   const std::vector<attached_file>& files,
                                                   const std::string& made_at);

} // namespace qb::page
