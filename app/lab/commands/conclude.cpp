// The command `conclude`, of one test or of all that wait: who and which test is shown and
// confirmed, and what goes out is kept with the conclusion in one transaction.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/context/typed_line.hpp"
#include "app/lab/render/issued.hpp"
#include "app/lab/render/receive_text.hpp"
#include "app/lab/render/report_sheet.hpp"
#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/case/concluding.hpp"
#include "core/case/conclusion_basis.hpp"
#include "core/case/worklist.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <functional>
#include <unistd.h>

namespace qb::lab {

namespace {

std::optional<refusal> no_to_text(const char* option, const std::string& text) {
  if (const auto has = character_count(text); has > most_conclusion)
    return refusal{refusal_kind::out_of_range, "", option, fmt::format("{} characters", has),
                   fmt::format("at most {} characters", most_conclusion)};
  if (!text.empty() && !json::is_plain_line(text))
    return refusal{refusal_kind::malformed, "", option, "a line break or a control character",
                   fmt::format("one line of at most {} characters", most_conclusion)};
  return std::nullopt;
}

result<conclusion> typed_conclusion(const conclude_options& o, const std::string& by) {
  for (const auto& [option, text] :
       {std::pair("--words", &o.words), std::pair("--reason", &o.reason),
        std::pair("--lack", &o.lack)})
    if (auto no = no_to_text(option, *text)) return tl::unexpected(std::move(*no));
  conclusion out;
  out.words = o.words;
  out.by = by;
  out.reason = o.reason;
  out.lack = o.lack;
  const auto kind = o.kind.empty() ? conclusion_kind::final_one : read_conclusion_kind(o.kind);
  if (!kind)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "--kind", "no such kind",
                                  "final, amended, corrected or cannot-be-reported"});
  out.kind = *kind;
  if (!o.letters.empty() && *kind != conclusion_kind::cannot_be_reported)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "--letters",
                                  "a conclusion that is reported", "--kind cannot-be-reported"});
  return out;
}

// Who and which test it is about to be kept for.
std::string shown(const kept_case& kept, const conclusion& next) {
  std::string out =
      fmt::format("{}  {}  {}", printable(kept.looked_at.kit), printable(kept.received.test),
                  printable(person_words(kept.known.who)));
  if (kept.known.told && kept.known.told->tested)
    out += "  tested " + date_text(*kept.known.told->tested);
  return out + fmt::format("\n  report {}, {}\n", next.number, conclusion_kind_text(next.kind));
}

// Says no where it is not this very test that is meant.
using confirmer = std::function<std::optional<refusal>(const std::string& short_id)>;

// Told as an option, or typed at a terminal.
std::optional<refusal> no_to_confirm(const lab_context_options& at, const conclude_options& o,
                                     const std::string& id, const console& to) {
  std::string told = o.confirm;
  std::FILE* typed = at.standard_input;
  if (told.empty() && typed != nullptr && ::isatty(::fileno(typed)) != 0) {
    to.out(fmt::format("  is it this test? type {} and Enter\n", id));
    bool too_long = false;
    told = read_line(typed, too_long).value_or("");
  }
  if (trimmed(told) == id) return std::nullopt;
  return refusal{refusal_kind::ambiguous, "", "--confirm",
                 told.empty() ? "nobody said that it is this test" : "another test's id",
                 "--confirm " + id};
}

// What goes out says how it is signed.
result<with_conclusion> kept_with(const opened_case& open, const conclusion& next,
                                  const std::optional<reader_signature>& seal) {
  auto bytes = issued_with(open, next, seal ? seal->holds : signed_evidence{});
  if (!bytes) return tl::unexpected(bytes.error());
  with_conclusion out{std::move(*bytes), {}};
  if (seal) out.signatures.push_back(seal->row);
  return out;
}

// Keeps it for that case, once it may be kept and somebody said that it is this test.
int conclude_case(opened_case& open, conclusion next, const conclude_options& o,
                  const confirmer& no_to_test, const console& to) {
  const kept_case& kept = open.kept;
  next.kit = kept.looked_at.kit;
  next.at = open.at.now();
  next.seen = basis_text(basis_in(kept.what, kept.received));
  next.mark.test = kept.received.test;
  if (!kept.received.conclusions.empty()) next.number = kept.received.conclusions.back().number + 1;
  if (const auto no = no_to_conclusion(next, kept.what, kept.received)) return say_no(*no, to);
  to.out(shown(kept, next));
  if (const auto no = no_to_test(short_test_id(kept.received.test))) return say_no(*no, to);
  const auto seal = sign_as_reader(open.at, kept.what, kept.received, next, o.passphrase);
  if (!seal) return say_no(seal.error(), to);
  const auto with = kept_with(open, next, *seal);
  if (!with) return say_no(with.error(), to);
  const auto put = open.at.received().put_issued(row_of(next), *with, kept.looked_at.seen);
  if (!put) {
    to.out(came_since_look(open.at, kept.looked_at, put.error()));
    return say_no(put.error(), to);
  }
  to.out(fmt::format("concluded by {} as report {}; the report is no draft any more\n", next.by,
                     next.number));
  if (*seal) to.out(fmt::format("signed with the key {}\n", (*seal)->holds.fingerprint));
  return 0;
}

// The tests that wait for a conclusion, as the day's list has them.
result<std::vector<std::string>> waiting_tests(const lab_context& at) {
  const auto rules = load_case_rules(at);
  if (!rules) return tl::unexpected(rules.error());
  std::vector<work_line> lines;
  const auto walked = every_test(at, [&](const kept_kit&, const kept_test& t) {
    work_line line =
        work_line_of(facts_of(at, *rules, t.received, t.known), at.profile(), at.place());
    const bool waits = line.what == waits_for::conclusion || line.what == waits_for::review;
    if (waits) lines.push_back(std::move(line));
    return result<void>();
  });
  if (!walked) return tl::unexpected(walked.error());
  sort_work(lines);
  std::vector<std::string> out;
  for (const work_line& line : lines)
    out.push_back(line.test.empty() ? line.kit : line.test);
  return out;
}

// What a reader looks at before the words: who, the answers, and what stands for review.
std::string looked_at(const opened_case& open) {
  const kept_case& kept = open.kept;
  std::string out = kit_line(open.at, kept.received, kept.known);
  if (!kept.mark.empty()) out += "  " + kept.mark + "\n";
  out += "  " + kept.what.axes.words + "\n";
  for (const page::report_finding& f : listed_findings(kept.what))
    if (f.aside.empty() && f.mark != "Note") out += "  " + f.mark + ": " + f.words + "\n";
  return out;
}

} // namespace

int conclude_kit(const shared_options& shared, const lab_context_options& options,
                 const conclude_options& o, const console& to) {
  const auto by = named_person(shared, options, work_act::conclude);
  if (!by) return say_no(by.error(), to);
  auto next = typed_conclusion(o, *by);
  if (!next) return say_no(next.error(), to);
  auto open = open_case(shared, options, o.kit);
  if (!open) return say_no(open.error(), to);
  const std::string kit = open->kept.looked_at.kit;
  const std::string test = open->kept.received.test.empty() ? kit : open->kept.received.test;
  const int ended = conclude_case(
      *open, *next, o, [&](const std::string& id) { return no_to_confirm(options, o, id, to); },
      to);
  if (ended != 0 || next->kind != conclusion_kind::cannot_be_reported) return ended;
  if (!o.letters.empty()) return write_letters(shared, options, {test, o.letters, kit}, to);
  to.out(fmt::format("to draft its letters: quarterbreath-lab letters {}\n", printable(test)));
  return 0;
}

int conclude_waiting(const shared_options& shared, const lab_context_options& options,
                     const conclude_options& o, const console& to) {
  const auto by = named_person(shared, options, work_act::conclude);
  if (!by) return say_no(by.error(), to);
  const auto at = lab_context::open(shared, options, false);
  if (!at) return say_no(at.error(), to);
  const auto waiting = waiting_tests(*at);
  if (!waiting) return say_no(waiting.error(), to);
  to.out(fmt::format("{} tests wait. Words and Enter, then y; = is the words before; Enter alone "
                     "is the next; q ends.\n",
                     waiting->size()));
  conclude_options told = o;
  int status = 0;
  bool too_long = false;
  for (const std::string& test : *waiting) {
    auto open = open_case(shared, options, test);
    if (!open) {
      status = say_no(open.error(), to);
      continue;
    }
    to.out(looked_at(*open));
    const auto line = read_line(options.standard_input, too_long);
    if (!line || trimmed(*line) == "q") break;
    if (trimmed(*line).empty()) continue;
    if (trimmed(*line) != "=") told.words = trimmed(*line);
    const auto next = typed_conclusion(told, *by);
    const int ended =
        !next
            ? say_no(next.error(), to)
            : conclude_case(
                  *open, *next, told,
                  [&](const std::string& id) {
                    to.out(fmt::format("  \"{}\"; is it test {}? y and Enter\n",
                                       printable(told.words), printable(id)));
                    return trimmed(read_line(options.standard_input, too_long).value_or("")) == "y"
                               ? std::optional<refusal>()
                               : refusal{refusal_kind::ambiguous, "", "test " + id,
                                         "nobody said that it is this test", "y"};
                  },
                  to);
    status = std::max(status, ended);
  }
  return status;
}

} // namespace qb::lab
