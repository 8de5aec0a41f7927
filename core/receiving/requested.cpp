// A table row by row; FHIR resource by resource.
#include "core/receiving/requested.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/receiving/readings_table.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <set>

namespace qb::inline receiving {

namespace {

refusal no_request(std::string where, std::string found, std::string expected) {
  return {refusal_kind::malformed, "", std::move(where), std::move(found), std::move(expected)};
}

std::string small_letters(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

std::optional<civil_date> whole_day(const std::string& text) {
  const auto day = parse_date(text);
  return day ? std::optional(*day) : std::nullopt;
}

// "06.04.1957" and "06/04/1957" as "1957-04-06".
std::optional<civil_date> read_day(const std::string& text, day_form form) {
  if (form == day_form::year_first) return whole_day(text);
  const char mark = form == day_form::day_first_points ? '.' : '/';
  constexpr std::size_t length = 10;
  constexpr std::size_t month = 3;
  constexpr std::size_t year = 6;
  if (text.size() != length || text[month - 1] != mark || text[year - 1] != mark)
    return std::nullopt;
  return whole_day(text.substr(year) + "-" + text.substr(month, 2) + "-" + text.substr(0, 2));
}

bool is_kept_text(const std::string& text) {
  return text.empty() || (json::is_plain_line(text) && character_count(text) <= most_words);
}

// What a request must hold, wherever it was read; `where` is its place.
std::optional<refusal> no_to(const requested& one, std::set<std::string>& kits,
                             const std::string& where) {
  for (const std::string* text : {&one.name, &one.hospital_number, &one.order_number})
    if (!is_kept_text(*text))
      return no_request(where, "a text that is no plain line",
                        fmt::format("one line of at most {} characters", most_words));
  if (one.name.empty() && !one.birth_date && one.hospital_number.empty() &&
      one.order_number.empty())
    return no_request(where, "a kit and nothing else", "whom it is for");
  if (!kits.insert(one.kit).second)
    return no_request(where, "a kit that stands above", "each kit once");
  return std::nullopt;
}

class request_reader {
public:
  static result<request_reader> of(const table& t, const request_columns& c) {
    request_reader out(c.day);
    for (const auto& [field, name] : {std::pair{&request_reader::kit_, &c.kit},
                                      {&request_reader::name_, &c.name},
                                      {&request_reader::birth_, &c.birth_date},
                                      {&request_reader::hospital_, &c.hospital_number},
                                      {&request_reader::order_, &c.order_number}}) {
      if (name->empty()) continue;
      const std::string wanted = small_letters(*name);
      const auto at = std::find(t.names.begin(), t.names.end(), wanted);
      if (at == t.names.end() || std::count(t.names.begin(), t.names.end(), wanted) > 1)
        return tl::unexpected(no_request(
            "header", at == t.names.end() ? "no column \"" + *name + "\"" : *name + " twice",
            "the columns that the description names"));
      out.*field = static_cast<std::size_t>(at - t.names.begin());
    }
    return out;
  }

  result<requested> read(const csv::row& row) const {
    requested out;
    const auto kit = read_kit_number(cell(row, kit_));
    if (!kit)
      return tl::unexpected(no_request(fmt::format("line {}, kit", row.line), "no kit number",
                                       "one such as FV-2071"));
    out.kit = *kit;
    out.name = cell(row, name_);
    out.hospital_number = cell(row, hospital_);
    out.order_number = cell(row, order_);
    const std::string born = cell(row, birth_);
    if (born.empty()) return out;
    out.birth_date = read_day(born, day_);
    if (out.birth_date) return out;
    return tl::unexpected(no_request(fmt::format("line {}, birth date", row.line), "no such day",
                                     "a day in the form that the description names"));
  }

private:
  explicit request_reader(day_form day) : day_(day) {}
  static std::string cell(const csv::row& row, const std::optional<std::size_t>& at) {
    return at && *at < row.cells.size() ? row.cells[*at] : std::string();
  }
  day_form day_;
  std::optional<std::size_t> kit_;
  std::optional<std::size_t> name_;
  std::optional<std::size_t> birth_;
  std::optional<std::size_t> hospital_;
  std::optional<std::size_t> order_;
};

// The text at the end of that path; empty where something on it is not there. A number is an
// element of a list.
std::string text_at(const json::value* v, const std::vector<std::string>& path) {
  for (const std::string& step : path) {
    if (v == nullptr) return {};
    if (step == "0")
      v = v->items() != nullptr && !v->items()->empty() ? &v->items()->front() : nullptr;
    else
      v = v->find(step);
  }
  return v != nullptr && v->text() != nullptr ? trimmed(*v->text()) : std::string();
}

std::string name_of(const json::value& patient) {
  const std::string whole = text_at(&patient, {"name", "0", "text"});
  if (!whole.empty()) return whole;
  return trimmed(text_at(&patient, {"name", "0", "given", "0"}) + " " +
                 text_at(&patient, {"name", "0", "family"}));
}

// A bundle's patients by what refers to them.
using patients = std::map<std::string, const json::value*>;

result<requested> request_of(const json::value& r, const patients& all, const std::string& where) {
  requested out;
  const auto kit = read_kit_number(text_at(&r, {"specimen", "0", "identifier", "value"}));
  if (!kit)
    return tl::unexpected(no_request(where + ".specimen[0].identifier.value", "no kit number",
                                     "one such as FV-2071"));
  out.kit = *kit;
  out.order_number = text_at(&r, {"identifier", "0", "value"});
  out.name = text_at(&r, {"subject", "display"});
  out.hospital_number = text_at(&r, {"subject", "identifier", "value"});
  const std::string subject = text_at(&r, {"subject", "reference"});
  const auto patient = all.find(subject);
  if (patient == all.end() && !subject.empty() && out.name.empty() && out.hospital_number.empty())
    return tl::unexpected(no_request(where + ".subject", "a patient who is not in this file",
                                     "a Bundle with that Patient in it"));
  if (patient == all.end()) return out;
  const json::value& p = *patient->second;
  if (const std::string name = name_of(p); !name.empty()) out.name = name;
  if (const std::string number = text_at(&p, {"identifier", "0", "value"}); !number.empty())
    out.hospital_number = number;
  const std::string born = text_at(&p, {"birthDate"});
  out.birth_date = whole_day(born);
  if (!born.empty() && !out.birth_date)
    return tl::unexpected(no_request(where + ".subject, birthDate", "no whole day", "YYYY-MM-DD"));
  return out;
}

} // namespace

result<request_columns> read_request_columns(std::string_view text) {
  const auto v = json::parse(text);
  if (!v) return tl::unexpected(v.error());
  json::fields f(*v, "");
  (void)f.choice("format", {"quarterbreath-request-columns"});
  (void)f.integer("version", 1, 1);
  request_columns out;
  out.kit = f.text("kit");
  std::set<std::string> names{small_letters(out.kit)};
  for (const auto& [key, name] : {std::pair{"name", &out.name},
                                  {"birth_date", &out.birth_date},
                                  {"hospital_number", &out.hospital_number},
                                  {"order_number", &out.order_number}}) {
    *name = f.optional_text(key).value_or("");
    if (!name->empty() && !names.insert(small_letters(*name)).second)
      f.refuse(key, "a column that is another field's", "a column of its own");
  }
  if (f.has("day"))
    out.day = static_cast<day_form>(f.choice("day", {"YYYY-MM-DD", "DD.MM.YYYY", "DD/MM/YYYY"}));
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

result<std::vector<requested>> read_request_table(std::string_view text,
                                                  const request_columns& columns) {
  const auto t = read_text_table(text, most_requests);
  if (!t) return tl::unexpected(t.error());
  const auto reader = request_reader::of(*t, columns);
  if (!reader) return tl::unexpected(reader.error());
  std::vector<requested> out;
  std::set<std::string> kits;
  for (const csv::row& row : t->rows) {
    auto one = reader->read(row);
    if (!one) return tl::unexpected(one.error());
    if (const auto no = no_to(*one, kits, fmt::format("line {}", row.line)))
      return tl::unexpected(*no);
    out.push_back(std::move(*one));
  }
  return out;
}

result<std::vector<requested>> read_service_requests(std::string_view text) {
  const auto v = json::parse(text, json::numbers::exact);
  if (!v) return tl::unexpected(v.error());
  patients all;
  std::vector<std::pair<const json::value*, std::string>> requests;
  const auto take = [&](const json::value& resource, const std::string& where,
                        const std::string& url) {
    const std::string type = text_at(&resource, {"resourceType"});
    if (type == "ServiceRequest") requests.emplace_back(&resource, where);
    if (type != "Patient") return;
    all[url] = &resource;
    all["Patient/" + text_at(&resource, {"id"})] = &resource;
  };
  take(*v, "", "");
  if (const json::value* entries = v->find("entry"); entries != nullptr && entries->items())
    for (std::size_t i = 0; i < entries->items()->size(); ++i) {
      const json::value& entry = (*entries->items())[i];
      const json::value* resource = entry.find("resource");
      if (resource != nullptr)
        take(*resource, fmt::format("entry[{}].resource", i), text_at(&entry, {"fullUrl"}));
    }
  if (requests.empty() || requests.size() > most_requests)
    return tl::unexpected(no_request("", fmt::format("{} ServiceRequests", requests.size()),
                                     "a ServiceRequest, or a Bundle of them"));
  std::vector<requested> out;
  std::set<std::string> kits;
  for (const auto& [resource, where] : requests) {
    auto one = request_of(*resource, all, where);
    if (!one) return tl::unexpected(one.error());
    if (const auto no = no_to(*one, kits, where)) return tl::unexpected(*no);
    out.push_back(std::move(*one));
  }
  return out;
}

} // namespace qb::inline receiving
