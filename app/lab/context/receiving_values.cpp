// Rows to values and back, field by field.
#include "app/lab/context/receiving_values.hpp"

#include "core/base/text.hpp"
#include "core/receiving/paper.hpp"
#include "core/time/zone.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>

namespace qb::lab {

namespace {

constexpr int most_score_kept = 99; // what two digits hold

// Keeps the first thing that a row cannot mean, so that a reader can be written straight down.
constexpr const char* marked_invalid = "invalid"; // a reading's mark, as it is kept

class row_reader {
public:
  instant at(const std::string& text) {
    const auto t = parse_rfc3339_utc(text);
    return t ? *t : no<instant>("an instant");
  }
  std::optional<instant> maybe_at(const std::string& text) {
    if (text.empty()) return std::nullopt;
    return at(text);
  }
  civil_date date(const std::string& text) {
    const auto d = parse_date(text);
    return d ? *d : no<civil_date>("a date");
  }
  std::optional<civil_date> maybe_date(const std::string& text) {
    if (text.empty()) return std::nullopt;
    return date(text);
  }
  std::optional<day_minute> minute(const std::string& text) {
    if (text.empty()) return std::nullopt;
    const auto m = read_day_minute(text);
    return m ? m : no<std::optional<day_minute>>("a time of day");
  }
  stated answer(const std::string& text) {
    const auto t = read_stated(text);
    return t ? *t : no<stated>("yes, no or not-told");
  }
  std::optional<exact> reading(const std::string& text, reading_range& is) {
    if (text.empty()) return std::nullopt;
    const auto r = read_reading(text);
    if (!r) return no<std::optional<exact>>("a reading");
    is = r->is;
    return r->figure;
  }
  lid_state lid(const std::string& text) {
    if (text == "good") return lid_state::good;
    return text == "bad" ? lid_state::bad : no<lid_state>("a lid that is good or bad");
  }
  std::vector<std::optional<day_minute>> minutes(const std::string& text) {
    std::vector<std::optional<day_minute>> out;
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t end = std::min(text.find(' ', from), text.size());
      const std::string one = text.substr(from, end - from);
      out.push_back(one == "-" ? std::nullopt : minute(one));
      from = end + 1;
    }
    return out;
  }
  // The sheet's rows A and B, at the end of its scores.
  std::vector<paper_after> after(const std::string& text) {
    auto read = read_paper_after(paper_rows_in(text), 0, most_score_kept,
                                 {score_time::after_last, score_time::later});
    return read ? std::move(*read) : no<std::vector<paper_after>>("scores");
  }
  std::vector<tube_scores> scores(const std::string& all) {
    const std::string text = trimmed(all.substr(0, all.size() - paper_rows_in(all).size()));
    std::vector<tube_scores> out;
    for (std::size_t from = 0; from < text.size();) {
      const std::size_t end = std::min(text.find(' ', from), text.size());
      out.push_back(group(text.substr(from, end - from)));
      from = end + 1;
    }
    return out;
  }
  [[nodiscard]] const char* wanted() const { return wanted_; }

private:
  // The symptoms' number is the test's; a whole group that was not given is an empty list.
  tube_scores group(const std::string& text) {
    if (text == "-") return {};
    const auto parts = static_cast<std::size_t>(std::count(text.begin(), text.end(), '/')) + 1;
    const auto read = read_paper_scores(text, 1, parts, most_score_kept);
    return read ? read->front() : no<tube_scores>("scores");
  }
  template <typename T>
  T no(const char* wanted) {
    if (wanted_ == nullptr) wanted_ = wanted;
    return {};
  }
  const char* wanted_{nullptr};
};

arrival value_of(const arrival_row& r, row_reader& read) {
  return {r.kit,
          read.at(r.at),
          r.by,
          read.answer(r.identifiers),
          r.protocol,
          read.maybe_date(r.tested),
          read.maybe_date(r.posted),
          read.answer(r.completed),
          read.answer(r.stopped),
          read.maybe_at(r.entered)};
}

received_tube value_of(const tube_row& r, row_reader& read) {
  return {static_cast<int>(r.sample), r.present, read.lid(r.lid), read.minute(r.label),
          r.maker_code};
}

paper_record value_of(const paper_row& r, row_reader& read) {
  return {r.kit,
          r.protocol,
          read.date(r.day),
          read.minutes(r.times),
          r.past_midnight,
          {read.minute(r.drink_start), read.minute(r.drink_end)},
          r.written,
          r.by,
          read.at(r.at),
          read.scores(r.scores)};
}

gas_reading value_of(const reading_row& r, row_reader& read) {
  gas_reading out;
  out.kit = r.kit;
  out.sample = static_cast<int>(r.sample);
  out.h2_ppm = read.reading(r.h2, out.h2_is);
  out.ch4_ppm = read.reading(r.ch4, out.ch4_is);
  out.co2_pct = read.reading(r.co2, out.co2_is);
  out.measured_at = r.measured_at;
  out.raw = r.raw;
  out.entry = r.entry;
  out.taken_in = read.maybe_at(r.at);
  out.invalid = r.mark == marked_invalid;
  return out;
}

reading_choice value_of(const choice_row& r, row_reader& read) {
  return {static_cast<int>(r.sample), r.reading, r.by, r.reason, read.at(r.at)};
}

override_of value_of(const override_row& r, row_reader& read) {
  const auto sample = r.sample == 0 ? std::nullopt : std::optional(static_cast<int>(r.sample));
  return {r.kit, r.rule, sample, r.by, r.reason, read.at(r.at), r.withdrawn};
}

conclusion value_of(const conclusion_row& r, row_reader& read) {
  return {r.kit, r.words, r.by, read.at(r.at), r.seen};
}

result<std::map<std::string, received_kit>> by_kit(const receiving_rows& rows) {
  std::map<std::string, received_kit> out;
  std::map<std::string, std::int64_t> box; // the entry that the tubes so far are of
  row_reader read;
  for (const arrival_row& r : rows.arrivals)
    out[r.kit].arrivals.push_back(value_of(r, read));
  for (const tube_row& r : rows.tubes) {
    if (box[r.kit] != r.box) out[r.kit].tubes.clear();
    box[r.kit] = r.box;
    out[r.kit].tubes.push_back(value_of(r, read));
  }
  for (const scan_row& r : rows.scans) {
    received_kit& kit = out[r.kit];
    const bool open = r.boxes == static_cast<std::int64_t>(kit.arrivals.size());
    const bool once =
        std::find(kit.scanned.begin(), kit.scanned.end(), r.code) == kit.scanned.end();
    if (open && once) kit.scanned.push_back(r.code);
  }
  for (const paper_row& r : rows.papers)
    out[r.kit].papers.push_back(value_of(r, read));
  for (const reading_row& r : rows.readings)
    out[r.kit].readings.push_back(value_of(r, read));
  for (const choice_row& r : rows.choices)
    out[r.kit].choices.push_back(value_of(r, read));
  for (const override_row& r : rows.overrides)
    out[r.kit].overrides.push_back(value_of(r, read));
  for (const conclusion_row& r : rows.conclusions)
    out[r.kit].conclusions.push_back(value_of(r, read));
  for (auto& [kit, values] : out)
    values.kit = kit;
  if (read.wanted() == nullptr) return out;
  return tl::unexpected(
      refusal{refusal_kind::machine, "", "receiving's tables", "a damaged row", read.wanted()});
}

std::string date_or_empty(const std::optional<civil_date>& d) {
  return d ? date_text(*d) : "";
}

std::string minute_or_empty(const std::optional<day_minute>& m) {
  return m ? day_minute_text(*m) : "";
}

std::string reading_or_empty(const std::optional<exact>& n, reading_range is) {
  return n ? reading_text(*n, is) : "";
}

} // namespace

result<received_kit> load_received(const receiving_store& store, const std::string& kit) {
  const auto rows = store.find(kit);
  if (!rows) return tl::unexpected(rows.error());
  auto kits = by_kit(*rows);
  if (!kits) return tl::unexpected(kits.error());
  received_kit out = std::move((*kits)[kit]);
  out.kit = kit;
  return out;
}

result<std::vector<received_kit>> load_all_received(const receiving_store& store) {
  const auto rows = store.find("");
  if (!rows) return tl::unexpected(rows.error());
  auto kits = by_kit(*rows);
  if (!kits) return tl::unexpected(kits.error());
  std::vector<received_kit> out;
  for (auto& [kit, values] : *kits)
    out.push_back(std::move(values));
  return out;
}

arrival_row row_of(const arrival& a) {
  return {0,
          a.kit,
          rfc3339_utc(a.at),
          a.by,
          stated_text(a.identifiers),
          a.protocol,
          date_or_empty(a.tested),
          date_or_empty(a.posted),
          stated_text(a.completed),
          stated_text(a.stopped),
          a.entered ? rfc3339_utc(*a.entered) : ""};
}

tube_row row_of(const received_tube& t, const std::string& kit) {
  return {
      0,           kit,
      0, // its box is told when it is put
      t.sample,    t.present, t.lid == lid_state::good ? "good" : "bad", minute_or_empty(t.label),
      t.maker_code};
}

paper_row row_of(const paper_record& p) {
  std::string times;
  for (const auto& m : p.times)
    times += (times.empty() ? "" : " ") + (m ? day_minute_text(*m) : std::string("-"));
  return {0,
          p.kit,
          p.protocol,
          date_text(p.day),
          times,
          p.past_midnight,
          minute_or_empty(p.drink.start),
          minute_or_empty(p.drink.end),
          p.written,
          p.by,
          rfc3339_utc(p.entered),
          paper_scores_text(p.scores) + (p.after.empty() ? "" : " " + paper_after_text(p.after))};
}

reading_row row_of(const gas_reading& r, instant taken_in, const std::string& file) {
  return {0,
          r.kit,
          r.sample,
          reading_or_empty(r.h2_ppm, r.h2_is),
          reading_or_empty(r.ch4_ppm, r.ch4_is),
          reading_or_empty(r.co2_pct, r.co2_is),
          r.measured_at,
          r.raw,
          rfc3339_utc(taken_in),
          file,
          r.invalid ? marked_invalid : ""};
}

choice_row row_of(const reading_choice& c, const std::string& kit) {
  return {0, kit, c.sample, c.entry, c.by, c.reason, rfc3339_utc(c.at)};
}

override_row row_of(const override_of& o) {
  return {0, o.kit, o.rule, o.sample.value_or(0), o.by, o.reason, rfc3339_utc(o.at), o.withdrawn};
}

conclusion_row row_of(const conclusion& c) {
  return {0, c.kit, c.words, c.by, rfc3339_utc(c.at), c.seen};
}

} // namespace qb::lab
