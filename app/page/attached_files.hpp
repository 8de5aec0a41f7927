// The files inside a PDF that somebody sent.
// Nothing in it is run or followed: attachments are looked up by their names in the document's own
// list, and every length is bounded before it is believed.
#pragma once

#include "app/page/finished_pdf.hpp"

#include <cstddef>

namespace qb {

// Whether these bytes claim to be a PDF.
[[nodiscard]] bool looks_like_pdf(const std::string& bytes);

// The attachments whose names end in `ending` or in `ending` and ".minisig"; names and bytes only.
// Refuses what is no whole PDF (nothing is repaired), one with a password, more than 64
// attachments, and an attachment that unpacks to more than `most_bytes`.
[[nodiscard]] result<std::vector<attached_file>>
attached_files(const std::string& pdf, const std::string& ending, std::size_t most_bytes);

} // namespace qb
