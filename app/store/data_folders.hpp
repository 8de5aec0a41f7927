// What lies where in the folder of this device's tests.
// One place, so that what is written by one part is found by the one that erases it.
#pragma once

#include <string>

namespace qb::inline store {

// The folder of this kind of test: one journal a test, named by the record's random id.
[[nodiscard]] inline std::string tests_folder(const std::string& data, bool practice) {
  return data + (practice ? "/practice" : "/tests");
}

// The journal of that test.
[[nodiscard]] inline std::string journal_path(const std::string& folder,
                                              const std::string& test_id) {
  return folder + "/" + test_id + ".journal";
}

// What the names of all files of that test begin with; a temporary's end is left out too.
[[nodiscard]] inline std::string journal_stem(const std::string& journal) {
  const std::size_t name = journal.rfind('/') + 1; // 0 where there is no folder
  return journal.substr(0, journal.find('.', name));
}

// Beside it: the rows without which no due time is known, once more (core/record/salvage.hpp).
[[nodiscard]] inline std::string key_rows_path(const std::string& journal) {
  return journal.substr(0, journal.rfind('.')) + ".plan";
}

// Where the person's own copies go.
[[nodiscard]] inline std::string copies_folder(const std::string& data) {
  return data + "/handed-over";
}

} // namespace qb::inline store
