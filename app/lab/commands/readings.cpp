// The commands `readings` and `choose`: a table taken in whole or not at all, and which of two
// readings counts.
#include "app/lab/commands/day.hpp"
#include "app/lab/commands/readings_file.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "core/receiving/correction.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

// Readings of a kit that nobody received and no record is of would be nobody's.
class kit_lookup {
public:
  explicit kit_lookup(const lab_context& at) : at_(at) {}

  // The test that readings of that kit number are of; refused where it is not said which.
  result<const named_test*> test_of(const std::string& kit) {
    const auto there = seen_.find(kit);
    if (there != seen_.end()) return &there->second;
    auto of = open_kit(at_, kit);
    if (!of) return tl::unexpected(of.error());
    // A test that was named is of one kit; the others of the table have one test each.
    const bool alone = of->tests.size() == 1;
    const auto which = alone ? result<std::size_t>(0) : which_test(at_, *of, {});
    if (!which) return tl::unexpected(which.error());
    return &seen_.emplace(kit, named_test{std::move(*of), *which}).first->second;
  }

  [[nodiscard]] std::vector<seen_kit> looks() const {
    std::vector<seen_kit> out;
    for (const auto& [kit, test] : seen_)
      out.push_back(test.of.seen);
    return out;
  }
  [[nodiscard]] std::string came(const refusal& no) const {
    std::string out;
    for (const auto& [kit, test] : seen_) {
      const auto now = at_.received().state_of(kit);
      if (now && *now != test.of.seen.state) out += came_since_look(at_, test.of, no);
    }
    return out;
  }

private:
  const lab_context& at_;
  std::map<std::string, named_test> seen_;
};

// How many samples the test has; 0 where nothing is known of the kit, the most there are where its
// test is not.
std::size_t samples_of(const lab_context& at, const kept_test& t) {
  if (t.known.told) return t.known.told->labels.size();
  if (t.received.arrivals.empty()) return 0;
  const protocol* test = at.test(t.received.arrivals.back().protocol);
  return test != nullptr ? test->samples() : std::size_t{sample_number::most};
}

// Whose reading it is, and that its kit is here and its tube one of the test's.
std::optional<refusal> place_reading(const lab_context& at, kit_lookup& kits,
                                     const kit_asker& asker, int line, gas_reading& r) {
  const auto test = kits.test_of(r.kit);
  if (!test && test.error().kind == refusal_kind::machine) return test.error();
  if (!test)
    return refusal{test.error().kind, "", fmt::format("line {}, kit", line), test.error().found,
                   test.error().expected};
  const std::size_t samples = samples_of(at, (*test)->test());
  const bool known = samples != 0;
  r.mark.test = (*test)->test().received.test;
  if (known && r.sample <= static_cast<int>(samples)) return std::nullopt;
  if (known)
    return refusal{refusal_kind::missing, "", fmt::format("line {}, tube", line),
                   fmt::format("tube {} of {}", r.sample, r.kit), fmt::format("1 to {}", samples)};
  const auto asked = asker.ask(r.kit);
  return refusal{refusal_kind::missing, "", fmt::format("line {}, kit", line),
                 r.kit + ", which is not here" + (asked ? ": " + asked->found : ""),
                 "a kit that was received or imported"};
}

// Adds what only the store can tell of a reading.
result<void> hold_against_store(const lab_context& at, kit_lookup& kits, read_table& table) {
  const auto asker = kit_asker::open(at.shared().store, false);
  if (!asker) return tl::unexpected(asker.error());
  const std::string now = reading_moment(at.place().civil_at(at.now()));
  for (std::size_t i = 0; i < table.readings.size(); ++i) {
    gas_reading& r = table.readings[i];
    if (r.measured_at.substr(0, now.size()) > now && table.refused.size() < most_said_refusals)
      table.refused.push_back({refusal_kind::out_of_range, "",
                               fmt::format("line {}, measured_at", table.lines[i]),
                               r.measured_at + ", a time to come", "at most " + now});
    auto no = place_reading(at, kits, *asker, table.lines[i], r);
    if (!no) continue;
    if (no->kind == refusal_kind::machine) return tl::unexpected(std::move(*no));
    if (table.refused.size() == most_said_refusals) break;
    table.refused.push_back(std::move(*no));
  }
  return {};
}

// The tubes of these readings that were read more than once with nobody having chosen.
result<std::string> questions(const lab_context& at, const std::vector<gas_reading>& table,
                              std::int64_t& open) {
  std::map<std::string, std::vector<int>> tubes;
  for (const gas_reading& r : table)
    tubes[r.kit].push_back(r.sample);
  kit_lookup kits(at);
  std::string out;
  for (const auto& [kit, samples] : tubes) {
    const auto test = kits.test_of(kit);
    if (!test) return tl::unexpected(test.error());
    const received_kit& received = (*test)->test().received;
    for (const counted_reading& c : counted_readings(received)) {
      const bool here =
          std::find(samples.begin(), samples.end(), c.reading.sample) != samples.end();
      if (!here || !c.several || c.chosen) continue;
      ++open;
      out += fmt::format("? {} tube {} was read more than once; which counts?\n", kit,
                         c.reading.sample);
      for (const gas_reading& r : received.readings) {
        if (r.sample != c.reading.sample) continue;
        const bool first = r.mark.entry == c.reading.mark.entry;
        out += fmt::format("    reading {}: {}{}\n", r.mark.entry, gases_text(r),
                           first ? " (counts until somebody chooses)" : "");
      }
    }
  }
  return out;
}

// Which readings are low in carbon dioxide, and which decide nothing, by the profile.
std::string low_co2_lines(const lab_context& at, const std::vector<gas_reading>& table, exact under,
                          std::int64_t& count) {
  std::string out;
  for (const gas_reading& r : table) {
    const bool low = r.co2_pct && *r.co2_pct < under;
    const auto why = undeciding_of(r, at.profile());
    count += low ? 1 : 0;
    if (!low && !why) continue;
    out += fmt::format("! {} tube {}:", r.kit, r.sample);
    if (r.co2_pct)
      out += fmt::format(" carbon dioxide {} %{}", reading_text(*r.co2_pct, r.co2_is),
                         low ? fmt::format(", under {} %", under.text()) : "");
    if (r.invalid) out += r.co2_pct ? ", marked invalid" : " marked invalid";
    out += why ? "; it decides nothing\n" : "\n";
  }
  return out;
}

std::string correction_text(const lab_context& at) {
  const auto tenths = at.profile().receiving.co2_reference_tenths;
  if (!tenths) return "readings are judged as they are; the profile asks for no correction";
  return fmt::format(
      "raw readings are kept; judged corrected to {}.{} % of carbon dioxide where it "
      "was measured ({})",
      *tenths / 10, *tenths % 10, at.profile().receiving.co2_why.source);
}

int tell(const lab_context& at, const added_readings& added, const std::vector<gas_reading>& table,
         exact low_co2, const std::string& asked, std::int64_t open, const console& to) {
  std::int64_t low = 0;
  const std::string low_lines = low_co2_lines(at, table, low_co2, low);
  if (at.shared().format == output_format::json) {
    const auto tenths = at.profile().receiving.co2_reference_tenths;
    to.out(json::pretty(
        json::object{{"new", added.fresh},
                     {"already_there", added.known},
                     {"read_more_than_once", open},
                     {"low_co2", low},
                     {"co2_reference_tenths_pct", tenths ? json::value(*tenths) : json::value()}}));
    return 0;
  }
  to.out(
      fmt::format("{} new, {} already there\n{}\n", added.fresh, added.known, correction_text(at)));
  to.out(low_lines + asked);
  if (open > 0)
    to.out("  to choose: quarterbreath-lab choose KIT TUBE READING --by NAME --reason WHY\n");
  return 0;
}

} // namespace

int take_readings(const shared_options& shared, const lab_context_options& o,
                  const readings_options& options, const console& to) {
  const auto by = named_person(shared, o, work_act::measure);
  if (!by) return say_no(by.error(), to);
  auto file = open_readings(shared, o, options);
  if (!file) return say_no(file.error(), to);
  read_table& table = file->table;
  auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  kit_lookup kits(*at);
  if (const auto held = hold_against_store(*at, kits, table); !held)
    return say_no(held.error(), to);
  int status = 0;
  for (const refusal& no : table.refused)
    status = std::max(status, say_no(in_file(no, options.file), to));
  if (status != 0) return status;
  std::vector<reading_row> rows;
  for (gas_reading& r : table.readings) {
    r.by = *by;
    rows.push_back(row_of(r, at->now(), file->digest));
  }
  const auto added = at->received().put(rows, kits.looks());
  if (!added) {
    to.out(kits.came(added.error()));
    return say_no(added.error(), to);
  }
  std::int64_t open = 0;
  const auto asked = questions(*at, table.readings, open);
  if (!asked) return say_no(asked.error(), to);
  return tell(*at, *added, table.readings, file->low_co2, *asked, open, to);
}

int choose_reading(const shared_options& shared, const lab_context_options& o,
                   const choice_options& options, const console& to) {
  auto deed = begin_deed(shared, o, work_act::choose, options.kit, options.reason);
  if (!deed) return say_no(deed.error(), to);
  auto& [by, at, named] = *deed;
  const received_kit& received = named.test().received;
  const std::string& kit = named.of.kit;
  const auto there =
      std::find_if(received.readings.begin(), received.readings.end(), [&](const gas_reading& r) {
        return r.sample == options.tube && r.mark.entry == options.reading;
      });
  if (there == received.readings.end())
    return say_no({refusal_kind::missing, "", "READING", "no such reading of that tube",
                   "the number that `readings` told of it"},
                  to);
  reading_choice choice{options.tube, there->mark.entry, by, options.reason, at.now()};
  choice.mark.test = received.test;
  if (const auto kept = at.received().put(row_of(choice, kit), named.of.seen); !kept) {
    to.out(came_since_look(at, named.of, kept.error()));
    return say_no(kept.error(), to);
  }
  to.out(fmt::format("{} tube {}: {} counts\n", kit, options.tube, gases_text(*there)));
  return 0;
}

} // namespace qb::lab
