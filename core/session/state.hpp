// What the events of a test add up to. A value: folding the same events gives the same state, and
// nothing here asks a clock or a zone database.
#pragma once

#include "core/clock/time_line.hpp"
#include "core/session/event.hpp"
#include "core/session/hindrance.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline sessions {

// A breath that closed a tube.
struct taken_breath {
  std::int64_t seq{0};            // the event that says so
  instant closed;                 // wall time, as the device showed it or as told
  std::chrono::seconds offset{0}; // of the device's zone, for the label
  duration since_anchor{0};       // elapsed after tube 1; negative for a told time before it
  certainty sure{certainty::exact};
  how_known how{how_known::observed};
  std::optional<instant> guide_end{}; // when the guide said "close", where a breath was guided
};

// What is known of one sample and its tube.
struct sample_state {
  std::optional<taken_breath> taken; // the closing that counts: the last
  std::vector<taken_breath> earlier; // closings that a repeat or a correction replaced
  bool label_done{false};
  std::optional<reported_symptoms> symptoms;
  std::vector<std::int64_t> symptom_events;
  std::optional<std::string> repeat_reason; // a repeat is wanted and not yet taken
  bool again_when_due{false}; // blown by mistake before its time: blown again when it is due
  std::optional<reported_scorer> scored_by;    // as it was told when the scores were given
  std::optional<reported_red_flags> red_flags; // all signs that were told at it
  // The scores after which the signs were asked last: asked again only where one is told higher.
  std::vector<symptom_score> signs_asked_at;
};

// What is known of scores that belong to no tube.
struct scores_after {
  std::optional<reported_symptoms_after> told;
  std::optional<clock_reading> at; // when they were first given; a later telling is of that moment
  std::vector<std::int64_t> events;
  std::optional<reported_scorer> scored_by;    // as it was told when the scores were given
  std::optional<reported_red_flags> red_flags; // all signs that were told at it
  // The scores after which the signs were asked last: asked again only where one is told higher.
  std::vector<symptom_score> signs_asked_at;

  // Whether any score was given: not where it was only put off.
  [[nodiscard]] bool given() const { return told && !told->scores.empty(); }
};

// A guided breath in progress.
struct breath_in_progress {
  sample_number sample{1};
  clock_reading began;
  bool interrupted{false}; // the program was off since: nobody saw what became of it
};

// The time before an event was measured anew, after a restart whose wall clock was set right.
struct measured_anew {
  std::int64_t seq{0};
  duration by{0}; // longer than it was taken for; negative: shorter
};

// The grid: counts elapsed time from the closing of tube 1 through every later event, so that a
// clock stepped or a machine restarted in between cannot bend it.
struct grid_state {
  std::int64_t anchor_seq{0};
  clock_reading anchor; // tube 1 closed
  time_line line;       // from there through every later event
  std::vector<measured_anew> anew{};
  bool from_drink{false}; // the drink came before tube 1: its start is the anchor

  // Elapsed from the anchor to that reading.
  [[nodiscard]] elapsed at(const clock_reading& now) const { return line.at(now); }
};

// What was reported, the event that tells it and the clocks of that event.
template <class Report>
struct noted {
  std::int64_t seq{0};
  clock_reading at;
  Report what;
};
using noted_slip = noted<reported_slip>;
using noted_list = noted<reported_checklist>; // a list that was gone through
using noted_drink_trouble = noted<reported_drink_trouble>;
using noted_packet = noted<reported_packet>;
using noted_warnings = noted<reported_red_flags>; // the signs as they were told last

// A packet that was not the plan's, and what took it back.
struct noted_other_packet {
  noted_packet told;
  std::int64_t until_seq{0}; // the event that told the plan's packet after it; 0: none did
  instant until;
};

// An answer that was taken back: told again as one that weighs less.
struct earlier_answer {
  std::int64_t seq{0};
  instant at;
  caution_answer answer{caution_answer::no};
  std::int64_t until_seq{0}; // the event that took it back
  instant until;
  caution_answer became{caution_answer::no};
  asked_outcome became_outcome{asked_outcome::not_asked};
};

// The latest answer to a caution's question, and the events that told of it.
struct noted_caution {
  std::vector<std::int64_t> seqs; // the last is the one that counts
  clock_reading at;               // when that was
  reported_caution what;
  std::vector<earlier_answer>
      earlier; // what was taken back: answers that weighed more than the next
};

// An answer about a washout that was told again as one that weighs less.
struct earlier_washout {
  std::int64_t seq{0};
  instant at;
  answered_washout was;
  std::int64_t until_seq{0}; // the event that took it back
  instant until;
  answered_washout became;
};

// The latest answer about a washout.
struct noted_washout {
  std::vector<std::int64_t> seqs;
  clock_reading at; // when the last of them was
  reported_washout what;
  std::vector<earlier_washout> earlier; // what was taken back
};

// A plan that was replaced or called off, and when.
struct earlier_plan {
  plan_made what;
  clock_reading until;    // when it stopped being the plan
  bool called_off{false}; // else it was moved or chosen anew
  std::string reason;
  std::int64_t seq{0}; // the event that ended it
};

// A correction with what stood before it.
struct noted_correction {
  std::int64_t seq{0};
  corrected what;
  std::optional<sample_number> sample; // none: the drink's, or that of scores after the tubes
  std::optional<score_time> after;     // those scores
  std::optional<instant> time_was;
  std::optional<int> score_was;
  bool both_blown{false}; // a tube: the other was blown too, so the two were swapped
};

// What went wrong with a breath, as it was told; `closing` is the event that closed the tube on it.
struct noted_spoil {
  std::int64_t seq{0};
  std::int64_t closing{0};
  reported_spoil what;
};

// A moment of the record: when it happened and which event says so.
struct noted_moment {
  std::int64_t seq{0};
  clock_reading at;
};

// What the clocks did, and the first look after it.
struct noted_clock_change {
  std::int64_t seq{0};
  clock_change what;
  clock_reading at;
  std::optional<clock_reading> before{}; // the last look before it
};

// The whole test as its events have it.
struct state {
  std::int64_t seq{0}; // the last event folded; 0 before the first
  std::optional<opened> opening;
  frozen<lab_profile> profile; // read from the opening
  std::optional<reported_person> person;
  std::int64_t person_seq{0}; // the event that told of it last
  std::optional<reported_kit> kit;
  std::int64_t kit_seq{0};
  std::vector<noted_caution> cautions; // one a rule
  std::vector<noted_washout> washouts; // one a rule
  std::optional<plan_made> planned;
  std::optional<noted_moment> planned_at; // when that plan was made
  frozen<protocol> test;                  // read from the plan
  std::vector<earlier_plan> earlier_plans;
  std::vector<noted_slip> slips;
  std::vector<noted_list> checklists;
  std::optional<noted_moment> ready;
  std::vector<std::string> ready_checks;
  std::vector<std::string> ready_not_kept;
  std::string ready_agreed;
  std::vector<std::string> ready_agreed_to; // of those, the rules that needed it then
  std::optional<releaser> ready_said_by;
  std::optional<noted_packet> packet;            // since this start was planned
  std::vector<noted_other_packet> other_packets; // those that were not the plan's
  std::optional<noted_moment> sugar;
  std::vector<sample_state> samples; // one a sample of the protocol, from the plan on
  std::array<scores_after, 2> after; // by score_time
  std::optional<breath_in_progress> breath;
  std::optional<grid_state> grid; // from tube 1 on
  std::optional<noted_moment> drink_start;
  std::optional<noted_moment> drink_end;
  bool drank_all{true};
  how_known drink_start_how{how_known::observed};
  std::vector<hindrance> drunk_against; // what stood against it when the drink was begun
  std::vector<noted_drink_trouble> drink_troubles;
  std::vector<noted_spoil> spoils; // in the order they were told, also those taken back
  std::vector<noted_correction> corrections;
  std::optional<reported_scorer> scorer;
  std::vector<std::pair<std::int64_t, std::string>> comments;
  std::optional<noted_moment> unwell; // set while the person said so and has not gone on
  std::vector<std::int64_t> unwell_events;
  std::optional<noted_warnings> warnings; // all that were told since the person last went on
  bool final_sign{false};                 // one was told after which nothing goes on
  std::int64_t signs_seq{0};              // the event that told of signs last, or of none
  std::optional<noted_moment> ended;
  std::string ended_reason;
  std::vector<noted_clock_change> clock_changes;
  std::vector<std::int64_t> resumes;
  std::optional<noted_moment> exported_at;
  std::optional<clock_reading> last_reading;
  std::vector<std::int64_t> lost; // entries that could not be read any more
  std::vector<noted<record_salvaged>> salvaged;
  std::int64_t lost_by{0}; // before the drink: what was told up to this event permits nothing
  std::vector<std::string> ask_again;     // questions of any sugar's test, told by then or lost
  std::optional<instant> back_after_loss; // the first look after that loss

  [[nodiscard]] bool rehearsal() const { return opening && opening->rehearsal; }
  [[nodiscard]] const sample_state& of(sample_number n) const { return samples.at(n.index()); }
  [[nodiscard]] const scores_after& of(score_time t) const {
    return after.at(static_cast<std::size_t>(t));
  }

  // Copied, moved and destroyed out of line: inline they would be compiled in every file.
  state();
  state(const state&);
  state(state&&) noexcept;
  state& operator=(const state&);
  state& operator=(state&&) noexcept;
  ~state();
};

// Whether the word of somebody who is that counts for it: to pause the medicine, or to go on in
// spite of it. Where the protocol did not ask who, anybody's does.
enum class word_for { pause, going_on };
[[nodiscard]] bool word_counts(const washout& asked, word_for what,
                               const std::optional<releaser>& said_by);

// Whether what was told rests on an agreement, to a pause or to going on, of nobody who may agree.
[[nodiscard]] bool rests_on_no_word(const washout& asked, const reported_washout& told);

// Whether an answer keeps the plan waiting: it goes on or is not known, and nobody who may agreed;
// or it rests on no such word.
[[nodiscard]] bool is_open(const washout& asked, const reported_washout& told);

// Who that is, for a reader: "a doctor", or "not known who" where the record does not say.
[[nodiscard]] const char* words_of(const std::optional<releaser>& said_by);

// The bounds of this test's samples: the protocol's own where it has some, else the profile's.
// Only asked where both protocol and profile are there.
[[nodiscard]] const sample_bounds& bounds_of(const state& s);

// From the press to the blowing: the lead-in, and the holding where the protocol asks for it.
// Only asked where both are there.
[[nodiscard]] std::chrono::seconds before_blowing(const state& s);

// How long after its due time that tube counts as missed; the last tube may have a bound of its
// own.
[[nodiscard]] std::chrono::seconds last_call_of(const state& s, sample_number n);

// The latest answer of that rule, or nullptr.
[[nodiscard]] const noted_caution* find_noted_caution(const state& s, std::string_view rule);
[[nodiscard]] const noted_washout* find_noted_washout(const state& s, std::string_view rule);

// What went wrong with that breath: what was told last, or nullptr where nothing was or it was
// taken back.
[[nodiscard]] const noted_spoil* spoil_of(const state& s, const taken_breath& breath);

// Whether by this answer the test is not for this person, whoever says otherwise.
[[nodiscard]] bool is_never(const caution& asked, const reported_caution& told);

// Whether `later` weighs less than `earlier`: a yes or not sure that became less, or a word against
// the test that is no longer told.
[[nodiscard]] bool takes_back(const reported_caution& earlier, const reported_caution& later);

// The same of a washout: an earlier last day, or an answer that leaves less to wait or to ask for.
// What goes on weighs most; then what is not known, what still runs until a day, what was over on
// one, and none.
[[nodiscard]] bool takes_back(const reported_washout& earlier, const reported_washout& later);

// What was answered about a washout, for a reader: "last on 2027-03-20", "goes on".
[[nodiscard]] std::string words_of(const answered_washout& told);

// Whether an answer keeps that protocol's test waiting: yes or not sure, and nobody who may has
// said of this test to go on.
[[nodiscard]] bool is_open(const protocol& p, const caution& asked, const reported_caution& told);

// Folds one event in. Total: an event the present state cannot use (a sample beyond the protocol's,
// say) leaves its trace in `seq` and changes nothing else.
[[nodiscard]] state apply(state s, const event& e);

// All of them, in order, from nothing.
[[nodiscard]] state fold_events(const std::vector<event>& events);

// How a taken sample lies against its due time. Only asked for a sample that was taken.
enum class timing { early, on_time, late };
[[nodiscard]] duration lateness(const state& s, sample_number n);
[[nodiscard]] timing timing_of(const state& s, sample_number n);

// Not taken, and its last call is past at that reading or the test is over.
[[nodiscard]] bool is_missed(const state& s, sample_number n, const clock_reading& now);

// The due time of a sample on the device's wall clock as it stands at `now`; the planned due time
// while there is no grid yet.
[[nodiscard]] instant due_on_wall(const state& s, sample_number n, const clock_reading& now);

} // namespace qb::inline sessions
