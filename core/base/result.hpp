// Results and refusals: how every part of the program says no.
// Refusals are values with a place and an expectation, so that one function can word them all;
// a broken belief (a mistake of ours, not of the data) stops the program at once.
#pragma once

#include <string>
#include <tl/expected.hpp>

namespace qb {

// Why something was refused. Closed on purpose: whoever words or handles refusals sees every kind.
enum class refusal_kind {
  malformed,    // not in the form that is read (syntax, wrong type, unknown field)
  out_of_range, // well formed, but outside the values that are accepted
  missing,      // something required is not there
  ambiguous,    // more than one meaning; the expectation names the choices
  newer,        // written by a newer version than this program reads
  not_now,      // a command that does not fit the present step
  machine,      // disk, display or another part of the machine failed
};

// One refusal. `where` is a place inside `file` (line, field, option); any text may be empty.
// None of the texts may hold personal data: they are printed on standard error.
struct refusal {
  refusal_kind kind{refusal_kind::malformed};
  std::string file;
  std::string where;
  std::string found;
  std::string expected;
};

template <typename T>
using result = tl::expected<T, refusal>;

// "FILE: WHERE: found FOUND, expected EXPECTED" with the empty parts left out.
[[nodiscard]] std::string sentence(const refusal& no);

// The same refusal with the file's name filled in where it was empty.
[[nodiscard]] refusal in_file(refusal no, const std::string& file);

// The exit status both programs give for a refusal: 1 when the machine failed, else 2.
[[nodiscard]] int exit_status(const refusal& no);

// Says where and what on standard error, and aborts. Called through QB_BELIEVE only.
[[noreturn]] void broken_belief(const char* belief, const char* file, int line);

} // namespace qb

// Stops the program when something we believe always holds does not. On in every build.
#define QB_BELIEVE(condition)                                                                      \
  ((condition) ? static_cast<void>(0) : ::qb::broken_belief(#condition, __FILE__, __LINE__))
