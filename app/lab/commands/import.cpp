// The import command: one file after the other, each whole or not at all. Logs are kept in groups,
// each with one sync: what is counted is on the disk, and what a kill or a full disk took is taken
// in by the same import done again, which passes over what is there.
#include "app/lab/commands/commands.hpp"
#include "app/lab/context/issued_kits.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/context/progress.hpp"
#include "app/lab/intake/inputs.hpp"
#include "app/lab/intake/read_code.hpp"
#include "app/lab/intake/take_in.hpp"
#include "app/lab/intake/unpack.hpp"
#include "app/machine/files.hpp"
#include "core/code/code_text.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

// What became of the files so far.
struct tally {
  std::map<taken_in, std::size_t> counts;
  std::map<signature_state, std::size_t> signatures;
  json::array mismatches;
  json::array provenance;
  std::string marked_lines;
  std::size_t practice{0};
  std::size_t by_code{0};
  std::size_t files{0};
};

class importer {
public:
  importer(lab_store& store, const shared_options& shared, const import_options& o,
           const std::vector<seal::identity>& identities, const kit_asker& asker, const console& to)
      : store_(store),
        shared_(shared),
        o_(o),
        identities_(identities),
        asker_(asker),
        to_(to),
        line_(to),
        pace_(machine_time(), a_look) {}

  int run() {
    const found_inputs inputs = find_inputs(o_.paths);
    for (const refusal& no : inputs.refused)
      refuse(no);
    passed_over_ = inputs.passed_over;
    std::size_t done = 0;
    for (const found_file& file : inputs.files) {
      one(file.path, file.below_folder);
      ++done;
      if (pace_.is_due()) {
        keep();
        line_.show(progress_words(done, inputs.files.size(), pace_.since_start()));
      }
      if (disk_failed_) break; // nothing more is written
    }
    keep();
    line_.clear();
    tell();
    return status_;
  }

private:
  static constexpr std::chrono::milliseconds a_look{250}; // between two, on screen and disk

  // The group that is open, or a new one; false where the disk says no.
  bool open_group() {
    if (group_) return true;
    if (auto grown = store_.grow(); !grown) {
      refuse_to_keep(grown.error());
      return false;
    }
    group_.emplace(store_);
    if (group_->begun()) return true;
    const auto no = group_->keep();
    group_.reset();
    refuse_to_keep(no.error());
    return false;
  }

  // What was counted since the last time is on the disk, or was not counted.
  void keep() {
    if (!group_) return;
    const auto kept = group_->keep();
    group_.reset();
    if (kept) {
      kept_ = now_;
      return;
    }
    refused_ += now_.files - kept_.files;
    now_ = kept_;
    disk_failed_ = true;
    say(kept.error());
  }

  void one(const std::string& path, bool from_folder) {
    if (path == "-") keep(); // whoever types is not waited for with the store in hand
    auto text = path == "-" ? read_stream(o_.standard_input)
                            : read_file(path, from_folder ? links::refused : links::followed);
    if (!text) return refuse(in_file(text.error(), path));
    take_in_options how{o_.rehearsals};
    how.ask_kit = [this](const std::string& kit) { return asker_.ask(kit); };
    if (o_.codes || (path == "-" && code::looks_scanned(*text))) return codes(path, *text, how);
    auto log = unpack(std::move(*text), identities_);
    if (!log && from_folder && passes_over(path, log.error())) return;
    if (!log) return refuse(in_file(to_be_opened(log.error()), path));
    how.signature = log->signature || path == "-" ? log->signature : read_signature_beside(path);
    if (!open_group()) return;
    const auto done = taken(std::move(log->text), how);
    if (!done) return refuse_to_keep(in_file(done.error(), path));
    ++now_.files;
    ++now_.signatures[done->signature];
    for (const finding& f : done->provenance)
      if (f.weight != consequence::note || f.rule != "log-unsigned") came_from(path, *done, f);
    if (done->differs) return set_aside(in_file(*done->differs, path));
    count(*done);
    if (!done->mismatch.empty()) mismatched(path, *done);
  }

  result<taken_log> taken(std::string text, const take_in_options& how) {
    auto known = passed_as_known(store_, text, how);
    if (!known) return tl::unexpected(known.error());
    if (*known) return std::move(**known);
    return take_in(store_, reader_, std::move(text), how);
  }

  void codes(const std::string& path, const std::string& text, const take_in_options& how) {
    if (!open_group()) return;
    const taken_codes codes = take_in_codes(store_, text, how);
    for (const taken_log& done : codes.taken)
      count(done);
    now_.by_code += codes.taken.size();
    ++now_.files;
    for (const refusal& no : codes.refused)
      refuse_to_keep(in_file(no, path));
  }

  // In a folder: a sheet without a log, and a sealed file that lies there unsealed too.
  bool passes_over(const std::string& path, const refusal& no) {
    if (!carries_nothing(no)) return false;
    if (no.found != seal::no_identity_given) {
      ++passed_over_;
      return true;
    }
    std::error_code none;
    const bool twin =
        std::filesystem::exists(std::filesystem::path(path).replace_extension(), none);
    sealed_ += twin ? 1 : 0;
    return twin;
  }

  static refusal to_be_opened(refusal no) {
    if (no.found == seal::no_identity_given)
      no.expected = "--identity FILE, with the laboratory's age identity that opens it";
    return no;
  }

  // What is to be known of how a log is signed, and of versions beside it.
  void came_from(const std::string& path, const taken_log& done, const finding& f) {
    now_.provenance.push_back(json::object{
        {"file", printable(path)}, {"kit", done.kit}, {"rule", f.rule}, {"words", f.words}});
    now_.marked_lines +=
        fmt::format("! {}: kit {}: {}\n", printable(path), printable(done.kit), printable(f.words));
  }

  void count(const taken_log& done) {
    ++now_.counts[done.what];
    if (done.rehearsal) ++now_.practice;
  }

  void mismatched(const std::string& path, const taken_log& done) {
    now_.mismatches.push_back(
        json::object{{"file", printable(path)}, {"kit", done.kit}, {"words", done.mismatch}});
    now_.marked_lines += fmt::format("! {}: kit {}: {}; taken in, and marked\n", printable(path),
                                     printable(done.kit), printable(done.mismatch));
  }

  // Kept, and yet nothing of it counts: who sent two stories is to be asked.
  void set_aside(const refusal& differs) {
    ++now_.counts[taken_in::aside];
    say(differs);
  }

  void refuse(const refusal& no) {
    ++refused_;
    say(no);
  }

  void say(const refusal& no) {
    line_.clear();
    const int status = say_no(no, to_);
    status_ = status_ == 1 ? 1 : status;
  }

  // An input that the machine cannot read costs itself; a store that cannot be written, the rest.
  void refuse_to_keep(const refusal& no) {
    disk_failed_ = disk_failed_ || no.kind == refusal_kind::machine;
    refuse(no);
  }

  void tell() {
    const std::size_t kept = now_.counts[taken_in::same] + now_.counts[taken_in::older];
    if (shared_.format == output_format::json) {
      const auto n = [](std::size_t count) { return static_cast<std::int64_t>(count); };
      to_.out(json::pretty(json::object{{"new", n(now_.counts[taken_in::fresh])},
                                        {"grown", n(now_.counts[taken_in::grown])},
                                        {"already_there", n(kept)},
                                        {"set_aside", n(now_.counts[taken_in::aside])},
                                        {"by_code", n(now_.by_code)},
                                        {"rehearsals", n(now_.practice)},
                                        {"refused", n(refused_)},
                                        {"passed_over", n(passed_over_)},
                                        {"sealed", n(sealed_)},
                                        {"mismatches", now_.mismatches},
                                        {"provenance", now_.provenance},
                                        {"signatures", signatures_json()}}));
      return;
    }
    std::string line =
        fmt::format("{} new, {} grown, {} already there, {} refused", now_.counts[taken_in::fresh],
                    now_.counts[taken_in::grown], kept, refused_);
    if (now_.counts[taken_in::aside] > 0)
      line += fmt::format("; {} set aside: not what the log kept for its test says",
                          now_.counts[taken_in::aside]);
    if (now_.by_code > 0)
      line += fmt::format("; {} by code: a summary only, without the log", now_.by_code);
    if (now_.practice > 0) line += fmt::format("; {} of them PRACTICE - not a test", now_.practice);
    if (sealed_ > 0)
      line += fmt::format("; {} sealed file{} passed over, here unsealed too", sealed_,
                          sealed_ == 1 ? "" : "s");
    if (passed_over_ > 0) line += fmt::format("; {} other files passed over", passed_over_);
    to_.out(now_.marked_lines + line + signatures_text() + "\n");
  }

  std::string signatures_text() {
    auto& s = now_.signatures;
    const std::size_t logs = s[signature_state::good] + s[signature_state::bad] +
                             s[signature_state::none] + s[signature_state::practice] +
                             s[signature_state::another];
    if (logs == 0) return {};
    std::string out =
        fmt::format("; signatures: {} good, {} not matching, {} without", s[signature_state::good],
                    s[signature_state::bad], s[signature_state::none]);
    if (s[signature_state::practice] > 0)
      out += fmt::format(", {} by the practice key", s[signature_state::practice]);
    if (s[signature_state::another] > 0)
      out += fmt::format(", {} for another", s[signature_state::another]);
    return out;
  }

  json::value signatures_json() {
    const auto n = [this](signature_state s) {
      return static_cast<std::int64_t>(now_.signatures[s]);
    };
    return json::object{{"good", n(signature_state::good)},
                        {"does_not_match", n(signature_state::bad)},
                        {"practice_key", n(signature_state::practice)},
                        {"for_another", n(signature_state::another)},
                        {"none", n(signature_state::none)}};
  }

  lab_store& store_;
  const shared_options& shared_;
  const import_options& o_;
  const std::vector<seal::identity>& identities_;
  const kit_asker& asker_;
  const console& to_;
  log_reader reader_;
  progress_line line_;
  pace pace_;
  std::optional<lab_store::group> group_;
  tally kept_; // when the last group was kept
  tally now_;
  std::size_t sealed_{0};
  std::size_t passed_over_{0};
  std::size_t refused_{0};
  int status_{0};
  bool disk_failed_{false};
};

} // namespace

int import_logs(const shared_options& shared, const import_options& o, const console& to) {
  if (o.paths.empty())
    return say_no({refusal_kind::missing, "", "PATH", "no path",
                   "files, folders, or -; `set-up --inbox` names the folder they come to"},
                  to);
  identity_file keys;
  if (!o.identity.empty()) {
    auto read = read_identities(o.identity);
    if (!read) return say_no(read.error(), to);
    keys = std::move(*read);
  }
  if (keys.open_to_others)
    to.err("quarterbreath-lab: note: " + printable(o.identity) +
           " can be read by others than its owner (chmod 600 closes it)\n");
  if (const auto made = make_private_file(shared.store); !made) return say_no(made.error(), to);
  auto store = lab_store::open(shared.store);
  if (!store) return say_no(store.error(), to);
  const auto asker = kit_asker::open(shared.store, o.not_issued);
  if (!asker) return say_no(asker.error(), to);
  return importer(*store, shared, o, keys.identities, *asker, to).run();
}

} // namespace qb::lab
