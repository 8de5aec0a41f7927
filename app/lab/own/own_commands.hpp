// The commands of the laboratory about itself: how it is set up, who works there, with which key a
// reader signs, which kits were asked for and issued, and which tests a rule touched. Each answers
// an exit status, as those of app/lab/commands/commands.hpp do.
#pragma once

#include "app/lab/context/lab_context.hpp"

#include <string>
#include <vector>

namespace qb::lab {

// Shows what is set up, or sets it up: what is given is kept, the rest stays as it was. The first
// time it needs a profile and the people, one of whom is a reader and says it.
struct set_up_options {
  std::string profile;
  std::string assets; // as it was given; empty: those of the program
  std::string zone;
  std::string identity;
  std::string layout;  // describes the analyser's tables (`readings --layout`)
  std::string inbox{}; // folders that commands take where they are given none
  std::string tables{};
  std::string reports{};
  std::vector<std::string> people{}; // "NAME / CODE / ROLES"
  bool trying{false};                // an invented laboratory's profile, on purpose
  bool usual{false};                 // this store is meant where none is named
};
[[nodiscard]] int set_up_laboratory(const shared_options& shared, const lab_context_options& at,
                                    const set_up_options& o, const console& to);

// Says who works at this bench from now on, by a name or code of the list; shows who does where it
// is blank. Who signs out leaves nobody there.
[[nodiscard]] int sign_in_here(const shared_options& shared, const std::string& who,
                               const console& to);
[[nodiscard]] int sign_out_here(const console& to);

// Whose name a command bears that was given none, and says so; empty where nobody is signed in.
// Only for what may be taken back or is confirmed before it is kept: what cannot is told by name.
[[nodiscard]] result<std::string> person_at_bench(const shared_options& shared, const console& to);

// Shows the people, adds one (or tells one anew), or says that one has left. The list must go on
// having a reader.
struct people_options {
  std::string add;   // "NAME / CODE / ROLES"
  std::string leave; // a name or code
};
[[nodiscard]] int change_people(const shared_options& shared, const lab_context_options& at,
                                const people_options& o, const console& to);

// A key of the reader's own, sealed by a passphrase, into a new file; the store keeps its public
// half and the file's path.
struct reader_key_options {
  std::string out;
  std::string passphrase; // the file it is the first line of; empty: the terminal is asked twice
  bool quick{false};      // the least cost of a try: for tests, where many keys are made
};
[[nodiscard]] int make_reader_key(const shared_options& shared, const lab_context_options& at,
                                  const reader_key_options& o, const console& to);

// The bytes that a reader signed, into a file, and beside it their signature as minisign writes it.
struct signed_options {
  std::string kit;
  std::string out;
};
[[nodiscard]] int write_signed(const shared_options& shared, const lab_context_options& at,
                               const signed_options& o, const console& to);

// A list of what was asked for (core/receiving/requested.hpp): a table with the description of its
// columns, or FHIR where none is given. All of it or nothing.
struct requests_options {
  std::string file;    // or "-"
  std::string columns; // a description's file; empty: FHIR
};
[[nodiscard]] int take_requests(const shared_options& shared, const lab_context_options& at,
                                const requests_options& o, const console& to);

// `request-columns check FILE...`: one line a file, "FILE: ok" or what is wrong.
[[nodiscard]] int check_request_columns(const std::vector<std::string>& files, const console& to);

// Which tests used this: a line each, with what was concluded of it. One of them is given.
struct which_options {
  std::string protocol;
  std::string profile;
  std::string criterion;
  std::string lot;
  std::string run{};
};
[[nodiscard]] int show_which(const shared_options& shared, const lab_context_options& at,
                             const which_options& o, const console& to);

} // namespace qb::lab
