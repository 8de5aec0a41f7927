// What the cells of a table mean, and what cannot be.
#include "core/receiving/readings.hpp"

#include "core/base/json_fields.hpp"
#include "core/protocol/sample_number.hpp"
#include "core/receiving/decimal_mark.hpp"
#include "core/receiving/readings_table.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

std::string shown(const std::string& cell) {
  return cell.empty() ? "nothing" : json::shown(json::value(cell));
}

// One of a table's columns by its name; nothing where it has no such column.
class columns {
public:
  // Refuses a table with another column, one twice, or a needed one not there. `optional` are those
  // that may be missing.
  static result<columns> of(const table& t, std::vector<std::string> names,
                            const std::vector<std::string>& optional) {
    columns out;
    for (std::size_t i = 0; i < t.names.size(); ++i) {
      if (t.names[i].empty()) continue;
      if (std::find(names.begin(), names.end(), t.names[i]) == names.end())
        return tl::unexpected(no("the column " + shown(t.names[i]), names));
      if (!out.at_.emplace(t.names[i], i).second)
        return tl::unexpected(no("the column " + t.names[i] + " twice", names));
    }
    for (const std::string& name : names)
      if (out.at_.count(name) == 0 &&
          std::find(optional.begin(), optional.end(), name) == optional.end())
        return tl::unexpected(no("no column " + name, names));
    return out;
  }

  [[nodiscard]] std::string cell(const csv::row& row, const std::string& name) const {
    const auto at = at_.find(name);
    if (at == at_.end() || at->second >= row.cells.size()) return {};
    return row.cells[at->second];
  }

private:
  static refusal no(std::string found, const std::vector<std::string>& names) {
    std::string expected = "the columns";
    for (const std::string& name : names)
      expected += (&name == &names.front() ? " " : ", ") + name;
    return {refusal_kind::malformed, "", "header", std::move(found), std::move(expected)};
  }
  std::map<std::string, std::size_t> at_;
};

// What stands behind "<" or ">", if that is there.
std::string figure_in(const std::string& cell) {
  const bool ranged = !cell.empty() && (cell.front() == '<' || cell.front() == '>');
  const std::size_t at = ranged ? cell.find_first_not_of(' ', 1) : 0;
  return at == cell.npos ? "" : cell.substr(at);
}

// Six digits after the point are more than any instrument has, and leave room for correcting.
constexpr std::int64_t millionths = 1000000;

std::optional<std::int64_t> in_millionths(exact n) {
  const auto whole = static_cast<std::int64_t>(std::llround(n.rounded() * millionths));
  return exact(whole) == n.times(millionths) ? std::optional(whole) : std::nullopt;
}

// "12.5", or "12,5" in a table with decimal commas, "<1", "> 200"; nothing of "1.234,5" and of what
// is no number.
std::optional<ranged_reading> read_cell(const std::string& cell, char mark) {
  ranged_reading out;
  if (cell.front() == '<') out.is = reading_range::below;
  if (cell.front() == '>') out.is = reading_range::above;
  const auto n = read_figure(figure_in(cell), mark);
  if (!n || !in_millionths(*n)) return std::nullopt;
  out.figure = *n;
  return out;
}

bool all_digits(std::string_view text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The date and minute of a moment, with seconds if any, as "2027-04-09T10:30:15".
std::optional<std::string> read_moment(std::string_view text) {
  constexpr std::size_t date_size = 10;
  constexpr std::size_t minute_size = 16;
  if (text.size() < minute_size) return std::nullopt;
  std::string date(text.substr(0, date_size));
  if (date[2] == '.' && date[5] == '.')
    date = date.substr(6) + "-" + date.substr(3, 2) + "-" + date.substr(0, 2);
  const auto minute =
      parse_civil(date + std::string(text.substr(date_size, minute_size - date_size)));
  if (!minute) return std::nullopt;
  std::string_view rest = text.substr(minute_size);
  std::string seconds;
  if (rest.size() >= 3 && rest[0] == ':' && all_digits(rest.substr(1, 2)) && rest[1] < '6') {
    seconds = rest.substr(0, 3);
    rest.remove_prefix(3);
  }
  if (!rest.empty()) return std::nullopt;
  std::string out = civil_text(*minute) + seconds;
  out[date_size] = 'T';
  return out;
}

int number_of(std::string_view digits) {
  int n = 0;
  for (const char c : digits.substr(0, 4))
    n = n * 10 + (c - '0');
  return n;
}

// A run's fields by the names of their columns.
struct run_field {
  const char* name;
  std::string reading_run::*field;
};
constexpr std::array<run_field, 4> run_fields{{{"run", &reading_run::run},
                                               {"analyser", &reading_run::analyser},
                                               {"calibration", &reading_run::calibration},
                                               {"control", &reading_run::control}}};

// Why such a text cannot be kept of a run; nothing where it can.
std::optional<std::string> wanted_of_run(const char* name, const std::string& text) {
  if (name == std::string("control") && !text.empty() && text != "passed" && text != "failed")
    return "passed, failed, or nothing";
  if (json::is_plain_line(text) && text.size() <= most_words) return std::nullopt;
  return fmt::format("one line of at most {} bytes", most_words);
}

// What a table's readings have in common: its columns' own names, and the run above them.
struct table_facts {
  char mark{'.'};
  std::map<std::string, std::string> names; // ours to the file's own
  reading_run run;
};

// One row after the other; each refusal names its line and column.
class row_reader {
public:
  row_reader(const columns& where, const curve_limits& limits, const tube_codes& codes,
             const table_facts& facts)
      : where_(where), limits_(limits), codes_(codes), facts_(facts) {}

  result<gas_reading> read(const csv::row& row) {
    row_ = &row;
    no_.reset();
    gas_reading out;
    which_tube(out);
    out.h2_ppm = number("h2_ppm", limits_.gas_most, out.h2_is);
    out.ch4_ppm = number("ch4_ppm", limits_.gas_most, out.ch4_is);
    out.co2_pct = number("co2_pct", limits_.co2_most, out.co2_is);
    if (!no_ && !out.h2_ppm && !out.ch4_ppm)
      refuse("h2_ppm", "no reading in this row", "hydrogen or methane, or both");
    const std::string at = where_.cell(row, "measured_at");
    const auto moment = read_moment(at);
    if (!moment)
      refuse("measured_at", shown(at), "a date and time (2027-04-09 10:30 or 09.04.2027 10:30)");
    out.measured_at = moment.value_or("");
    const std::string mark = where_.cell(row, "mark");
    if (!mark.empty() && mark != "invalid") refuse("mark", shown(mark), "invalid, or nothing");
    out.invalid = mark == "invalid";
    out.of = facts_.run;
    for (const run_field& one : run_fields) {
      const std::string text = where_.cell(row, one.name);
      if (const auto wanted = wanted_of_run(one.name, text)) refuse(one.name, shown(text), *wanted);
      if (!text.empty()) out.of.*one.field = text;
    }
    out.raw = row.text;
    if (no_) return tl::unexpected(*no_);
    return out;
  }

private:
  void refuse(const char* column, std::string found, std::string expected,
              refusal_kind kind = refusal_kind::malformed) {
    if (no_) return;
    const auto own = facts_.names.find(column);
    no_ = refusal{kind, "",
                  fmt::format("line {}, {}", row_->line,
                              own == facts_.names.end() ? column : own->second.c_str()),
                  std::move(found), std::move(expected)};
  }

  void which_tube(gas_reading& out) {
    const std::string kit = where_.cell(*row_, "kit");
    const std::string tube = where_.cell(*row_, "tube");
    const auto number = kit.empty() ? std::nullopt : read_kit_number(kit);
    if (!kit.empty() && !number) return refuse("kit", "no kit number", "one such as FV-2071");
    if (const auto known = codes_.find(tube); known != codes_.end()) {
      if (number && *number != known->second.kit)
        return refuse("tube", "the code of a tube of another kit", "a tube of this row's kit");
      out.kit = known->second.kit;
      out.sample = known->second.sample;
      return;
    }
    if (!number) return refuse("kit", "nothing", "a kit number");
    out.kit = *number;
    const bool good =
        all_digits(tube) && number_of(tube) >= 1 && number_of(tube) <= most_tube_number;
    if (!good)
      return refuse("tube", shown(tube),
                    fmt::format("a tube's number (1 to {}){}", most_tube_number,
                                codes_.empty() ? "" : ", or a code of the list"));
    out.sample = number_of(tube);
  }

  std::optional<exact> number(const char* column, exact most, reading_range& is) {
    const std::string cell = where_.cell(*row_, column);
    if (cell.empty()) return std::nullopt;
    const auto n = read_cell(cell, facts_.mark);
    if (!n) {
      refuse(column, shown(cell),
             "a number with at most six digits after its point, < or > and one, or nothing");
      return std::nullopt;
    }
    if (n->figure < exact() || n->figure > most)
      refuse(column, n->figure.text(), fmt::format("0 to {}", most.text()),
             refusal_kind::out_of_range);
    is = n->is;
    return n->figure;
  }

  const columns& where_;
  const curve_limits& limits_;
  const tube_codes& codes_;
  const table_facts& facts_;
  const csv::row* row_{nullptr};
  std::optional<refusal> no_;
};

// Every figure of the table, by line.
std::vector<written_figure> figures_of(const table& t, const columns& where,
                                       const curve_limits& limits) {
  std::vector<written_figure> out;
  for (const csv::row& row : t.rows) {
    for (const char* column : {"h2_ppm", "ch4_ppm", "co2_pct"}) {
      const exact most = column == std::string("co2_pct") ? limits.co2_most : limits.gas_most;
      out.push_back({figure_in(where.cell(row, column)), row.line, column, most});
    }
  }
  return out;
}

} // namespace

result<tube_codes> read_tube_codes(std::string_view text) {
  const auto t = read_text_table(text, most_reading_rows);
  if (!t) return tl::unexpected(t.error());
  const auto where = columns::of(*t, {"maker_code", "kit", "tube"}, {});
  if (!where) return tl::unexpected(where.error());
  tube_codes out;
  for (const csv::row& row : t->rows) {
    const auto no = [&](const char* column, std::string found, std::string expected) {
      return tl::unexpected(refusal{refusal_kind::malformed, "",
                                    fmt::format("line {}, {}", row.line, column), std::move(found),
                                    std::move(expected)});
    };
    const std::string code = where->cell(row, "maker_code");
    const auto kit = read_kit_number(where->cell(row, "kit"));
    const std::string tube = where->cell(row, "tube");
    if (code.empty()) return no("maker_code", "nothing", "the code on the tube");
    if (!kit) return no("kit", "no kit number", "one such as FV-2071");
    if (!all_digits(tube) || number_of(tube) < 1 || number_of(tube) > most_tube_number)
      return no("tube", shown(tube), "a tube's number");
    if (!out.emplace(code, known_tube{*kit, number_of(tube)}).second)
      return no("maker_code", "a code that stands above", "each code once");
  }
  return out;
}

namespace {

// A line above the header: a run's field and its value.
bool is_head_line(const csv::row& row) {
  const auto filled = std::count_if(row.cells.begin(), row.cells.end(),
                                    [](const std::string& cell) { return !cell.empty(); });
  return filled <= 2 &&
         std::any_of(run_fields.begin(), run_fields.end(),
                     [&](const run_field& one) { return row.cells.front() == one.name; });
}

// What the lines above the header tell; `cell` is a field's value, empty where none tells it.
template <typename Cell>
void take_run(Cell cell, table_facts& facts, std::vector<refusal>& refused) {
  for (const run_field& one : run_fields) {
    const std::string text = cell(one.name);
    if (const auto wanted = wanted_of_run(one.name, text))
      refused.push_back(
          {refusal_kind::malformed, "", fmt::format("head, {}", one.name), shown(text), *wanted});
    facts.run.*one.field = text;
  }
}

// All rows of a table whose columns have our names.
void read_rows(const table& t, const row_reader& begun, read_table& out) {
  row_reader reader = begun;
  for (const csv::row& row : t.rows) {
    auto one = reader.read(row);
    if (one) {
      out.readings.push_back(std::move(*one));
      out.lines.push_back(row.line);
    } else if (out.refused.size() < most_said_refusals) {
      out.refused.push_back(one.error());
    }
  }
  if (t.rows.empty())
    out.refused.push_back(
        {refusal_kind::missing, "", "", "a header and no row", "one reading at least"});
}

result<columns> reading_columns(const table& t) {
  return columns::of(t,
                     {"kit", "tube", "h2_ppm", "ch4_ppm", "co2_pct", "measured_at", "mark", "run",
                      "analyser", "calibration", "control"},
                     {"co2_pct", "mark", "run", "analyser", "calibration", "control"});
}

read_table refused_whole(std::vector<refusal> all) {
  if (all.size() > most_said_refusals) all.resize(most_said_refusals);
  return {{}, {}, std::move(all)};
}

// A plain table: its decimal mark is worked out from its figures.
read_table read_plain(std::string_view text, const curve_limits& limits, const tube_codes& codes) {
  const auto t = read_text_table(text, most_reading_rows, is_head_line);
  if (!t) return {{}, {}, {t.error()}};
  const auto where = reading_columns(*t);
  if (!where) return {{}, {}, {where.error()}};
  found_mark mark = decimal_mark_of(figures_of(*t, *where, limits));
  if (!mark.refused.empty()) return refused_whole(std::move(mark.refused));
  read_table out;
  table_facts facts{mark.mark, {}, {}};
  const auto cell = [&](const char* name) {
    for (const csv::row& row : t->head)
      if (row.cells.front() == name && row.cells.size() > 1) return row.cells[1];
    return std::string();
  };
  take_run(cell, facts, out.refused);
  read_rows(*t, row_reader(*where, limits, codes, facts), out);
  return out;
}

read_table read_described(std::string_view text, const curve_limits& limits,
                          const tube_codes& codes, const reading_layout& layout) {
  auto laid = lay_out(text, layout, most_reading_rows);
  if (!laid) return {{}, {}, {laid.error()}};
  if (!laid->refused.empty()) return refused_whole(std::move(laid->refused));
  const auto where = reading_columns(laid->plain);
  if (!where) return {{}, {}, {where.error()}};
  read_table out;
  table_facts facts{'.', laid->names, {}};
  take_run([&](const char* name) { return laid->run[name]; }, facts, out.refused);
  // A label that stands on a tube of ours names its kit too.
  if (layout.columns.count("label") != 0)
    for (csv::row& row : laid->plain.rows)
      if (const auto known = read_tube_label(row.cells[1]);
          known && codes.count(row.cells[1]) == 0) {
        row.cells[0] = known->kit;
        row.cells[1] = fmt::format("{}", known->sample);
      }
  read_rows(laid->plain, row_reader(*where, limits, codes, facts), out);
  return out;
}

} // namespace

read_table read_readings(std::string_view text, const curve_limits& limits, const tube_codes& codes,
                         const reading_layout* layout) {
  return layout == nullptr ? read_plain(text, limits, codes)
                           : read_described(text, limits, codes, *layout);
}

std::optional<exact> co2_corrected(const std::optional<exact>& ppm,
                                   const std::optional<exact>& co2_pct, int reference_tenths) {
  if (!ppm || !co2_pct || *co2_pct <= exact()) return std::nullopt;
  const auto reading = in_millionths(*ppm);
  const auto measured = in_millionths(*co2_pct);
  if (!reading || !measured) return std::nullopt;
  constexpr std::int64_t tenth_in_millionths = millionths / 10;
  const exact::wide over = exact::wide{*reading} * reference_tenths * tenth_in_millionths;
  const auto out = static_cast<std::int64_t>((over + *measured / 2) / *measured);
  return exact::parse(fmt::format("{}.{:06}", out / millionths, out % millionths));
}

std::string reading_moment(civil_time t) {
  std::string out = civil_text(t);
  out[out.find(' ')] = 'T';
  return out;
}

std::optional<known_tube> read_tube_label(std::string_view text) {
  constexpr std::size_t end_size = 3; // a hyphen and two digits
  // A label is one word: folded, a line of several would be the number of a kit.
  if (text.size() <= end_size || text.find_first_of(" \t") != text.npos) return std::nullopt;
  const std::string_view end = text.substr(text.size() - end_size);
  const auto kit = read_kit_number(text.substr(0, text.size() - end_size));
  if (!kit || end.front() != '-' || !all_digits(end.substr(1))) return std::nullopt;
  const bool parted = kit->find('-') != std::string::npos && kit->back() != '-';
  const int sample = number_of(end.substr(1));
  if (!parted || !sample_number::in_range(sample)) return std::nullopt;
  return known_tube{*kit, sample};
}

} // namespace qb::inline receiving
