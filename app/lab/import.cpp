// The import command: one file after the other, each whole or not at all.
#include "app/lab/commands.hpp"
#include "app/lab/inputs.hpp"
#include "app/lab/printable.hpp"
#include "app/lab/take_in.hpp"
#include "app/platform/files.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

class importer {
public:
  importer(lab_store& store, const shared_options& shared, const import_options& o,
           const console& to)
      : store_(store), shared_(shared), o_(o), to_(to) {}

  int run() {
    const found_inputs inputs = find_inputs(o_.paths);
    for (const refusal& no : inputs.refused)
      refuse(no);
    for (const std::string& path : inputs.files) {
      const auto done = one(path);
      if (!done) refuse(in_file(done.error(), path));
      if (done) ++counts_[done->what];
      if (done && done->rehearsal) ++practice_;
      // After a failure of the disk nothing more is written.
      if (status_ == 1 && !done && done.error().kind == refusal_kind::machine) break;
    }
    tell(inputs.passed_over);
    return status_;
  }

private:
  result<taken_log> one(const std::string& path) {
    const auto text = path == "-" ? read_stream(o_.standard_input) : read_input(path);
    if (!text) return tl::unexpected(text.error());
    return take_in(store_, *text, {o_.rehearsals, shared_.zones});
  }

  void refuse(const refusal& no) {
    ++refused_;
    const int status = say_no(no, to_);
    status_ = status_ == 1 ? 1 : status;
  }

  void tell(std::size_t passed_over) {
    const std::size_t kept = counts_[taken_in::same] + counts_[taken_in::older];
    if (shared_.format == output_format::json) {
      const auto n = [](std::size_t count) { return static_cast<std::int64_t>(count); };
      to_.out(json::pretty(json::object{{"new", n(counts_[taken_in::fresh])},
                                        {"grown", n(counts_[taken_in::grown])},
                                        {"already_there", n(kept)},
                                        {"rehearsals", n(practice_)},
                                        {"refused", n(refused_)},
                                        {"passed_over", n(passed_over)}}));
      return;
    }
    std::string line =
        fmt::format("{} new, {} grown, {} already there, {} refused", counts_[taken_in::fresh],
                    counts_[taken_in::grown], kept, refused_);
    if (practice_ > 0) line += fmt::format("; {} of them PRACTICE - not a test", practice_);
    if (passed_over > 0)
      line += fmt::format("; {} files not ending in .json passed over", passed_over);
    to_.out(line + "\n");
  }

  lab_store& store_;
  const shared_options& shared_;
  const import_options& o_;
  const console& to_;
  std::map<taken_in, std::size_t> counts_;
  std::size_t practice_{0};
  std::size_t refused_{0};
  int status_{0};
};

} // namespace

int import_logs(const shared_options& shared, const import_options& o, const console& to) {
  if (const auto made = make_private_file(shared.store); !made) return say_no(made.error(), to);
  auto store = lab_store::open(shared.store);
  if (!store) return say_no(store.error(), to);
  return importer(*store, shared, o, to).run();
}

int say_no(const refusal& no, const console& to) {
  to.err("quarterbreath-lab: " + printable(sentence(no)) + "\n");
  return exit_status(no);
}

} // namespace qb::lab
