// A record's files as bytes: log, signature, table, and the one file a patient hands over.
//
//   .log.json           the timing log (core/record/log.hpp)
//   .log.json.minisig   its signature (core/seal/minisign.hpp); what its trusted comment says is
//                       told in core/report/signed_words.hpp
//   .samples.csv        the samples as a table
//   .sheet.pdf          sheet and labels, with the three above attached: the one file
//   .sheet.pdf.age      the same sealed to the laboratory's key, where its profile has one; then
//                       this is what is handed over
//   .code.txt           the result by code as text, only where the sheet that shows it is not there
// A test that was called off has no sheet: its log is the one file. So it is where the sheet cannot
// be made: paper comes last, and what the laboratory reads a test from never hangs on it.
#pragma once

#include "app/handover/export_keys.hpp"
#include "app/handover/written_together.hpp"
#include "app/page/record_pdf.hpp"
#include "core/session/event.hpp"
#include "core/session/state.hpp"
#include "core/time/zone.hpp"

#include <string>
#include <vector>

namespace qb::handover {

// Which of them are wanted.
enum class export_set {
  everything, // for the person's own folder
  one_file,   // for a drive that is given away: nothing readable lies beside a sealed file
};

// What an export says of itself, and what it is made with. Zone and keys must outlive it.
struct export_options {
  std::string program; // name and version
  std::string tzdata;  // the version of the machine's zone data (`zone_data_version`)
  const zone& place;   // in which the sheet shows its times
  instant at{};        // of the export, as the signature has it
  const export_keys& keys;
  export_set wanted{export_set::everything};
  // Draws the paper: another one in a test of what is left without it.
  decltype(&page::draw_record_pdf) draw{page::draw_record_pdf};
};

// Of a record that has an opening, a person, a reading, and a plan or one called off: log,
// signature, and with a plan the table. No letter and no font matters to them.
[[nodiscard]] std::vector<outgoing_file> plain_files(const std::vector<event>& events,
                                                     const state& s, const export_options& o);

// The sheet of a record with a plan, with those files attached under the name `stem`.
[[nodiscard]] outgoing_file sheet_file(const std::vector<event>& events, const state& s,
                                       const std::string& stem,
                                       const std::vector<outgoing_file>& plain,
                                       const export_options& o);

// What the sheet's codes hold, one a line.
[[nodiscard]] outgoing_file code_file(const std::vector<event>& events, const export_options& o);

// That file sealed to the laboratory's key, which its profile must have.
[[nodiscard]] outgoing_file sealed_file(const outgoing_file& file, const lab_profile& to,
                                        const export_keys& keys);

// The kit's number with every character outside letters, digits and hyphens left out; "kit" where
// nothing is left.
[[nodiscard]] std::string plain_kit_number(const std::string& kit_number);

} // namespace qb::handover
