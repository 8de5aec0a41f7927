// The description field by field; a file's rows cell by cell.
#include "core/receiving/reading_layout.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/curve/curve_number.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>
#include <set>

namespace qb::inline receiving {

namespace {

using json::fields;

constexpr std::size_t most_name = 120;
constexpr std::size_t most_entries = 60;
constexpr std::array run_keys{"run", "analyser", "calibration", "control"};
constexpr std::array other_keys{"kit", "tube", "label", "measured_at", "day", "time", "mark"};

std::string small_letters(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

// One column's name; no other field may have it.
std::string column_in(fields& f, const char* key, std::set<std::string>& taken) {
  std::string out = f.optional_text(key, most_name).value_or("");
  if (!out.empty() && !taken.insert(small_letters(out)).second)
    f.refuse(key, "a column that is another field's", "a column of its own");
  return out;
}

void read_columns(const json::value& v, fields& up, reading_layout& out,
                  std::set<std::string>& taken) {
  fields f(v, up.place("columns"));
  const auto read = [&](const char* key) {
    const std::string name = column_in(f, key, taken);
    if (!name.empty()) out.columns[key] = name;
  };
  for (const char* key : other_keys)
    read(key);
  for (const char* key : run_keys)
    read(key);
  const auto has = [&](const char* key) { return out.columns.count(key) != 0; };
  if (has("label") ? has("kit") || has("tube") : !has("kit") || !has("tube"))
    f.refuse("kit", "no way to a tube, or two", "kit and tube, or label");
  if (has("measured_at") ? has("day") || has("time") : !has("day") || !has("time"))
    f.refuse("measured_at", "no moment, or two", "measured_at, or day and time");
  up.absorb(f.finish());
}

void read_gases(const json::value& v, fields& up, reading_layout& out,
                std::set<std::string>& taken) {
  struct unit {
    const char* key;
    int places; // from it to ppm
  };
  static constexpr std::array<unit, 4> units{
      {{"ppm", 0}, {"ppb", 3}, {"pct", -4}, {"permille", -3}}};
  constexpr int to_hundredths = 4; // places from a millionth
  fields f(v, up.place("gases"));
  for (const auto& [key, ours] :
       {std::pair("h2", "h2_ppm"), std::pair("ch4", "ch4_ppm"), std::pair("co2", "co2_pct")}) {
    const json::value* child = f.optional_child(key);
    if (child == nullptr) continue;
    fields one(*child, f.place(key));
    laid_out_gas gas{ours, one.text("column", most_name), 0};
    if (!taken.insert(small_letters(gas.column)).second)
      one.refuse("column", "a column that is another field's", "a column of its own");
    const std::size_t unit = one.choice("unit", {"ppm", "ppb", "pct", "permille"});
    gas.places = units[unit].places + (key == std::string("co2") ? to_hundredths : 0);
    out.gases.push_back(std::move(gas));
    f.absorb(one.finish());
  }
  if (!f.has("h2") && !f.has("ch4")) f.refuse("h2", "no gas", "h2 or ch4, or both");
  up.absorb(f.finish());
}

// A list of {is, means}; `may` are the meanings there are, any text where it is empty.
std::map<std::string, std::string> read_words(fields& up, const char* key,
                                              const std::vector<std::string>& may) {
  std::map<std::string, std::string> out;
  if (!up.has(key)) return out;
  const auto all = up.children(key, 1, most_entries);
  for (std::size_t i = 0; i < all.size(); ++i) {
    fields f(*all[i], up.place(key, i));
    const std::string is = f.text("is", most_name);
    const std::string means =
        may.empty() ? f.text("means", most_name, true) : may[f.choice("means", may)];
    if (!out.emplace(is, means).second)
      f.refuse("is", "a word that stands above", "each word once");
    up.absorb(f.finish());
  }
  return out;
}

void read_head(fields& up, reading_layout& out) {
  if (!up.has("head")) return;
  const std::vector<std::string> keys(run_keys.begin(), run_keys.end());
  const auto all = up.children("head", 1, run_keys.size());
  std::set<std::string> told;
  for (std::size_t i = 0; i < all.size(); ++i) {
    fields f(*all[i], up.place("head", i));
    const std::string begins = f.text("begins", most_name);
    const std::string& is = keys[f.choice("is", keys)];
    if (!told.insert(is).second) f.refuse("is", "told above", "each once");
    out.head.emplace_back(begins, is);
    up.absorb(f.finish());
  }
}

bool has_digits_only(std::string_view text) {
  return !text.empty() &&
         std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The figure with its point moved that many places to the left; nothing of what is none.
std::optional<std::string> moved(const std::string& figure, char mark, int places) {
  std::string text = figure;
  if (text.find(mark == ',' ? '.' : ',') != text.npos) return std::nullopt;
  const std::size_t point = std::min(text.find(mark), text.size());
  std::string whole = text.substr(0, point);
  std::string part = point < text.size() ? text.substr(point + 1) : "";
  if (!has_digits_only(whole) || (point < text.size() && !has_digits_only(part)))
    return std::nullopt;
  for (; places > 0; --places) {
    part.insert(part.begin(), whole.empty() ? '0' : whole.back());
    if (!whole.empty()) whole.pop_back();
  }
  for (; places < 0; ++places) {
    whole += part.empty() ? '0' : part.front();
    if (!part.empty()) part.erase(part.begin());
  }
  part.erase(part.find_last_not_of('0') + 1);
  whole.erase(0, std::min(whole.find_first_not_of('0'), whole.size()));
  if (whole.empty()) whole = "0";
  return part.empty() ? whole : whole + "." + part;
}

// "2027-04-09 10:30:15" of a moment in that form; nothing of what is none.
std::optional<std::string> year_first(const std::string& text, const std::string& form) {
  // Where year, month and day stand among the date's three parts.
  struct order {
    const char* form;
    char mark;
    std::size_t year, month, day;
  };
  static constexpr std::array<order, 4> orders{{{"YYYY-MM-DD hh:mm", '-', 0, 1, 2},
                                                {"DD.MM.YYYY hh:mm", '.', 2, 1, 0},
                                                {"DD/MM/YYYY hh:mm", '/', 2, 1, 0},
                                                {"MM/DD/YYYY hh:mm", '/', 2, 0, 1}}};
  const auto* how =
      std::find_if(orders.begin(), orders.end(), [&](const order& o) { return form == o.form; });
  if (how == orders.end()) return std::nullopt;
  const std::size_t blank = text.find_first_of(" T");
  if (blank == text.npos) return std::nullopt;
  std::array<std::string, 3> parts;
  std::size_t at = 0;
  for (const char c : text.substr(0, blank)) {
    if (c == how->mark && ++at < parts.size()) continue;
    if (at >= parts.size()) return std::nullopt;
    parts[at] += c;
  }
  const auto filled = [](const std::string& digits, std::size_t size) {
    return digits.size() < size ? std::string(size - digits.size(), '0') + digits : digits;
  };
  for (const std::string& part : parts)
    if (!has_digits_only(part)) return std::nullopt;
  if (parts[how->year].size() != 4) return std::nullopt;
  std::string clock = trimmed(text.substr(blank + 1));
  if (clock.find(':') == 1) clock.insert(clock.begin(), '0');
  return parts[how->year] + "-" + filled(parts[how->month], 2) + "-" + filled(parts[how->day], 2) +
         " " + clock;
}

// Reads a file's rows by its description.
class row_layer {
public:
  row_layer(const reading_layout& layout, const csv::row& names) : l_(layout) {
    for (std::size_t i = 0; i < names.cells.size(); ++i)
      at_.emplace(small_letters(names.cells[i]), i);
  }

  // Whether the row names every column of the description.
  [[nodiscard]] bool has_all() const {
    const auto here = [&](const std::string& name) { return at_.count(small_letters(name)) != 0; };
    return std::all_of(l_.columns.begin(), l_.columns.end(),
                       [&](const auto& c) { return here(c.second); }) &&
           std::all_of(l_.gases.begin(), l_.gases.end(),
                       [&](const laid_out_gas& g) { return here(g.column); });
  }

  // The row's cells under our names.
  std::map<std::string, std::string> lay(const csv::row& row, std::vector<refusal>& refused) const {
    std::map<std::string, std::string> out;
    const auto no = [&](const std::string& column, const std::string& found,
                        const std::string& expected) {
      refused.push_back({refusal_kind::malformed, "", fmt::format("line {}, {}", row.line, column),
                         json::shown(json::value(found)), expected});
    };
    for (const auto& [ours, name] : l_.columns)
      out[ours] = cell(row, name);
    const std::string moment =
        l_.columns.count("day") != 0 ? trimmed(out["day"] + " " + out["time"]) : out["measured_at"];
    const auto when = year_first(moment, l_.moment);
    if (!when && !moment.empty())
      no(name_of(l_.columns.count("day") != 0 ? "day" : "measured_at"), moment, l_.moment);
    out["measured_at"] = when.value_or("");
    for (const auto& [key, words] :
         {std::pair("mark", &l_.marks), std::pair("control", &l_.controls)}) {
      const auto there = out.find(key);
      if (there == out.end() || there->second.empty()) continue;
      const auto means = words->find(there->second);
      if (means == words->end())
        no(name_of(key), there->second, "a word that the description tells the meaning of");
      else
        there->second = means->second == "valid" ? "" : means->second;
    }
    for (const laid_out_gas& gas : l_.gases) {
      const std::string text = cell(row, gas.column);
      const auto figure = in_our_unit(text, gas.places);
      if (!figure) no(gas.column, text, "a figure as the description tells it, or nothing");
      out[gas.ours] = figure.value_or("");
    }
    return out;
  }

  [[nodiscard]] std::string name_of(const std::string& ours) const {
    const auto at = l_.columns.find(ours);
    return at == l_.columns.end() ? ours : at->second;
  }

private:
  [[nodiscard]] std::string cell(const csv::row& row, const std::string& name) const {
    const auto at = at_.find(small_letters(name));
    return at == at_.end() || at->second >= row.cells.size() ? "" : row.cells[at->second];
  }
  [[nodiscard]] std::optional<std::string> in_our_unit(const std::string& text, int places) const {
    const auto word = l_.cells.find(text);
    if (word != l_.cells.end()) return word->second;
    if (text.empty()) return text;
    const bool ranged = text.front() == '<' || text.front() == '>';
    const auto figure = moved(trimmed(text.substr(ranged ? 1 : 0)), l_.decimal_mark, places);
    if (!figure) return std::nullopt;
    return (ranged ? text.substr(0, 1) : std::string()) + *figure;
  }

  const reading_layout& l_;
  std::map<std::string, std::size_t> at_;
};

// What a line above the names tells: the cell behind its beginning, or what follows it there.
void take_head(const csv::row& row, const reading_layout& layout, laid_out_table& out) {
  for (const auto& [begins, is] : layout.head) {
    const std::string& first = row.cells.front();
    if (first.rfind(begins, 0) != 0) continue;
    std::string value = trimmed(first.substr(begins.size()));
    if (!value.empty() && (value.front() == ':' || value.front() == '='))
      value = trimmed(value.substr(1));
    if (value.empty() && row.cells.size() > 1) value = row.cells[1];
    const auto control = layout.controls.find(value);
    if (is == "control" && !value.empty()) {
      if (control == layout.controls.end())
        out.refused.push_back(
            {refusal_kind::malformed, "", fmt::format("line {}, {}", row.line, begins),
             json::shown(json::value(value)), "a word that the description tells the meaning of"});
      else
        value = control->second;
    }
    out.run[is] = value;
  }
}

// A row under our names, in their order.
csv::row plain_row(const csv::row& row, const std::map<std::string, std::string>& cells,
                   const std::vector<std::string>& names) {
  csv::row out{row.line, row.text, {}};
  for (const std::string& name : names) {
    const auto at = cells.find(name);
    out.cells.push_back(at == cells.end() ? "" : at->second);
  }
  return out;
}

} // namespace

result<reading_layout> read_reading_layout(std::string_view text) {
  const auto v = json::parse(text);
  if (!v) return tl::unexpected(v.error());
  fields f(*v, "");
  (void)f.choice("format", {"quarterbreath-readings-layout"});
  (void)f.integer("version", 1, 1);
  reading_layout out;
  out.separator = ",;\t"[f.choice("parted_by", {"comma", "semicolon", "tab"})];
  out.decimal_mark = ".,"[f.choice("decimal_mark", {"point", "comma"})];
  const std::vector<std::string> forms{"YYYY-MM-DD hh:mm", "DD.MM.YYYY hh:mm", "DD/MM/YYYY hh:mm",
                                       "MM/DD/YYYY hh:mm"};
  out.moment = forms[f.choice("moment", forms)];
  std::set<std::string> taken;
  if (const json::value* c = f.child("columns")) read_columns(*c, f, out, taken);
  if (const json::value* g = f.child("gases")) read_gases(*g, f, out, taken);
  out.marks = read_words(f, "marks", {"invalid", "valid"});
  out.controls = read_words(f, "controls", {"passed", "failed"});
  out.cells = read_words(f, "cells", {});
  read_head(f, out);
  out.ends_with = f.optional_text("ends_with", most_name).value_or("");
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

result<laid_out_table> lay_out(std::string_view text, const reading_layout& layout,
                               std::size_t most_rows) {
  auto rows = csv::reader::open(text, std::string_view(&layout.separator, 1));
  if (!rows) return tl::unexpected(rows.error());
  laid_out_table out;
  out.plain.names = {"kit",  "tube", "h2_ppm",   "ch4_ppm",     "co2_pct", "measured_at",
                     "mark", "run",  "analyser", "calibration", "control"};
  std::optional<row_layer> layer;
  auto row = rows->next();
  for (; row && *row; row = rows->next()) {
    if ((*row)->empty()) continue;
    if (!layer) {
      row_layer maybe(layout, **row);
      if (maybe.has_all())
        layer.emplace(maybe);
      else
        take_head(**row, layout, out);
      continue;
    }
    if (!layout.ends_with.empty() && (*row)->cells.front() == layout.ends_with) break;
    if (out.plain.rows.size() == most_rows)
      return tl::unexpected(refusal{refusal_kind::malformed, "",
                                    fmt::format("line {}", (*row)->line), "another row",
                                    fmt::format("at most {}", most_rows)});
    auto cells = layer->lay(**row, out.refused);
    if (const auto label = cells.find("label"); label != cells.end()) cells["tube"] = label->second;
    out.plain.rows.push_back(plain_row(**row, cells, out.plain.names));
  }
  if (!row) return tl::unexpected(row.error());
  if (!layer)
    return tl::unexpected(refusal{refusal_kind::missing, "", "header",
                                  "no line with all the columns of the description",
                                  "the names that stand under \"columns\" and \"gases\""});
  out.names = layout.columns;
  for (const laid_out_gas& gas : layout.gases)
    out.names[gas.ours] = gas.column;
  if (layout.columns.count("label") != 0)
    out.names["kit"] = out.names["tube"] = layout.columns.at("label");
  if (layout.columns.count("day") != 0) out.names["measured_at"] = layout.columns.at("day");
  return out;
}

} // namespace qb::inline receiving
