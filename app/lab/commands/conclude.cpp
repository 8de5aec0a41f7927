// The command `conclude`: who and which test is shown and confirmed, and what goes out is kept with
// the conclusion in one transaction.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/code_files.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/render/issued.hpp"
#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/case/concluding.hpp"
#include "core/case/conclusion_basis.hpp"
#include "core/session/limits.hpp"

#include <fmt/core.h>
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

// That this very test is meant: told as an option, or typed at a terminal.
std::optional<refusal> no_to_confirm(const lab_context& at, const conclude_options& o,
                                     const std::string& id, const console& to) {
  std::string told = o.confirm;
  std::FILE* typed = at.options().standard_input;
  if (told.empty() && typed != nullptr && ::isatty(::fileno(typed)) != 0) {
    to.out(fmt::format("  is it this test? type {} and Enter\n", id));
    for (int c = std::fgetc(typed); c != EOF && c != '\n' && told.size() <= id.size();
         c = std::fgetc(typed))
      told += static_cast<char>(c);
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

} // namespace

int conclude_kit(const shared_options& shared, const lab_context_options& options,
                 const conclude_options& o, const console& to) {
  const auto by = named_person(shared, options, work_act::conclude);
  if (!by) return say_no(by.error(), to);
  auto next = typed_conclusion(o, *by);
  if (!next) return say_no(next.error(), to);
  auto open = open_case(shared, options, o.kit);
  if (!open) return say_no(open.error(), to);
  const kept_case& kept = open->kept;
  next->kit = kept.looked_at.kit;
  next->at = open->at.now();
  next->seen = basis_text(basis_in(kept.what, kept.received));
  next->mark.test = kept.received.test;
  if (!kept.received.conclusions.empty())
    next->number = kept.received.conclusions.back().number + 1;
  if (const auto no = no_to_conclusion(*next, kept.what, kept.received)) return say_no(*no, to);
  to.out(shown(kept, *next));
  if (const auto no = no_to_confirm(open->at, o, short_test_id(kept.received.test), to))
    return say_no(*no, to);
  const auto seal = sign_as_reader(open->at, kept.what, kept.received, *next, o.passphrase);
  if (!seal) return say_no(seal.error(), to);
  const auto with = kept_with(*open, *next, *seal);
  if (!with) return say_no(with.error(), to);
  const auto put = open->at.received().put_issued(row_of(*next), *with, kept.looked_at.seen);
  if (!put) {
    to.out(came_since_look(open->at, kept.looked_at, put.error()));
    return say_no(put.error(), to);
  }
  to.out(fmt::format("concluded by {} as report {}; the report is no draft any more\n", *by,
                     next->number));
  if (*seal) to.out(fmt::format("signed with the key {}\n", (*seal)->holds.fingerprint));
  if (next->kind != conclusion_kind::cannot_be_reported) return 0;
  const std::string& test = next->mark.test.empty() ? next->kit : next->mark.test;
  if (!o.letters.empty()) return write_letters(shared, options, {test, o.letters, next->kit}, to);
  to.out(fmt::format("to draft its letters: quarterbreath-lab letters {}\n", printable(test)));
  return 0;
}

} // namespace qb::lab
