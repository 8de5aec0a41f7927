// The laboratory as its store knows it: what was set up, who works there, and what follows for a
// command that was given less, or something else.
#pragma once

#include "app/lab/context/console.hpp"
#include "app/store/laboratory_store.hpp"
#include "core/laboratory/people.hpp"
#include "core/protocol/profile.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// The profile of a store that was never set up: the invented laboratory, for trying.
inline constexpr const char* trying_profile = "fenwick-vale";

// As it stands now; paths are absolute, empty texts were not set.
struct own_laboratory {
  bool is_set_up{false};
  std::string profile; // an id, or a path
  std::string assets;
  std::string zone;
  std::string identity; // the file with the age identity; never the key itself
  std::string layout;   // the file that describes the analyser's tables
  std::string inbox;    // the folder in which records arrive
  std::string tables;   // the folder in which the analyser leaves its tables
  std::string reports;  // the folder that reports go to
  std::vector<person_at_work> people;
  std::vector<person_row> told; // every entry about them, those who left too

  // For `acting_person`: nothing where no laboratory was set up.
  [[nodiscard]] const std::vector<person_at_work>* list() const {
    return is_set_up ? &people : nullptr;
  }
};

// From the store's rows; refuses (as `machine`) roles that are none.
[[nodiscard]] result<own_laboratory> own_laboratory_of(const laboratory_rows& rows);

// The same of a store's file; one that is not there was never set up.
[[nodiscard]] result<own_laboratory> load_own_laboratory(const std::string& store);

// How a command's profile stands to the laboratory's own.
struct profile_standing {
  std::string mark; // on whatever was drawn from it; empty: the laboratory's own, and a real one
  std::string note; // to whoever types: no laboratory is set up; else empty
};

// What a command was given, to be held against what is set up.
struct given_profile {
  std::string profile; // an id, or a path
  std::string assets;
  bool another{false}; // --another-profile
};

// Refuses another profile than the one that was set up, by what the two files say, unless that was
// said on purpose. An invented laboratory's is marked in any case.
[[nodiscard]] result<profile_standing>
stand_of(const own_laboratory& own, const given_profile& given, const lab_profile& loaded);

} // namespace qb::lab
