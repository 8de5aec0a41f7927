// `quarterbreath protocol check`, `profile check`, `told check`, `log check`, `label-sheet check`:
// what the strict readers say.
#include "app/assets/assets.hpp"
#include "app/machine/files.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "core/curve/applies.hpp"
#include "core/plan/circumstances_reader.hpp"
#include "core/protocol/figures.hpp"
#include "core/protocol/grid.hpp"
#include "core/record/log.hpp"
#include "core/sheet/label_sheet.hpp"

#include <fmt/core.h>

namespace qb::patient {

namespace {

std::optional<refusal> no_of_protocol(const std::string& text,
                                      const std::optional<lab_profile>& lab) {
  const auto read = read_protocol(text);
  if (!read) return read.error();
  if (!lab) return std::nullopt;
  const auto fits = grid_fits(*read, *lab);
  return fits ? std::nullopt : std::optional<refusal>(fits.error());
}

std::optional<refusal> read_as(const std::string& kind, const std::string& text,
                               const std::optional<lab_profile>& lab, bool form_only) {
  const auto no_of = [](const auto& read) {
    return read ? std::nullopt : std::optional<refusal>(read.error());
  };
  if (kind == "protocol") return no_of_protocol(text, lab);
  if (kind == "profile") return no_of(read_profile(text));
  if (kind == "label-sheet") return no_of(read_label_sheet(text));
  if (kind == "told")
    return no_of(read_circumstances(text, zone::fixed("Etc/UTC", std::chrono::seconds{0})));
  const auto log = read_log(text);
  if (log && !form_only && !log->mismatches.empty())
    return refusal{refusal_kind::malformed, "", "", "a log that does not match its own record",
                   "an unedited log"};
  return no_of(log);
}

// Which gases a laboratory's criteria leave unjudged in that test: known before a kit is sent, not
// after it came back. Nothing where there are no criteria to ask.
std::string unjudged_lines(const std::vector<criterion>& criteria, const std::string& text) {
  std::string out;
  if (criteria.empty()) return out;
  const auto test = read_protocol(text);
  if (!test) return out;
  for (const unjudged_gas& u : unjudged_gases(criteria, *test))
    out += "  " + unjudged_words(u) + "\n";
  return out;
}

// What of its figures stands against offering a test, one line each; empty where all are usual or
// confirmed by name.
std::string odd_lines(const figure_rules& rules, const std::string& file, const std::string& text) {
  std::string out;
  const auto test = read_protocol(text);
  if (!test) return out;
  for (const odd_figure& odd : odd_figures(*test, rules)) {
    out += fmt::format("{}: {}: {}: found {}, expected {}\n", file,
                       odd.allowed ? "not usual" : "refused", odd.rule, odd.found, odd.expected);
    if (odd.allowed)
      out += "  who stands for it is named in the file's list \"confirmed\", with this rule\n";
  }
  return out;
}

} // namespace

int check_command(const shared_options& shared, const std::string& kind, const check_options& o) {
  std::optional<lab_profile> lab;
  if (!o.profile.empty()) {
    const auto text = read_file(o.profile);
    if (!text) return say_no(text.error());
    auto read = read_profile(*text);
    if (!read) return say_no(in_file(read.error(), o.profile));
    lab = std::move(*read);
  }
  std::vector<criterion> criteria;
  std::optional<figure_rules> usual;
  if (kind == "protocol") {
    auto loaded = load_criteria(shared.assets);
    if (!loaded) return say_no(loaded.error());
    criteria = std::move(*loaded);
    auto figures = load_figure_rules(shared.assets);
    if (!figures) return say_no(figures.error());
    usual = std::move(*figures);
  }
  int status = 0;
  for (const std::string& file : o.files) {
    const auto text = read_file(file);
    const std::optional<refusal> no =
        text ? read_as(kind, *text, lab, o.form_only) : std::optional<refusal>(text.error());
    const bool asked = !no && usual && !o.form_only;
    const std::string odd = asked ? odd_lines(*usual, file, *text) : std::string();
    if (!odd.empty()) {
      tell("{}", odd);
      status = std::max(status, exit_status({refusal_kind::out_of_range, "", "", "", ""}));
      continue;
    }
    if (!no) {
      tell("{}: ok\n{}", file, unjudged_lines(criteria, *text));
      continue;
    }
    tell("{}: refused: {}\n", file, sentence(*no));
    status = std::max(status, exit_status(*no));
  }
  return status;
}

} // namespace qb::patient
