// A record's files as bytes: log, signature, table, and the one file a patient hands over.
//
//   .log.json           the timing log (core/record/log.hpp)
//   .log.json.minisig   its signature (core/seal/minisign.hpp); what its trusted comment says is
//                       told in core/report/signed_words.hpp
//   .samples.csv        the samples as a table
//   .sheet.pdf          sheet and labels, with the three above attached: the one file
//   .sheet.pdf.age      the same sealed to the laboratory's key, where its profile has one; then
//                       this is what is handed over
// A test that was called off has no sheet: its log is the one file.
#pragma once

#include "app/handover/export_keys.hpp"
#include "app/handover/written_together.hpp"
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
};

// The files of a record that has an opening, a person, a reading, and a plan or one called off.
// `stem` is the name they will have before their endings: the attachments bear it too.
[[nodiscard]] result<std::vector<outgoing_file>> record_files(const std::vector<event>& events,
                                                              const state& s,
                                                              const std::string& stem,
                                                              const export_options& o);

// The kit's number with every character outside letters, digits and hyphens left out; "kit" where
// nothing is left.
[[nodiscard]] std::string plain_kit_number(const std::string& kit_number);

} // namespace qb::handover
