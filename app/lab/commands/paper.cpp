// The command `paper`.
#include "app/lab/commands/paper.hpp"

#include "app/lab/commands/day.hpp"
#include "app/lab/context/person_options.hpp"
#include "app/lab/context/receive_kit.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/intake/box_options.hpp"

#include "core/receiving/paper.hpp"
#include "core/receiving/slips.hpp"
#include "core/session/scores_after.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal no_sheet(const char* where, std::string found, std::string expected,
                 refusal_kind kind = refusal_kind::malformed) {
  return {kind, "", where, std::move(found), std::move(expected)};
}

// The times as they stand, where somebody said that they are meant so.
void take_as_written(paper_line& line, const std::string& times, const protocol& test) {
  std::size_t i = 0;
  for (const std::string& word : words_of(times)) {
    if (i < test.samples()) line.times[i] = read_day_minute(word);
    ++i;
  }
  line.questions.clear();
}

// Typed twice, it is one sheet.
bool is_kept(const received_kit& received, const paper_record& next) {
  return !received.papers.empty() && sheet_differences(received.papers.back(), next).empty();
}

// What only the whole sheet shows: a drink that cannot be, and that another sheet is kept.
void ask_of_sheet(const paper_record& p, const received_kit& received, const lab_profile& profile,
                  std::vector<paper_question>& out) {
  if (const auto words = drink_slip(p, profile.drink))
    out.push_back({paper_doubt::drink, 1, *words + ": is it as it is written?"});
  if (received.papers.empty() || is_kept(received, p)) return;
  const paper_record& kept = received.papers.back();
  out.push_back({paper_doubt::replaces, 1,
                 fmt::format("a sheet of {} is kept ({}); this one has another {}: does it count "
                             "in its place?",
                             date_text(kept.day), kept.written, sheet_differences(kept, p))});
}

// What the command expects in answer to a question.
std::string answers_to(paper_doubt what) {
  switch (what) {
  case paper_doubt::past_midnight:
  case paper_doubt::twelve_hours:
    return fmt::format("--confirm {}, --confirm as-written, or other times", doubt_text(what));
  case paper_doubt::backwards: return "--confirm as-written, or other times";
  case paper_doubt::drink: return "--confirm drink-as-written, or another time of the drink";
  case paper_doubt::replaces: return "--confirm replaces; both stay kept, and the later counts";
  }
  QB_BELIEVE(false);
  return {};
}

const char* part_of(paper_doubt what) {
  if (what == paper_doubt::drink) return "drink";
  return what == paper_doubt::replaces ? "sheet" : "times";
}

// What was typed of scores goes into `p`: those of the tubes, and rows A and B after them.
std::optional<refusal> read_scores(const std::string& typed, const protocol& test,
                                   paper_record& p) {
  if (typed.empty()) return std::nullopt;
  const std::size_t symptoms = test.symptoms.size();
  const std::string_view rows = paper_rows_in(typed);
  const std::size_t of_tubes = typed.size() - rows.size();
  auto tubes = read_paper_scores(std::string_view(typed).substr(0, of_tubes), test.samples(),
                                 symptoms, test.score_most);
  if (!tubes) return tubes.error();
  std::vector<score_time> asked;
  for (const score_time t : both_score_times) {
    if (are_asked(test, t)) asked.push_back(t);
  }
  auto after = read_paper_after(std::string(of_tubes, ' ') + std::string(rows), symptoms,
                                test.score_most, asked); // at its column
  if (!after) return after.error();
  p.scores = std::move(*tubes);
  p.after = std::move(*after);
  return std::nullopt;
}

result<const protocol*> test_of(const lab_context& at, const received_kit& received,
                                const known_kit& known, const std::string& told) {
  std::string id = told;
  if (id.empty() && known.told) id = known.told->protocol;
  if (id.empty() && !received.arrivals.empty()) id = received.arrivals.back().protocol;
  const protocol* test = at.test(id);
  if (test != nullptr) return test;
  return tl::unexpected(no_sheet("--test", id.empty() ? "no test" : "no such test",
                                 "the id of one of this laboratory's tests"));
}

// A kit by number or code, or else a test by its id.
result<named_test> named_for(const lab_context& at, const std::string& typed, std::string& coded) {
  const auto kit = kit_number_in(at, typed, coded);
  auto named = find_test(at, kit ? *kit : typed);
  // What is neither is refused for the number that it should be.
  if (!kit && named && !named->test().known.told) return tl::unexpected(kit.error());
  return named;
}

} // namespace

result<entered_paper> enter_paper_line(lab_context& at, const kept_kit& of, std::size_t which,
                                       const protocol& test, const typed_sheet& sheet) {
  const received_kit& received = of.tests[which].received;
  const auto by = named_person(at, work_act::enter_paper);
  if (!by) return tl::unexpected(by.error());
  const auto words = read_sheet_options(sheet.line);
  if (!words) return tl::unexpected(words.error());
  if (words->day.empty() && !sheet.tested)
    return tl::unexpected(no_sheet("day", "no day", "the day of the test first (2027-04-06)"));
  auto times = read_paper_line(words->times, test.offsets);
  if (!times) return tl::unexpected(times.error());
  paper_record p;
  if (const auto no = read_scores(words->scores, test, p)) return tl::unexpected(*no);
  if (sheet.confirmed.count(doubt_text(paper_doubt::backwards)) != 0)
    take_as_written(*times, words->times, test);
  p.kit = of.kit;
  p.protocol = test.id;
  p.day = words->day.empty() ? *sheet.tested : parse_date(words->day).value();
  p.times = std::move(times->times);
  p.past_midnight = times->past_midnight;
  p.drink = words->drink;
  p.written = sheet.line;
  p.by = *by;
  p.entered = at.now();
  p.who = sheet.who;
  p.mark.test = received.test.empty() ? sheet_test_id(p) : received.test;
  if (p.day > date_of(at.place().civil_at(p.entered)))
    return tl::unexpected(
        no_sheet("day", "a day to come", "the day of the test", refusal_kind::out_of_range));
  ask_of_sheet(p, received, at.profile(), times->questions);
  entered_paper out;
  for (const paper_question& q : times->questions)
    if (sheet.confirmed.count(doubt_text(q.what)) == 0) out.questions.push_back(q);
  if (!out.questions.empty() || is_kept(received, p)) return out;
  if (const auto kept = at.received().put(row_of(p), of.seen); !kept)
    return tl::unexpected(kept.error());
  return out;
}

int enter_paper(const shared_options& shared, const lab_context_options& o,
                const paper_options& sheet, const console& to) {
  auto at = lab_context::open(shared, o, true);
  if (!at) return say_no(at.error(), to);
  std::string coded; // the test that a kit code names
  const auto named = named_for(*at, sheet.kit, coded);
  if (!named) return say_no(named.error(), to);
  if (const auto meant = ask_of_new_kit(*at, named->of, to); !meant)
    return say_no(meant.error(), to);
  const auto who = person_in(sheet.who);
  if (!who) return say_no(who.error(), to);
  const auto& [received, known] = named->test();
  if (known.log)
    return say_no(no_sheet("KIT", "a kit whose log is here", "one that came on paper alone",
                           refusal_kind::not_now),
                  to);
  const auto test = test_of(*at, received, known, sheet.test.empty() ? coded : sheet.test);
  if (!test) return say_no(test.error(), to);
  const auto tested = received.arrivals.empty() ? std::nullopt : received.arrivals.back().tested;
  const auto done = enter_paper_line(
      *at, named->of, named->which, **test,
      {tested, sheet.sheet, {sheet.confirmed.begin(), sheet.confirmed.end()}, *who});
  if (!done) {
    to.out(came_since_look(*at, named->of, done.error()));
    return say_no(done.error(), to);
  }
  int status = 0;
  for (const paper_question& q : done->questions)
    status =
        say_no(no_sheet(part_of(q.what), q.words, answers_to(q.what), refusal_kind::ambiguous), to);
  if (status != 0) return status;
  to.out(fmt::format("{}  {}\n", named->of.kit, paper_words));
  if (received.arrivals.empty() && !known.told)
    to.out("  nothing else of this kit is here: neither box, log nor code\n");
  return status;
}

} // namespace qb::lab
