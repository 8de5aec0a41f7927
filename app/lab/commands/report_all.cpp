// The command `report --all`: what was concluded since, each once.
#include "app/lab/commands/case_commands.hpp"
#include "app/lab/context/case_file.hpp"
#include "app/lab/context/handed.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/machine/files.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr const char* handed_reports = "report";

struct due_report {
  handed_mark mark;    // of the conclusion that it is to be written for
  std::string name;    // of its file, without its form
  bool letters{false}; // it cannot be reported: they are drafted beside it
};

// Where several tests bear a kit number, each has a file of its own.
std::string name_of(const kept_kit& of, const kept_test& t) {
  return of.tests.size() == 1 ? of.kit : of.kit + "-" + short_test_id(t.received.test);
}

// What is concluded, is no draft again, and was not written for that conclusion.
result<std::vector<due_report>> due_reports(const lab_context& at, const handed_marks& done,
                                            std::vector<damaged_kit>& damaged) {
  const auto rules = load_case_rules(at);
  if (!rules) return tl::unexpected(rules.error());
  std::vector<due_report> out;
  const auto walked = every_test(at, [&](const kept_kit& of, const kept_test& t) {
    if (t.received.conclusions.empty()) return result<void>();
    const conclusion& last = t.received.conclusions.back();
    const handed_mark mark{of.kit, t.received.test,
                           mark_of(fmt::format("{} {} {} {}", last.number, rfc3339_utc(last.at),
                                               last.by, last.words))};
    if (done.has(mark)) return result<void>();
    if (facts_of(at, *rules, t.received, t.known).since.empty())
      out.push_back({mark, name_of(of, t), last.kind == conclusion_kind::cannot_be_reported});
    return result<void>();
  });
  if (!walked) return tl::unexpected(walked.error());
  damaged = *walked;
  return out;
}

} // namespace

int write_all_reports(const shared_options& shared, const lab_context_options& options,
                      const report_options& o, const console& to) {
  const auto at = lab_context::open(shared, options, false);
  if (!at) return say_no(at.error(), to);
  const auto done = load_handed(shared.store, handed_reports);
  if (!done) return say_no(done.error(), to);
  std::vector<damaged_kit> damaged;
  const auto due = due_reports(*at, *done, damaged);
  if (!due) return say_no(due.error(), to);
  const std::string& usual = at->own().reports;
  const std::string folder = !o.out.empty() ? o.out : usual.empty() ? "." : usual;
  if (const auto made = make_folder(folder); !made) return say_no(made.error(), to);
  int status = 0;
  std::size_t written = 0;
  for (const due_report& one : *due) {
    report_options alone = o;
    alone.kit_or_test = one.mark.test.empty() ? one.mark.kit : one.mark.test;
    alone.out = folder + "/" + report_name(one.name, o.format);
    int ended = write_report(shared, options, alone, to);
    if (ended == 0 && one.letters)
      ended = write_letters(shared, options, {alone.kit_or_test, folder, one.name}, to);
    status = std::max(status, ended);
    if (ended != 0) continue;
    ++written;
    const auto kept = keep_handed(shared.store, handed_reports, {one.mark}, options.by);
    if (!kept) return say_no(kept.error(), to);
  }
  for (const damaged_kit& one : damaged)
    status = say_no(in_file(one.why, shared.store), to);
  to.out(fmt::format("{} of {} reports written that were concluded since\n", written, due->size()));
  return status;
}

} // namespace qb::lab
