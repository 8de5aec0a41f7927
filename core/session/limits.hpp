// How long what a person types may be, and how much of it a record keeps: every limit once.
// The screens let nobody type more than the first group, `decide` refuses what is beyond the
// second, and the record and the code read no more than it, so that whatever was accepted can be
// read back. A character is a code point, however many bytes it takes.
#pragma once

#include <chrono>
#include <cstddef>

namespace qb::inline sessions {

// --- what a line of a screen takes, in characters

// The name of a person, a doctor or a laboratory: what a label and the head of a sheet still hold.
inline constexpr std::size_t longest_name = 80;
// Somebody who was asked, agreed or wrote the scores down: fewer, since a role will do.
inline constexpr std::size_t longest_who = 60;
// A date of birth: "27.03.1957" has no more.
inline constexpr std::size_t longest_date = 10;
// A kit number or a kit code, which stands on the box: twelve characters with room for its groups
// and for another laboratory's longer numbers.
inline constexpr std::size_t longest_kit = 24;
// Words of their own: a comment, a reason, what somebody said. Some lines on the page.
inline constexpr std::size_t longest_comment = 200;
// Why a test is called off: one sentence.
inline constexpr std::size_t longest_reason = 120;
// What stands beside the scores of a tube: a few words, since the next tube is coming.
inline constexpr std::size_t longest_note = 60;

// --- what is accepted and kept

// Any one text, in characters: above all that screens take, for what comes from other programs.
// It bounds a record that somebody else made.
inline constexpr std::size_t most_words = 500;
// Items of one list that were ticked or told: more than the rules a protocol may have.
inline constexpr std::size_t most_items = 64;
// A kit number, in bytes: the result by code carries no more of it (core/code), and a sheet whose
// code is missing would say so to nobody.
inline constexpr std::size_t most_kit_number = 64;
// Events of one record: far beyond any test, a bound on work.
inline constexpr std::size_t most_events = 20000;
// The program's name and version, in characters, and those of the zones' data.
inline constexpr std::size_t most_program = 80;
// How far a zone's clock may be from UTC; POSIX rules reach a little over a day.
inline constexpr std::chrono::hours most_zone_offset{26};
// What a packet of sugar may say, in g or ml: far beyond any.
inline constexpr int most_amount = 100000;

// --- what the laboratory writes down beside a record, in characters

// Who is at the bench: a name with a title.
inline constexpr std::size_t most_bench_name = 100;
// Why a finding is set aside or another reading counts: some sentences, of which the report must
// hold several.
inline constexpr std::size_t most_bench_reason = 400;
// The reader's conclusion: a paragraph; more would leave the report's second page.
inline constexpr std::size_t most_conclusion = 2000;

// What a line takes must be accepted.
static_assert(longest_comment <= most_words && longest_kit <= most_kit_number);

} // namespace qb::inline sessions
