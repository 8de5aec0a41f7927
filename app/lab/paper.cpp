// The command `paper`.
#include "app/lab/paper.hpp"

#include "app/lab/bench.hpp"
#include "app/lab/day.hpp"
#include "app/lab/receive_words.hpp"

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

result<const protocol*> test_of(const desk& at, const bench_kit& bench, const known_kit& known,
                                const std::string& told) {
  std::string id = told;
  if (id.empty() && known.told) id = known.told->protocol;
  if (id.empty() && !bench.arrivals.empty()) id = bench.arrivals.back().protocol;
  const protocol* test = at.test(id);
  if (test != nullptr) return test;
  return tl::unexpected(no_sheet("--test", id.empty() ? "no test" : "no such test",
                                 "the id of one of this laboratory's tests"));
}

} // namespace

result<entered_paper> enter_paper_line(desk& at, const std::string& kit, const protocol& test,
                                       const std::optional<civil_date>& tested,
                                       const std::string& line,
                                       const std::set<std::string>& confirmed) {
  const auto by = named_person(at.options());
  if (!by) return tl::unexpected(by.error());
  const auto words = read_sheet_words(line);
  if (!words) return tl::unexpected(words.error());
  if (words->day.empty() && !tested)
    return tl::unexpected(no_sheet("day", "no day", "the day of the test first (2027-04-06)"));
  auto times = read_paper_line(words->times, test.offsets);
  if (!times) return tl::unexpected(times.error());
  std::vector<tube_scores> scores;
  if (!words->scores.empty()) {
    auto read =
        read_paper_scores(words->scores, test.samples(), test.symptoms.size(), test.score_most);
    if (!read) return tl::unexpected(read.error());
    scores = std::move(*read);
  }
  if (confirmed.count(doubt_text(paper_doubt::backwards)) != 0)
    take_as_written(*times, words->times, test);
  entered_paper out;
  for (const paper_question& q : times->questions)
    if (confirmed.count(doubt_text(q.what)) == 0) out.questions.push_back(q);
  if (!out.questions.empty()) return out;
  paper_record p;
  p.kit = kit;
  p.protocol = test.id;
  p.day = words->day.empty() ? *tested : parse_date(words->day).value();
  p.times = std::move(times->times);
  p.past_midnight = times->past_midnight;
  p.drink = words->drink;
  p.written = line;
  p.by = *by;
  p.entered = at.now();
  p.scores = std::move(scores);
  if (p.day > date_of(at.place().civil_at(p.entered)))
    return tl::unexpected(
        no_sheet("day", "a day to come", "the day of the test", refusal_kind::out_of_range));
  if (const auto kept = at.bench().put(row_of(p)); !kept) return tl::unexpected(kept.error());
  return out;
}

int enter_paper(const shared_options& shared, const desk_options& o, const paper_options& sheet,
                const console& to) {
  auto at = desk::open(shared, o, true);
  if (!at) return say_no(at.error(), to);
  const auto kit = read_kit_number(sheet.kit);
  if (!kit) return say_no(no_sheet("KIT", "no kit number", "one such as FV-2071"), to);
  const auto bench = load_bench(at->bench(), *kit);
  if (!bench) return say_no(bench.error(), to);
  const auto known = at->find(*bench);
  if (!known) return say_no(known.error(), to);
  if (known->log)
    return say_no(no_sheet("KIT", "a kit whose log is here", "one that came on paper alone",
                           refusal_kind::not_now),
                  to);
  const auto test = test_of(*at, *bench, *known, sheet.test);
  if (!test) return say_no(test.error(), to);
  const auto tested = bench->arrivals.empty() ? std::nullopt : bench->arrivals.back().tested;
  const auto done = enter_paper_line(*at, *kit, **test, tested, sheet.sheet,
                                     {sheet.confirmed.begin(), sheet.confirmed.end()});
  if (!done) return say_no(done.error(), to);
  int status = 0;
  for (const paper_question& q : done->questions)
    status = say_no(no_sheet("times", q.words,
                             fmt::format("--confirm {}, --confirm as-written, or other times",
                                         doubt_text(q.what)),
                             refusal_kind::ambiguous),
                    to);
  if (status == 0) to.out(fmt::format("{}  {}\n", *kit, paper_words));
  return status;
}

} // namespace qb::lab
