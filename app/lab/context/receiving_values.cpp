// Rows to values and back, field by field.
#include "app/lab/context/receiving_values.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/receiving/paper.hpp"
#include "core/receiving/readings.hpp"
#include "core/time/zone.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <set>
#include <type_traits>

namespace qb::lab {

namespace {

constexpr int most_score_kept = 99;               // what two digits hold
constexpr const char* marked_invalid = "invalid"; // a reading's mark, as it is kept
constexpr std::int64_t most_conclusions = 1'000'000;

// Keeps the first thing that a row cannot mean, so that a reader can be written straight down.
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
  told_person person(const std::string& text) {
    const auto p = read_person(text);
    return p ? *p : no<told_person>("a person's identifiers");
  }
  template <typename T>
  T key(const std::optional<T>& read, const char* wanted) {
    return read ? *read : no<T>(wanted);
  }
  // A conclusion's number; 0 of an earlier version's, which had none.
  int number(const std::string& text) {
    if (text.empty()) return 0;
    const auto n = json::parse(text);
    const auto* whole = n ? n->integer() : nullptr;
    if (whole == nullptr || *whole < 1 || *whole > most_conclusions)
      return no<int>("a conclusion's number");
    return static_cast<int>(*whole);
  }
  std::vector<std::string> ids(const std::string& text) {
    std::vector<std::string> out;
    const auto list = json::parse(text);
    const auto* all = list ? list->items() : nullptr;
    if (all == nullptr) return no<std::vector<std::string>>("a list of tests");
    for (const json::value& one : *all)
      out.push_back(one.text() != nullptr ? *one.text() : no<std::string>("a test's id"));
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
          read.maybe_at(r.entered),
          read.person(r.person),
          {r.entry, r.test},
          {r.lot, read.maybe_date(r.expires)},
          r.stored};
}

received_tube value_of(const tube_row& r, row_reader& read) {
  return {static_cast<int>(r.sample), r.present,    read.lid(r.lid),
          read.minute(r.label),       r.maker_code, r.box};
}

tube_scan value_of(const scan_row& r, row_reader&) {
  return {r.kit, r.boxes, r.code, {r.entry, r.test}};
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
          read.scores(r.scores),
          read.after(r.scores),
          read.person(r.person),
          {r.entry, r.test}};
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
  out.mark = {r.entry, r.test};
  out.taken_in = read.maybe_at(r.at);
  out.invalid = r.mark == marked_invalid;
  out.of = {r.run, r.analyser, r.calibration, r.control};
  out.by = r.taken_by;
  return out;
}

reading_choice value_of(const choice_row& r, row_reader& read) {
  return {static_cast<int>(r.sample), r.reading, r.by, r.reason, read.at(r.at), {r.entry, r.test}};
}

override_of value_of(const override_row& r, row_reader& read) {
  const auto sample = r.sample == 0 ? std::nullopt : std::optional(static_cast<int>(r.sample));
  return {r.kit, r.rule, sample, r.by, r.reason, read.at(r.at), r.withdrawn, {r.entry, r.test}};
}

conclusion value_of(const conclusion_row& r, row_reader& read) {
  const auto kind = r.kind.empty() ? conclusion_kind::final_one : read_conclusion_kind(r.kind);
  conclusion out{r.kit, r.words, r.by, read.at(r.at), r.seen};
  out.kind = read.key(kind, "a kind of conclusion");
  out.number = read.number(r.number);
  out.reason = r.reason;
  out.lack = r.lack;
  out.mark = {r.entry, r.test};
  return out;
}

ruling value_of(const ruling_row& r, row_reader& read) {
  ruling out;
  out.kit = r.kit;
  out.what = read.key(read_ruled(r.what), "what a ruling is about");
  out.of = r.about;
  out.tube = static_cast<int>(r.tube);
  out.says = read.key(read_row_word(r.says), "what a ruling says");
  out.test = r.test;
  out.to_kit = r.to_kit;
  out.to_tube = static_cast<int>(r.to_tube);
  out.known = read.ids(r.known);
  out.by = r.by;
  out.reason = r.reason;
  out.at = read.at(r.at);
  out.mark = {r.entry, {}};
  return out;
}

// Rows into the kits they stand under.
class kit_sorter {
public:
  explicit kit_sorter(const std::map<std::string, std::string>& kit_of_test)
      : kit_of_test_(kit_of_test) {}

  // `lost` are kit numbers under which rows are that cannot be read: such a kit is damaged, and so
  // is one that has a row which was entered under its number.
  void sort(const receiving_rows& rows, const std::set<std::string>& lost) {
    lost_ = lost;
    damaged_ = lost;
    for (const ruling_row& r : rows.rulings)
      if (!r.to_kit.empty()) moved_to_[r.about].push_back(r.to_kit);
    for (const reading_row& r : rows.readings)
      if (moved_to_.count(r.entry) != 0) moved_to_[r.entry].push_back(r.kit);
    each(rows.arrivals, &kit_rows::arrivals);
    each(rows.tubes, &kit_rows::tubes);
    each(rows.scans, &kit_rows::scans);
    each(rows.papers, &kit_rows::papers);
    each(rows.readings, &kit_rows::readings);
    each(rows.choices, &kit_rows::choices);
    each(rows.overrides, &kit_rows::overrides);
    each(rows.conclusions, &kit_rows::conclusions);
    each(rows.rulings, &kit_rows::rulings);
  }

  std::map<std::string, result<kit_rows>> sorted() {
    std::map<std::string, result<kit_rows>> out;
    for (auto& [kit, values] : kits_) {
      values.rows.kit = kit;
      if (values.reader.wanted() == nullptr) {
        out.emplace(kit, std::move(values.rows));
      } else {
        out.emplace(kit, tl::unexpected(refusal{refusal_kind::machine, "", "kit " + kit,
                                                "a damaged row", values.reader.wanted()}));
      }
    }
    for (const std::string& kit : damaged_)
      out.insert_or_assign(kit,
                           tl::unexpected(refusal{refusal_kind::machine, "", "kit " + kit,
                                                  "a damaged page", "a page as it was written"}));
    return out;
  }

private:
  struct read_kit {
    kit_rows rows;
    row_reader reader;
  };

  [[nodiscard]] std::set<std::string> kits_of(const std::string& kit,
                                              const std::string& test) const {
    const auto now = kit_of_test_.find(test);
    return {now == kit_of_test_.end() ? kit : now->second};
  }
  template <typename Row>
  std::set<std::string> all_kits_of(const Row& r) const {
    std::set<std::string> out = kits_of(r.kit, r.test);
    const auto add_moved = [&](std::int64_t reading) {
      const auto at = moved_to_.find(reading);
      if (at != moved_to_.end()) out.insert(at->second.begin(), at->second.end());
    };
    if constexpr (std::is_same_v<Row, reading_row>) add_moved(r.entry);
    if constexpr (std::is_same_v<Row, ruling_row>) {
      out.insert(r.kit);
      if (r.what == ruled_text(ruled::reading)) add_moved(r.about);
    }
    return out;
  }
  template <typename Row, typename Value>
  void each(const std::vector<Row>& rows, std::vector<Value> kit_rows::*list) {
    for (const Row& r : rows) {
      const std::set<std::string> under = all_kits_of(r);
      if (lost_.count(r.kit) != 0) damaged_.insert(under.begin(), under.end());
      for (const std::string& kit : under) {
        read_kit& one = kits_[kit];
        (one.rows.*list).push_back(value_of(r, one.reader));
      }
    }
  }

  const std::map<std::string, std::string>& kit_of_test_;
  std::map<std::int64_t, std::vector<std::string>> moved_to_;
  std::map<std::string, read_kit> kits_;
  std::set<std::string> lost_;
  std::set<std::string> damaged_;
};

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

result<kit_rows> load_rows(const receiving_store& store, const std::string& kit,
                           const std::vector<std::string>& tests) {
  const auto rows = store.find(kit, tests);
  if (!rows) return tl::unexpected(rows.error());
  std::map<std::string, std::string> here;
  for (const std::string& test : tests)
    here[test] = kit;
  kit_sorter sorter(here);
  sorter.sort(*rows, {});
  auto kits = sorter.sorted();
  const auto at = kits.find(kit);
  if (at != kits.end()) return std::move(at->second);
  kit_rows none;
  none.kit = kit;
  return none;
}

result<std::map<std::string, result<kit_rows>>>
load_all_rows(const receiving_store& store, const std::map<std::string, std::string>& kit_of_test) {
  std::set<std::string> lost;
  const auto rows = store.all_readable(lost);
  if (!rows) return tl::unexpected(rows.error());
  kit_sorter sorter(kit_of_test);
  sorter.sort(*rows, lost);
  return sorter.sorted();
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
          a.entered ? rfc3339_utc(*a.entered) : "",
          a.mark.test,
          person_text(a.who),
          a.supply.lot,
          date_or_empty(a.supply.expires),
          a.stored};
}

tube_row row_of(const received_tube& t, const std::string& kit, const std::string& test) {
  return {0,
          kit,
          0, // its box is told when it is put
          t.sample,
          t.present,
          t.lid == lid_state::good ? "good" : "bad",
          minute_or_empty(t.label),
          t.maker_code,
          test};
}

scan_row row_of(const tube_scan& s, const std::string& by, instant at) {
  return {0, s.kit, s.boxes, s.code, by, rfc3339_utc(at), s.mark.test};
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
          paper_scores_text(p.scores) + (p.after.empty() ? "" : " " + paper_after_text(p.after)),
          p.mark.test,
          person_text(p.who)};
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
          r.invalid ? marked_invalid : "",
          r.mark.test,
          r.of.run,
          r.of.analyser,
          r.of.calibration,
          r.of.control,
          r.by};
}

choice_row row_of(const reading_choice& c, const std::string& kit) {
  return {0, kit, c.sample, c.entry, c.by, c.reason, rfc3339_utc(c.at), c.mark.test};
}

override_row row_of(const override_of& o) {
  return {0,           o.kit,      o.rule, o.sample.value_or(0), o.by, o.reason, rfc3339_utc(o.at),
          o.withdrawn, o.mark.test};
}

conclusion_row row_of(const conclusion& c) {
  return {0,
          c.kit,
          c.words,
          c.by,
          rfc3339_utc(c.at),
          c.seen,
          c.mark.test,
          conclusion_kind_text(c.kind),
          fmt::format("{}", c.number),
          c.reason,
          c.lack};
}

ruling_row row_of(const ruling& r) {
  return {0,
          r.kit,
          ruled_text(r.what),
          r.of,
          r.tube,
          row_word_text(r.says),
          r.test,
          r.to_kit,
          r.to_tube,
          json::canonical(json::list_of(r.known)),
          r.by,
          r.reason,
          rfc3339_utc(r.at)};
}

} // namespace qb::lab
