// Taking one log into the store: read strictly, compared with what is kept, stored or refused.
#pragma once

#include "app/lab/intake/evidence.hpp"
#include "app/lab/intake/log_reader.hpp"
#include "app/store/lab_store.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace qb::lab {

// What became of a log that was not refused.
enum class taken_in {
  fresh, // a test that was not known
  grown, // more events of a known test; the earlier version is kept too
  same,  // known already
  older, // known already, with more events than this
  aside, // contradicts the kept one, or grew it wrongly signed; the better signed counts
};

// What became of one log.
struct taken_log {
  taken_in what{taken_in::fresh};
  bool rehearsal{false};
  signature_state signature{signature_state::none};
  std::string kit{};
  std::string mismatch{};            // how the log does not match its own record; empty: it does
  std::optional<refusal> differs{};  // of one that contradicts: the first thing that differs
  std::vector<finding> provenance{}; // of all versions of its test
};

// What is taken in, and what came with the log.
struct take_in_options {
  bool rehearsals{false};
  std::optional<std::string> signature{}; // the text that came beside this log
  // Says no to a kit of which nothing was kept yet; empty: nothing is asked. Practice is not asked.
  std::function<std::optional<refusal>(const std::string& kit)> ask_kit{};
};

// Refuses what is not a log, practice unless it is asked for, and a log without a person or a plan.
// Of those that contradict each other the better signed one counts, and the others are kept beside
// it (core/report/provenance.hpp). A log that does not match its own record is taken in and says so
// wherever it is shown; so is its signature, good or not.
[[nodiscard]] result<taken_log> take_in(lab_store& store, log_reader& reader, std::string text,
                                        const take_in_options& o);

// What `take_in` answers for a log whose very bytes are all that is here of its test, never signed
// and of which nothing is to be told: without reading it. Nothing where it has to be read. So an
// import that is done again goes on where it was.
[[nodiscard]] result<std::optional<taken_log>>
passed_as_known(const lab_store& store, const std::string& text, const take_in_options& o);

} // namespace qb::lab
