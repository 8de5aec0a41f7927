// The files inside a PDF that somebody sent.
// Nothing in it is run or followed: attachments are looked up by their names in the document's own
// list, and every length is bounded before it is believed. A PDF says itself how its tables and
// streams are unpacked, layer upon layer, before anything of it is known; no bound of ours reaches
// in there. So it is opened by a child with limits (app/machine/confined.hpp).
#pragma once

#include "app/page/finished_pdf.hpp"

#include <cstddef>

namespace qb::inline opening {

// Whether these bytes claim to be a PDF.
[[nodiscard]] bool looks_like_pdf(const std::string& bytes);

// The attachments whose names end in `ending` or in `ending` and ".minisig"; names and bytes only.
// Refuses what is no whole PDF (nothing is repaired), one with a password, more than 64
// attachments, an attachment that unpacks to more than `most_bytes`, and what takes more time or
// memory than any sheet (as `out_of_range`).
[[nodiscard]] result<std::vector<page::attached_file>>
attached_files(const std::string& pdf, const std::string& ending, std::size_t most_bytes);

} // namespace qb::inline opening
