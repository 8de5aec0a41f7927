// What every command of the laboratory's day needs: store, profile, protocols, and the clock.
// The one place where these commands look at the machine's clock and zone.
#pragma once

#include "app/lab/context/console.hpp"
#include "app/lab/context/issued_kits.hpp"
#include "app/lab/context/own_laboratory.hpp"
#include "app/store/lab_store.hpp"
#include "app/store/receiving_store.hpp"
#include "core/base/result.hpp"
#include "core/code/packed_result.hpp"
#include "core/receiving/tubes.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// The options that all of them share.
struct lab_context_options {
  std::string assets;     // folder of data files
  std::string profile;    // id or path; empty: the one that is set up
  std::string now;        // "2027-04-09 10:30" in the zone; empty: the machine's clock
  std::string zone;       // IANA name; empty: the one that is set up, else the machine's
  std::string by;         // who receives
  bool rehearsals{false}; // practice counts too
  bool replace{false};    // a file that is there may be written over (app/lab/context/output.hpp)
  std::FILE* standard_input{nullptr};
  std::string test{};          // a test's id: which one, where a kit number bears several
  bool another_profile{false}; // another than the one that is set up, on purpose
  bool not_issued{false};      // a kit that was never issued here, on purpose
};

// What is known of one test beside what receiving wrote down.
struct known_kit {
  std::optional<report> log;
  std::optional<read_log_result> events;     // what that report was made of
  std::optional<code::packed_result> code;   // where the log has not come
  std::optional<code::packed_result> beside; // a code that is kept beside that log
  std::optional<recorded_tubes> told;        // of log, code or paper sheet, the first there is
  bool rehearsal{false};
  told_person who{};       // by log or sheet
  told_person asked_for{}; // by the request for its kit number
  kit_supply supply{};     // by the register of issued kits
};

// Store, rules and clock together. Opened once a command.
class lab_context {
public:
  // `make_store`: a store is made where there is none. Refuses what its parts refuse, and a zone or
  // a moment that is none.
  [[nodiscard]] static result<lab_context> open(const shared_options& shared,
                                                const lab_context_options& o, bool make_store);

  [[nodiscard]] lab_store& logs() { return logs_; }
  [[nodiscard]] const lab_store& logs() const { return logs_; }
  [[nodiscard]] receiving_store& received() { return received_; }
  [[nodiscard]] const receiving_store& received() const { return received_; }
  [[nodiscard]] const lab_profile& profile() const { return profile_; }
  // What the laboratory says of itself and what was asked of it.
  [[nodiscard]] const laboratory_store& laboratory() const { return laboratory_; }
  // The laboratory as it was set up, and how this command's profile stands to that.
  [[nodiscard]] const own_laboratory& own() const { return own_; }
  [[nodiscard]] const profile_standing& standing() const { return standing_; }
  [[nodiscard]] const zone& place() const { return place_; }
  [[nodiscard]] const shared_options& shared() const { return shared_; }
  [[nodiscard]] const lab_context_options& options() const { return options_; }
  // The moment that --now gave, or the machine's clock as it is now, in whole seconds.
  [[nodiscard]] instant now() const;

  // One of the laboratory's tests by its id, or by its letters in a kit code; nullptr if none.
  [[nodiscard]] const protocol* test(const std::string& id) const;
  [[nodiscard]] const protocol* test_of_letters(const std::string& letters) const;

  // A kept log, or a code whose log has not come, with its report; refuses (as `machine`) one that
  // cannot be read any more.
  [[nodiscard]] result<known_kit> known_of(const log_row& row) const;

  // The days and minutes that a box of that test is held against.
  [[nodiscard]] box_terms terms_of(const std::string& protocol_id) const;
  // All that stands against the box and its readings.
  [[nodiscard]] std::vector<receiving_finding> findings_of(const received_kit& received,
                                                           const known_kit& known) const;

private:
  lab_context(lab_store logs, receiving_store received, laboratory_store laboratory);
  lab_store logs_;
  receiving_store received_;
  laboratory_store laboratory_;
  shared_options shared_;
  lab_context_options options_;
  own_laboratory own_;
  lab_profile profile_;
  profile_standing standing_;
  std::vector<protocol> tests_;
  zone place_{zone::fixed("UTC", std::chrono::seconds{0})};
  std::optional<instant> given_now_;
};

// Who does it, as a whole name: --by held against the laboratory's people and what their roles
// allow (core/laboratory/people.hpp). Every command that asks who does something asks here.
[[nodiscard]] result<std::string> named_person(const shared_options& shared,
                                               const lab_context_options& o, work_act act);
[[nodiscard]] result<std::string> named_person(const lab_context& at, work_act act);

// This moment by the machine's clock, as it is kept: for what has nothing to do with a test.
[[nodiscard]] std::string clock_moment();

// A reason as it was given: refuses an empty one, too long a one, and what is no plain line.
[[nodiscard]] result<void> reason_given(const std::string& reason);

// "2027-04-09 10:30" in a zone; refuses what is no moment or two there, naming `option`.
[[nodiscard]] result<instant> moment_in(const zone& z, const std::string& text, const char* option);

// The name of the program's folder among the user's data.
inline constexpr const char* program_name = "quarterbreath-lab";

// The store in the folder `data`, or where that is empty the one that `set_usual_store` named, else
// that in the user's data folder, which is made if `make_folders`. Refuses where none is known.
[[nodiscard]] result<std::string> usual_store(const std::string& data, bool make_folders);

// From now on that store is the usual one of this user. Kept beside it, in the user's data folder.
[[nodiscard]] result<void> set_usual_store(const std::string& path);

} // namespace qb::lab
