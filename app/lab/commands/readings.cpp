// The commands `readings` and `choose`: a table taken in whole or not at all, and which of two
// readings counts.
#include "app/lab/commands/day.hpp"
#include "app/lab/context/judge_assets.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/intake/inputs.hpp"
#include "core/receiving/correction.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

// Readings of a kit that nobody received and no record is of would be nobody's.
class kit_lookup {
public:
  explicit kit_lookup(const lab_context& at) : at_(at) {}

  // How many samples the kit's test has; 0 where nothing is known of the kit, the most there are
  // where its test is not.
  result<std::size_t> samples(const std::string& kit) {
    const auto there = seen_.find(kit);
    if (there != seen_.end()) return there->second;
    const auto received = load_received(at_.received(), kit);
    if (!received) return tl::unexpected(received.error());
    const auto known = at_.find(*received);
    if (!known) return tl::unexpected(known.error());
    return seen_[kit] = count(*received, *known);
  }

private:
  [[nodiscard]] std::size_t count(const received_kit& received, const known_kit& known) const {
    if (known.told) return known.told->labels.size();
    if (received.arrivals.empty()) return 0;
    const protocol* test = at_.test(received.arrivals.back().protocol);
    return test != nullptr ? test->samples() : std::size_t{sample_number::most};
  }
  const lab_context& at_;
  std::map<std::string, std::size_t> seen_;
};

// Adds what only the store can tell of a reading: its kit must be here, its tube one of the test's.
result<void> hold_against_store(const lab_context& at, read_table& table) {
  kit_lookup kits(at);
  const std::string now = reading_moment(at.place().civil_at(at.now()));
  for (std::size_t i = 0; i < table.readings.size(); ++i) {
    const gas_reading& r = table.readings[i];
    if (r.measured_at.substr(0, now.size()) > now && table.refused.size() < most_said_refusals)
      table.refused.push_back({refusal_kind::out_of_range, "",
                               fmt::format("line {}, measured_at", table.lines[i]),
                               r.measured_at + ", a time to come", "at most " + now});
    const auto samples = kits.samples(r.kit);
    if (!samples) return tl::unexpected(samples.error());
    const bool known = *samples != 0;
    if (known && r.sample <= static_cast<int>(*samples)) continue;
    if (table.refused.size() == most_said_refusals) break;
    table.refused.push_back(
        {refusal_kind::missing, "",
         fmt::format("line {}, {}", table.lines[i], known ? "tube" : "kit"),
         known ? fmt::format("tube {} of {}", r.sample, r.kit) : r.kit + ", which is not here",
         known ? fmt::format("1 to {}", *samples) : "a kit that was received or imported"});
  }
  return {};
}

std::string gases_text(const gas_reading& r) {
  const auto one = [](const std::optional<exact>& n, reading_range is) {
    return n ? reading_text(*n, is) : "-";
  };
  return fmt::format("H2 {}, CH4 {} ppm at {}{}", one(r.h2_ppm, r.h2_is), one(r.ch4_ppm, r.ch4_is),
                     r.measured_at, r.invalid ? ", marked invalid" : "");
}

// The tubes of these readings that were read more than once with nobody having chosen.
result<std::string> questions(const receiving_store& store, const std::vector<gas_reading>& table,
                              std::int64_t& open) {
  std::map<std::string, std::vector<int>> tubes;
  for (const gas_reading& r : table)
    tubes[r.kit].push_back(r.sample);
  std::string out;
  for (const auto& [kit, samples] : tubes) {
    const auto received = load_received(store, kit);
    if (!received) return tl::unexpected(received.error());
    for (const counted_reading& c : counted_readings(*received)) {
      const bool here =
          std::find(samples.begin(), samples.end(), c.reading.sample) != samples.end();
      if (!here || !c.several || c.chosen) continue;
      ++open;
      out += fmt::format("? {} tube {} was read more than once; which counts?\n", kit,
                         c.reading.sample);
      for (const gas_reading& r : received->readings) {
        if (r.sample != c.reading.sample) continue;
        out += fmt::format("    reading {}: {}{}\n", r.entry, gases_text(r),
                           r.entry == c.reading.entry ? " (counts until somebody chooses)" : "");
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
  const auto rules = load_judging_rules(o.assets);
  if (!rules) return say_no(rules.error(), to);
  const auto codes = load_tube_codes(options.tube_codes);
  if (!codes) return say_no(codes.error(), to);
  const auto text = options.file == "-" ? read_stream(o.standard_input) : read_input(options.file);
  if (!text) return say_no(text.error(), to);
  auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  read_table table = read_readings(*text, (*rules)->flags.limits, *codes);
  if (const auto held = hold_against_store(*at, table); !held) return say_no(held.error(), to);
  int status = 0;
  for (const refusal& no : table.refused)
    status = std::max(status, say_no(in_file(no, options.file), to));
  if (status != 0) return status;
  const std::string file = sha256_hex(*text);
  std::vector<reading_row> rows;
  for (const gas_reading& r : table.readings)
    rows.push_back(row_of(r, at->now(), file));
  const auto added = at->received().put(rows);
  if (!added) return say_no(added.error(), to);
  std::int64_t open = 0;
  const auto asked = questions(at->received(), table.readings, open);
  if (!asked) return say_no(asked.error(), to);
  return tell(*at, *added, table.readings, (*rules)->flags.low_co2, *asked, open, to);
}

int choose_reading(const shared_options& shared, const lab_context_options& o,
                   const choice_options& options, const console& to) {
  const auto by = named_person(o);
  if (!by) return say_no(by.error(), to);
  if (const auto why = reason_given(options.reason); !why) return say_no(why.error(), to);
  auto at = lab_context::open(shared, o, false);
  if (!at) return say_no(at.error(), to);
  const std::string kit = kit_key(options.kit);
  const auto received = load_received(at->received(), kit);
  if (!received) return say_no(received.error(), to);
  const auto there =
      std::find_if(received->readings.begin(), received->readings.end(), [&](const gas_reading& r) {
        return r.sample == options.tube && r.entry == options.reading;
      });
  if (there == received->readings.end())
    return say_no({refusal_kind::missing, "", "READING", "no such reading of that tube",
                   "the number that `readings` told of it"},
                  to);
  const reading_choice choice{options.tube, there->entry, *by, options.reason, at->now()};
  if (const auto kept = at->received().put(row_of(choice, kit)); !kept)
    return say_no(kept.error(), to);
  to.out(fmt::format("{} tube {}: {} counts\n", kit, options.tube, gases_text(*there)));
  return 0;
}

} // namespace qb::lab
