// How each kind of draft is written as text and read again, one below the other.
#include "app/patient/shell/draft_rows.hpp"

#include "app/patient/shell/draft_fields.hpp"

#include <array>
#include <charconv>

namespace qb::inline shells {

namespace {

// Text that is empty is no row.
using text = std::string;

text written(const text& t) {
  return t;
}
void read(const text& row, text& t) {
  t = row;
}

// An empty line is not kept: it is filled in anew after a kill.
text written(const std::optional<text>& t) {
  return t.value_or("");
}
void read(const text& row, std::optional<text>& t) {
  t = row;
}

constexpr const char* yes = "yes";

text written(bool b) {
  return b ? yes : "";
}
// Whatever stands there says yes: an earlier version wrote "again" of a medicine.
void read(const text&, bool& b) {
  b = true;
}

text written(const std::optional<bool>& b) {
  return b && *b ? yes : "";
}
void read(const text& row, std::optional<bool>& b) {
  if (row == yes) b = true;
}

// The whole number that a text is, and no other.
template <typename Number>
std::optional<Number> number_in(const text& row) {
  Number n{};
  const auto [end, error] = std::from_chars(row.data(), row.data() + row.size(), n);
  const bool whole = error == std::errc{} && end == row.data() + row.size();
  return whole ? std::optional<Number>(n) : std::nullopt;
}

text written(const std::optional<int>& minute) {
  return minute ? std::to_string(*minute) : "";
}
void read(const text& row, std::optional<int>& minute) {
  constexpr int minutes_in_day = 24 * 60;
  const auto n = number_in<int>(row);
  if (n && *n >= 0 && *n <= minutes_in_day) minute = n;
}

text written(const std::optional<civil_date>& day) {
  return day ? date_text(*day) : "";
}
void read(const text& row, std::optional<civil_date>& day) {
  if (const auto read_day = parse_date(row)) day = *read_day;
}

text written(const std::optional<instant>& at) {
  return at ? std::to_string(to_unix_ms(*at)) : "";
}
void read(const text& row, std::optional<instant>& at) {
  if (const auto ms = number_in<std::int64_t>(row)) at = from_unix_ms(*ms);
}

// Values of a list by their words; the first of a list says nothing and is no row.
template <typename Value>
using by_words = std::pair<Value, const char*>;

constexpr std::array folds{by_words<fold>{fold::unasked, ""}, by_words<fold>{fold::first, "first"},
                           by_words<fold>{fold::second, "second"}};
constexpr std::array ends{by_words<medicine_end>{medicine_end::unsaid, ""},
                          by_words<medicine_end>{medicine_end::no_longer, "no-longer"},
                          by_words<medicine_end>{medicine_end::until_a_day, "until"}};

template <typename Value, std::size_t N>
text words_in(const std::array<by_words<Value>, N>& list, Value v) {
  for (const auto& [value, words] : list) {
    if (value == v) return words;
  }
  return "";
}
template <typename Value, std::size_t N>
void find_in(const std::array<by_words<Value>, N>& list, const text& row, Value& v) {
  for (const auto& [value, words] : list) {
    if (row == words) v = value;
  }
}

text written(fold which) {
  return words_in(folds, which);
}
void read(const text& row, fold& which) {
  find_in(folds, row, which);
}

text written(medicine_end e) {
  return words_in(ends, e);
}
void read(const text& row, medicine_end& e) {
  find_in(ends, row, e);
}

text written(asked_outcome o) {
  return o == asked_outcome::not_asked ? "" : key_of(o);
}
void read(const text& row, asked_outcome& o) {
  for (const asked_outcome one : {asked_outcome::go_on, asked_outcome::not_this_test}) {
    if (row == key_of(one)) o = one;
  }
}

text written(const std::optional<answerer>& who) {
  return who ? key_of(*who) : "";
}
void read(const text& row, std::optional<answerer>& who) {
  for (const answerer one : {answerer::person, answerer::parent, answerer::carer}) {
    if (row == key_of(one)) who = one;
  }
}

text written(const std::optional<adviser>& who) {
  return who ? adviser_key(*who) : "";
}
void read(const text& row, std::optional<adviser>& who) {
  for (const adviser one : all_advisers) {
    if (row == adviser_key(one)) who = one;
  }
}

// "any", "none", or the figures of weekdays; all of them, as it is at first, are no row.
text written(const home_days& days) {
  if (days.any) return "any";
  if (days == home_days{}) return "";
  if (days.weekdays.empty()) return "none";
  text out;
  for (const int day : days.weekdays)
    out += std::to_string(day);
  return out;
}
void read(const text& row, home_days& days) {
  if (row == "any") {
    days.any = true;
    return;
  }
  std::set<int> named;
  for (const char day : row) {
    if (day >= '1' && day <= '7') named.insert(day - '0');
  }
  if (row == "none" || !named.empty()) days.weekdays = std::move(named);
}

constexpr const char* left_out = "skip";
constexpr const char* comment_name = "comment";

class writer {
public:
  explicit writer(draft_rows& rows) : rows_(rows) {}

  template <typename Field>
  void one(const text& key, const Field& field) {
    if (text row = written(field); !row.empty()) rows_[key] = std::move(row);
  }
  template <typename Entry, typename Field>
  void by_rule(const text& prefix, const std::map<text, Entry>& all, Field Entry::*field) {
    for (const auto& [rule, entry] : all)
      one(prefix + rule, entry.*field);
  }
  void names(const text& prefix, const std::set<text>& all) {
    for (const text& name : all)
      one(prefix + name, true);
  }
  void samples(const text& prefix, const std::map<sample_number, sample_draft>& all) {
    for (const auto& [n, draft] : all)
      told(prefix + std::to_string(n.value()) + ".", draft);
  }
  void told(const text& prefix, const sample_draft& draft) {
    for (const auto& [symptom, score] : draft.scores)
      one(prefix + symptom, score ? std::to_string(*score) : text(left_out));
    one(prefix + comment_name, draft.comment);
  }

private:
  draft_rows& rows_;
};

class reader {
public:
  explicit reader(const draft_rows& rows) : rows_(rows) {}

  template <typename Field>
  void one(const text& key, Field& field) {
    const auto row = rows_.find(key);
    if (row != rows_.end() && !row->second.empty()) read(row->second, field);
  }
  template <typename Entry, typename Field>
  void by_rule(const text& prefix, std::map<text, Entry>& all, Field Entry::*field) {
    each_below(prefix, [&](const text& rule, const text& row) { read(row, all[rule].*field); });
  }
  void names(const text& prefix, std::set<text>& all) {
    each_below(prefix, [&](const text& name, const text& row) {
      if (row == yes) all.insert(name);
    });
  }
  void samples(const text& prefix, std::map<sample_number, sample_draft>& all) {
    each_below(prefix, [&](const text& name, const text& row) {
      const auto point = name.find('.');
      const auto n = number_in<int>(name.substr(0, point));
      if (point == text::npos || !n || !sample_number::in_range(*n)) return;
      read_told(name.substr(point + 1), row, all[sample_number(*n)]);
    });
  }
  void told(const text& prefix, sample_draft& draft) {
    each_below(prefix, [&](const text& name, const text& row) { read_told(name, row, draft); });
  }

private:
  static void read_told(const text& name, const text& row, sample_draft& told) {
    if (name == comment_name) {
      told.comment = row;
    } else if (row == left_out) {
      told.scores[name] = std::nullopt;
    } else if (const auto score = number_in<int>(row)) {
      told.scores[name] = score;
    }
  }
  // The rows whose keys begin with that prefix, by what follows it.
  template <typename Take>
  void each_below(const text& prefix, const Take& take) const {
    for (auto at = rows_.lower_bound(prefix); at != rows_.end(); ++at) {
      if (at->first.rfind(prefix, 0) != 0) return;
      if (!at->second.empty()) take(at->first.substr(prefix.size()), at->second);
    }
  }

  const draft_rows& rows_;
};

} // namespace

draft_rows rows_of(const all_drafts& drafts) {
  draft_rows out;
  writer into(out);
  each_draft(into, drafts);
  return out;
}

all_drafts drafts_of(const draft_rows& rows) {
  all_drafts out;
  reader from(rows);
  each_draft(from, out);
  return out;
}

} // namespace qb::inline shells
