// The options, each by its first character or by its name.
#include "app/lab/intake/box_options.hpp"

#include "core/base/json_fields.hpp"
#include "core/receiving/typed_place.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal no_word(const std::string& found, std::string expected) {
  // A typed word may be a name by mistake, so only its shape is told.
  const bool plain = std::all_of(found.begin(), found.end(), [](char c) {
    return (c >= '0' && c <= '9') || c == '-' || c == ':' || c == '@' || c == '!' || c == '+';
  });
  return {refusal_kind::malformed, "", "box", plain ? "\"" + found + "\"" : "another word",
          std::move(expected)};
}

std::optional<int> tube_number(std::string_view digits) {
  constexpr std::size_t most = 2;
  if (digits.empty() || digits.size() > most) return std::nullopt;
  int n = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    n = n * 10 + (c - '0');
  }
  return n >= 1 ? std::optional(n) : std::nullopt;
}

// One reader a line: it may take a word's value from the words that follow.
class box_reader {
public:
  box_reader(std::vector<std::string> words, const tube_codes& codes)
      : words_(std::move(words)), codes_(codes) {}

  result<box_options> read() {
    std::size_t begun = 0;
    while (at_ < words_.size() && !no_) {
      begun = ++at_;
      one(words_[begun - 1]);
    }
    if (no_) {
      no_->where = fmt::format("box, word {}", begun);
      return tl::unexpected(*no_);
    }
    return std::move(out_);
  }

private:
  void one(const std::string& word) {
    if (codes_.count(word) != 0 || read_tube_label(word)) return out_.codes.push_back(word);
    if (number_word(word) || label_word(word) || plain_word(word) || value_word(word)) return;
    const bool test = word.find('-') != word.npos && word.front() >= 'a' && word.front() <= 'z';
    if (test) {
      out_.protocol = word;
    } else {
      no_ = no_word(word, "y or n, -TUBE, !TUBE, +TUBE, TUBE@HH:MM, a test, arrived, posted, "
                          "tested, whole, partial, stopped, lot, expires, stored");
    }
  }

  bool number_word(const std::string& word) {
    const auto n = tube_number(std::string_view(word).substr(1));
    if (!n) return false;
    switch (word.front()) {
    case '-': out_.missing.push_back(*n); return true;
    case '!': out_.bad_lids.push_back(*n); return true;
    case '+': out_.more.push_back(*n); return true;
    default: return false;
    }
  }

  bool label_word(const std::string& word) {
    const std::size_t mark = word.find('@');
    if (mark == word.npos) return false;
    const auto n = tube_number(std::string_view(word).substr(0, mark));
    const auto time = read_day_minute(std::string_view(word).substr(mark + 1));
    if (n && time) {
      out_.labels.emplace_back(*n, *time);
    } else {
      no_ = no_word(word, "TUBE@HH:MM");
    }
    return true;
  }

  bool plain_word(const std::string& word) {
    if (word == "y" || word == "n") {
      out_.identifiers = word == "y" ? stated::yes : stated::no;
    } else if (word == "whole" || word == "partial") {
      out_.completed = word == "whole" ? stated::yes : stated::no;
    } else if (word == "stopped") {
      out_.stopped = stated::yes;
    } else {
      return false;
    }
    return true;
  }

  bool value_word(const std::string& word) {
    if (word == "arrived") {
      std::string moment = next();
      if (moment.find_first_of(" T") == moment.npos) moment += " " + next();
      out_.arrived = moment;
      return true;
    }
    if (word == "lot") {
      out_.supply.lot = next();
      if (out_.supply.lot.empty() || out_.supply.lot.size() > most_lot ||
          !json::is_plain_line(out_.supply.lot))
        no_ = no_word("", "lot and what stands on the box, without blanks");
      return true;
    }
    if (word == "stored") {
      out_.stored = next();
      if (!is_storage(out_.stored)) no_ = no_word("", "stored room, cool, warm or frozen");
      return true;
    }
    return date_word(word);
  }

  bool date_word(const std::string& word) {
    std::optional<civil_date>* into = word == "posted"    ? &out_.posted
                                      : word == "tested"  ? &out_.tested
                                      : word == "expires" ? &out_.supply.expires
                                                          : nullptr;
    if (into == nullptr) return false;
    const auto date = parse_date(next());
    if (!date)
      no_ = no_word("", word + " YYYY-MM-DD");
    else
      *into = *date;
    return true;
  }

  std::string next() { return at_ < words_.size() ? words_[at_++] : std::string(); }

  std::vector<std::string> words_;
  const tube_codes& codes_;
  std::size_t at_{0};
  box_options out_;
  std::optional<refusal> no_;
};

} // namespace

std::vector<std::string> words_of(const std::string& line) {
  const std::vector<std::string_view> words = typed_words(line, typed_blanks);
  return {words.begin(), words.end()};
}

bool tells_tubes(const box_options& w) {
  return !w.missing.empty() || !w.bad_lids.empty() || !w.more.empty() || !w.labels.empty() ||
         !w.codes.empty();
}

result<box_options> read_box_options(const std::string& line, const tube_codes& codes) {
  return box_reader(words_of(line), codes).read();
}

result<std::vector<received_tube>>
stated_tubes(const box_options& w, std::size_t samples,
             const std::vector<std::optional<day_minute>>& blown) {
  std::vector<received_tube> out;
  const auto has = [](const std::vector<int>& list, int n) {
    return std::find(list.begin(), list.end(), n) != list.end();
  };
  for (std::size_t i = 0; i < samples; ++i) {
    const int n = static_cast<int>(i) + 1;
    const bool expected = i >= blown.size() || blown[i].has_value();
    received_tube t;
    t.sample = n;
    t.present = expected && !has(w.missing, n);
    out.push_back(t);
  }
  for (const int n : w.more) {
    received_tube t;
    t.sample = n;
    // A tube that was thought to be absent is here; else there are two of its number.
    const auto absent = std::find_if(out.begin(), out.end(), [&](const received_tube& x) {
      return x.sample == n && !x.present && !has(w.missing, n);
    });
    if (absent != out.end()) {
      absent->present = true;
    } else {
      out.push_back(t);
    }
  }
  const auto in_box = [&](int n) {
    return std::find_if(out.begin(), out.end(),
                        [&](const received_tube& t) { return t.sample == n && t.present; });
  };
  for (const int n : w.missing)
    if (n > static_cast<int>(samples))
      return tl::unexpected(
          no_word(fmt::format("-{}", n), fmt::format("a tube up to {}", samples)));
  for (const int n : w.bad_lids) {
    const auto t = in_box(n);
    if (t == out.end())
      return tl::unexpected(no_word(fmt::format("!{}", n), "the lid of a tube that is here"));
    t->lid = lid_state::bad;
  }
  for (const auto& [n, label] : w.labels) {
    const auto t = in_box(n);
    if (t == out.end())
      return tl::unexpected(no_word(fmt::format("{}@", n), "the label of a tube that is here"));
    t->label = label;
  }
  return out;
}

namespace {

std::optional<paper_drink> read_drink(std::string_view word) {
  paper_drink out;
  if (word == "?") return out;
  const std::size_t mark = word.find('-');
  out.start = read_day_minute(word.substr(0, mark));
  if (!out.start) return std::nullopt;
  if (mark == word.npos) return out;
  out.end = read_day_minute(word.substr(mark + 1));
  return out.end ? std::optional(out) : std::nullopt;
}

// One line: the day, then sections, each with what is typed after its word.
class sheet_reader {
public:
  explicit sheet_reader(std::string_view line)
      : line_(line), words_(typed_words(line, typed_blanks)) {}

  result<sheet_options> read() {
    std::size_t at = 0;
    if (at < words_.size() && parse_date(std::string(words_[at]))) out_.day = words_[at++];
    while (at < words_.size() && !no_) {
      const std::string_view word = words_[at++];
      if (word == "drink")
        drink(at < words_.size() ? words_[at++] : line_.substr(line_.size()));
      else
        at = section(word, at);
    }
    if (no_) return tl::unexpected(*no_);
    return std::move(out_);
  }

private:
  void refuse(const char* part, std::string_view word, std::string found, std::string expected) {
    no_ = refusal{refusal_kind::malformed, "", typed_place(part, line_, word), std::move(found),
                  std::move(expected)};
  }

  void drink(std::string_view word) {
    const auto read = read_drink(word);
    if (!read)
      return refuse("drink", word, "no time of the drink",
                    "drink START, drink START-END, or drink ? where it is unknown");
    out_.drink = *read;
    after_drink_ = true;
  }

  // Times, or scores after their word, up to the next section; answers where that begins.
  std::size_t section(std::string_view word, std::size_t at) {
    const bool scores = word == "scores";
    if (!scores && (after_drink_ || !out_.scores.empty())) {
      refuse("sheet", word, "a word after the drink",
             "nothing more, or scores and a group for each tube");
      return at;
    }
    std::string& into = scores ? out_.scores : out_.times;
    if (!into.empty()) {
      refuse("sheet", word, "scores told twice", "one group for each tube, once");
      return at;
    }
    const std::size_t first = scores ? at : at - 1;
    while (at < words_.size() && words_[at] != "drink" && words_[at] != "scores")
      ++at;
    if (first == at) return at;
    const auto begin = static_cast<std::size_t>(words_[first].data() - line_.data());
    const std::string_view last = words_[at - 1];
    const auto end = static_cast<std::size_t>(last.data() + last.size() - line_.data());
    into = std::string(line_.substr(0, end));
    std::fill(into.begin(), into.begin() + static_cast<std::ptrdiff_t>(begin), ' ');
    return at;
  }

  std::string_view line_;
  std::vector<std::string_view> words_;
  sheet_options out_;
  bool after_drink_{false};
  std::optional<refusal> no_;
};

} // namespace

result<sheet_options> read_sheet_options(const std::string& line) {
  return sheet_reader(line).read();
}

} // namespace qb::lab
