// The command `conclude`.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/case/conclusion_basis.hpp"
#include "core/session/limits.hpp"

#include <fmt/core.h>

namespace qb::lab {

int conclude_kit(const shared_options& shared, const lab_context_options& options,
                 const conclude_options& o, const console& to) {
  const auto by = named_person(options);
  if (!by) return say_no(by.error(), to);
  if (const auto has = character_count(o.words); has > most_conclusion)
    return say_no({refusal_kind::out_of_range, "", "--words", fmt::format("{} characters", has),
                   fmt::format("at most {} characters", most_conclusion)},
                  to);
  if (o.words.empty() || !json::is_plain_line(o.words))
    return say_no({refusal_kind::malformed, "", "--words",
                   o.words.empty() ? "nothing" : "a line break or a control character",
                   fmt::format("the reader's own words, in one line of at most {} characters",
                               most_conclusion)},
                  to);
  auto open = open_case(shared, options, o.kit);
  if (!open) return say_no(open.error(), to);
  const conclusion entry{open->kept.received.kit, o.words, *by, open->at.now(),
                         basis_text(basis_in(open->kept.what, open->kept.received))};
  if (const auto put = open->at.received().put(row_of(entry)); !put) return say_no(put.error(), to);
  const bool measured = !open->kept.received.readings.empty();
  to.out("concluded by " + *by + (measured ? "" : ", without any reading of a tube") +
         "; the report is no draft any more\n");
  return 0;
}

} // namespace qb::lab
