// Where a test cannot be reported: the letters to whoever was tested and to whoever asked for it,
// and the slip by which a new kit is made ready, all drafts for a named person to sign.
// The reasons are the findings' own, in plain words (core/case/concluding.hpp); nothing here is a
// diagnosis, and no medicine is started or left out by it.
#pragma once

#include "app/lab/context/case_file.hpp"
#include "app/lab/context/output.hpp"
#include "app/page/letter_page.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// What each of them says. Refuses (as `not_now`) a case whose last conclusion is another, or that
// is a draft again.
[[nodiscard]] result<page::letter_set> letters_of(const kept_case& kept,
                                                  const lab_profile& profile);

// The same as plain text, for a word processor.
[[nodiscard]] std::string letters_text(const page::letter_set& all);

// Both as files: PATH.pdf and PATH.txt.
[[nodiscard]] result<std::vector<output_file>>
letter_files(const kept_case& kept, const lab_profile& profile, const std::string& path);

} // namespace qb::lab
