// Whose each row under a kit number is: the one question that every door asks before it shows,
// judges, reports, exports, lists or keeps anything.
//
// A row that was entered for a test is that test's and no other's, for ever, unless a named person
// says otherwise. A row that was entered while no test was known is the only one's as long as there
// is exactly one; with a second it is nobody's until a named person says whose it is. A box or
// sheet that names somebody else than the only test is nobody's too. Practice is no second test:
// what no test was known for is never practice's while there is a real one.
//
// A sheet on paper is a test of its own. It is one with a log or code of its day where two
// identifiers agree and none contradicts. One that an earlier version kept has no test of its own:
// it goes with the only log of its day, as it did then.
//
// A second test under the number stops the kit: nothing of it is reported or concluded until a
// named person, with every test there is in sight, has said which box is whose.
#pragma once

#include "core/receiving/kit_rows.hpp"
#include "core/receiving/tubes.hpp"

#include <optional>
#include <string>
#include <vector>

namespace qb::inline receiving {

// What a test is known by.
enum class known_by { log, code, sheet };

// A test that bears the kit number.
struct known_test {
  std::string id;
  told_person who;
  std::optional<civil_date> day; // of the test
  known_by from{known_by::log};
  bool practice{false};
  bool hidden{false}; // practice that nobody asked for: it keeps what is its own and gets nothing
};

// One test and the rows that are its own.
struct test_rows {
  known_test test;
  received_kit rows;
};

// Whose a row is, also one that was taken back; of a box its tubes too. An empty text: nobody's.
struct owned_row {
  ruled what{ruled::box};
  std::int64_t entry{0};
  std::string test;
  std::string entered_for{}; // the test it was entered for
  bool away{false};          // a reading that a person moved to another kit: nobody's here
};

// The answer. Nothing that was entered is in two places, and nothing is in none but what a named
// person took back or moved to another kit.
struct kit_file {
  std::string kit;
  std::vector<test_rows> tests;     // in the order they were known; then those of sheets
  received_kit nobodys;             // what is no test's: all of it while none is known
  std::vector<std::string> stopped; // why the kit is stopped, in words; empty: it is not
  std::vector<owned_row> owners;
};

// `known` are the logs and codes that bear the number, each test once. A reading that a person
// moved here from another kit is among `rows` with that ruling.
[[nodiscard]] kit_file whose(const kit_rows& rows, const std::vector<known_test>& known);

// The id of a sheet's own test: of what was written, so that the same sheet gives the same.
[[nodiscard]] std::string sheet_test_id(const paper_record& sheet);

// What reads out a test's id to a person: its last characters, or all of a short one.
[[nodiscard]] std::string short_test_id(const std::string& id);

// What came under the number between two looks at it, each in a few words with who and when; empty
// where nothing did.
[[nodiscard]] std::vector<std::string> came_between(const kit_rows& before, const kit_rows& now);

// rule            weight          when
// kit-shared      cannot-be-used  another test bears the kit number, and nobody said whose is what
// person-differs  cannot-be-used  record, sheet, box and request do not name the same person
// `asked_for` is whom the kit was meant for, by the request.
[[nodiscard]] std::vector<receiving_finding> check_identity(const received_kit& kit,
                                                            const told_person& record,
                                                            const told_person& asked_for = {});

} // namespace qb::inline receiving
