// The tests that bear a kit number, each with its own rows: the door through which every command
// comes to a kit. Whose a row is says core/receiving/whose.hpp.
#pragma once

#include "app/lab/context/console.hpp"
#include "app/lab/context/lab_context.hpp"
#include "core/receiving/whose.hpp"

#include <functional>
#include <string>
#include <vector>

namespace qb::lab {

// One test with what is known of it and the rows that are its own.
struct kept_test {
  received_kit received;
  known_kit known;
};

// A kit number, looked at. Practice is among its tests only where it was asked for.
struct kept_kit {
  std::string kit;
  kit_rows rows;                // as they were entered
  std::vector<kept_test> tests; // never none: one without an id where no test is known
  received_kit nobodys;         // empty where no test is known: then they are that one's
  std::vector<std::string> stopped;
  std::vector<owned_row> owners;
  bool only_practice{false}; // something is here, of practice, that was not asked for
  seen_kit seen;             // what was there when this was read
};

// Refuses (as `machine`) what cannot be read any more.
[[nodiscard]] result<kept_kit> open_kit(const lab_context& at, const std::string& kit);

// Asks about a kit of which nothing is here yet and that was never issued; where no register is
// kept, tells `to` of one whose number is a slip from one that is waited for. --not-issued, and
// practice, are not asked.
[[nodiscard]] result<void> ask_of_new_kit(const lab_context& at, const kept_kit& of,
                                          const console& to);

// A kit and the one of its tests that is meant.
struct named_test {
  kept_kit of;
  std::size_t which{0};

  [[nodiscard]] const kept_test& test() const { return of.tests[which]; }
};

// By kit number, else by a test's id. Refuses (as `ambiguous`) a number that several tests bear
// unless `--test` names one, and a --test that is none of its tests.
[[nodiscard]] result<named_test> find_test(const lab_context& at, const std::string& kit_or_test);

// What a person does to one test for a reason: who, in which laboratory, to which test.
struct reasoned_deed {
  std::string by;
  lab_context at;
  named_test test;
};

// The one beginning of such deeds. Refuses who may not, a reason that says nothing, and what
// `find_test` refuses.
[[nodiscard]] result<reasoned_deed> begin_deed(const shared_options& shared,
                                               const lab_context_options& o, work_act act,
                                               const std::string& kit, const std::string& reason);

// The one test of a kit that is looked at already.
[[nodiscard]] result<std::size_t> which_test(const lab_context& at, const kept_kit& of,
                                             const std::string& id);

// The kit number under which that test is known; nothing where it is none here.
[[nodiscard]] result<std::optional<std::string>> kit_of_test(const lab_context& at,
                                                             const std::string& id);

// A kit that cannot be read any more.
struct damaged_kit {
  std::string kit;
  refusal why;
};

// Calls `each` with every test of every kit that has a box, a record or a reading, by kit number.
// Answers the kits that cannot be read: they cost themselves alone. Stops at the first refusal of
// `each` that is no damage of one kit, and answers it.
[[nodiscard]] result<std::vector<damaged_kit>>
every_test(const lab_context& at,
           const std::function<result<void>(const kept_kit&, const kept_test&)>& each);

// What came under the kit number since it was looked at, a line each with its indent; for who is
// asked to say the same again. Empty of another refusal than `more_came`.
[[nodiscard]] std::string came_since_look(const lab_context& at, const kept_kit& before,
                                          const refusal& no);

// "FV-7001: 2 tests" and one line a test with id, person, day and what of it is here; what is
// nobody's last. For a person at the bench, never for an error line.
[[nodiscard]] std::string side_by_side(const kept_kit& of);

} // namespace qb::lab
