// The case as a reader saw it, and each thing that is other now.
#include "core/case/conclusion_basis.hpp"

#include "core/base/json.hpp"
#include "core/base/json_fields.hpp"

#include <algorithm>
#include <cstdlib>
#include <fmt/core.h>
#include <map>

namespace qb::inline cases {

namespace {

using texts = std::vector<std::string>;

constexpr std::int64_t most_entries = 1'000'000;
constexpr std::size_t most_listed = 2000;

std::string moment_words(const std::optional<instant>& t) {
  if (!t) return "";
  std::string text = rfc3339_utc(*t).substr(0, std::string("2027-04-12T10:00").size());
  std::replace(text.begin(), text.end(), 'T', ' ');
  return " (" + text + " UTC)";
}

std::string tube_words(const std::vector<int>& tubes) {
  std::string out;
  for (const int n : tubes)
    out += fmt::format("{}{}", out.empty() ? "" : ", ", n);
  return fmt::format("tube{} {}", tubes.size() == 1 ? "" : "s", out);
}

std::string record_of(const test_case& c) {
  if (c.log) return fmt::format("log {} {}", c.log->events, c.log->head);
  if (!c.code) return "paper";
  std::string head;
  for (const char one : c.code->head_tail)
    head += fmt::format("{:02x}", static_cast<unsigned char>(one));
  return fmt::format("code {} {}", c.code->events, head);
}

texts finding_keys(const test_case& c) {
  texts out;
  for (const case_finding& f : c.findings)
    out.push_back(fmt::format("{} {} {}", f.what.rule, f.what.sample ? f.what.sample->value() : 0,
                              consequence_text(f.weight)));
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

// "lid-bad of tubes 4, 7 (review)" of "lid-bad 4 review" and "lid-bad 7 review": one text a rule
// and weight, so that ten tubes are not ten lines.
texts finding_words(const texts& keys) {
  std::map<std::string, std::vector<int>> tubes; // by rule and weight
  for (const std::string& key : keys) {
    const std::size_t rule = key.find(' ');
    const std::size_t tube = key.find(' ', rule + 1);
    auto& all = tubes[key.substr(0, rule) + " (" + key.substr(tube + 1) + ")"];
    const int number = std::atoi(key.c_str() + rule);
    if (number != 0) all.push_back(number);
  }
  texts out;
  for (auto& [what, numbers] : tubes) {
    std::sort(numbers.begin(), numbers.end());
    out.push_back(what + (numbers.empty() ? "" : " of " + tube_words(numbers)));
  }
  return out;
}

// Those of `a` that `b` has not; both are sorted.
texts missing_in(const texts& b, const texts& a) {
  texts out;
  std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(out));
  return out;
}

void add_findings(const conclusion_basis& then, const conclusion_basis& now, texts& out) {
  for (const std::string& one : finding_words(missing_in(then.findings, now.findings)))
    out.push_back("found now: " + one);
  for (const std::string& one : finding_words(missing_in(now.findings, then.findings)))
    out.push_back("not found any more: " + one);
}

void add_answers(const conclusion_basis& then, const conclusion_basis& now, texts& out) {
  for (const std::string& one : missing_in(then.answers, now.answers))
    out.push_back("the answer now: " + one);
  for (const std::string& one : missing_in(now.answers, then.answers))
    out.push_back("the answer was: " + one);
}

// The entries of a list beyond those that were seen; of a conclusion without a seen case, those of
// a later moment.
template <typename T, typename When>
std::vector<const T*> later_of(const std::vector<T>& all, std::optional<std::size_t> seen,
                               instant concluded, When when) {
  std::vector<const T*> out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::optional<instant> at = when(all[i]);
    const bool is_later = seen ? i >= *seen : at && *at > concluded;
    if (is_later) out.push_back(&all[i]);
  }
  return out;
}

// What was told last of a list's new entries.
template <typename T, typename When>
std::string last_moment(const std::vector<const T*>& later, When when) {
  return moment_words(when(*later.back()));
}

// Receiving's lists, one after the other.
class since_reader {
public:
  since_reader(const received_kit& received, const std::optional<conclusion_basis>& then)
      : received_(received), then_(then), concluded_(received.conclusions.back().at) {}

  texts read() {
    boxes();
    sheets();
    readings();
    choices();
    overrides();
    return std::move(out_);
  }

private:
  [[nodiscard]] std::optional<std::size_t> seen(std::size_t conclusion_basis::*list) const {
    return then_ ? std::optional((*then_).*list) : std::nullopt;
  }

  void boxes() {
    const auto when = [](const arrival& a) { return a.entered; };
    const auto later =
        later_of(received_.arrivals, seen(&conclusion_basis::boxes), concluded_, when);
    if (!later.empty()) out_.push_back("the box was told again" + last_moment(later, when));
  }
  void sheets() {
    const auto when = [](const paper_record& p) { return std::optional(p.entered); };
    const auto later =
        later_of(received_.papers, seen(&conclusion_basis::sheets), concluded_, when);
    if (!later.empty()) out_.push_back("a paper sheet was entered" + last_moment(later, when));
  }
  void readings() {
    const auto when = [](const gas_reading& r) { return r.taken_in; };
    const auto later =
        later_of(received_.readings, seen(&conclusion_basis::readings), concluded_, when);
    if (later.empty()) return;
    std::vector<int> tubes;
    for (const gas_reading* r : later)
      tubes.push_back(r->sample);
    std::sort(tubes.begin(), tubes.end());
    tubes.erase(std::unique(tubes.begin(), tubes.end()), tubes.end());
    out_.push_back(fmt::format("{} reading{} of {}{}", later.size(), later.size() == 1 ? "" : "s",
                               tube_words(tubes), last_moment(later, when)));
  }
  void choices() {
    const auto when = [](const reading_choice& c) { return std::optional(c.at); };
    for (const auto* c :
         later_of(received_.choices, seen(&conclusion_basis::choices), concluded_, when))
      out_.push_back(fmt::format("{} chose between the readings of tube {}{}", c->by, c->sample,
                                 moment_words(c->at)));
  }
  void overrides() {
    const auto when = [](const override_of& o) { return std::optional(o.at); };
    for (const auto* o :
         later_of(received_.overrides, seen(&conclusion_basis::overrides), concluded_, when))
      out_.push_back(fmt::format(
          "{} {} {}{}{}", o->by, o->withdrawn ? "let stand again" : "set aside", o->rule,
          o->sample ? fmt::format(" of tube {}", *o->sample) : "", moment_words(o->at)));
  }

  const received_kit& received_;
  const std::optional<conclusion_basis>& then_;
  instant concluded_;
  texts out_;
};

// "log" of "log 57 ab12…".
std::string first_word(const std::string& text) {
  return text.substr(0, text.find(' '));
}

std::string record_words(const conclusion_basis& then, const conclusion_basis& now) {
  if (first_word(then.record) != first_word(now.record))
    return fmt::format("the record is of another kind: {} now, {} then", first_word(now.record),
                       first_word(then.record));
  return fmt::format("another version of the {} came", first_word(now.record));
}

} // namespace

conclusion_basis basis_in(const test_case& c, const received_kit& received) {
  conclusion_basis out;
  out.boxes = received.arrivals.size();
  out.sheets = received.papers.size();
  out.readings = received.readings.size();
  out.choices = received.choices.size();
  out.overrides = received.overrides.size();
  out.rulings = received.rulings;
  out.record = record_of(c);
  out.findings = finding_keys(c);
  if (!is_judged(c)) out.answers.emplace_back("not judged");
  for (const judged_criterion& j : c.judged.criteria) {
    if (is_judged(c)) out.answers.push_back(j.by->id + " " + answer_text(j.says.what));
  }
  std::sort(out.answers.begin(), out.answers.end());
  return out;
}

std::string basis_text(const conclusion_basis& s) {
  const auto count = [](std::size_t n) { return json::value(static_cast<std::int64_t>(n)); };
  return json::canonical(json::object{{"boxes", count(s.boxes)},
                                      {"sheets", count(s.sheets)},
                                      {"readings", count(s.readings)},
                                      {"choices", count(s.choices)},
                                      {"overrides", count(s.overrides)},
                                      {"rulings", count(s.rulings)},
                                      {"record", s.record},
                                      {"findings", json::list_of(s.findings)},
                                      {"answers", json::list_of(s.answers)}});
}

std::optional<conclusion_basis> read_basis(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return std::nullopt;
  json::fields f(*parsed, "");
  const auto count = [&](const char* key) {
    return static_cast<std::size_t>(f.integer(key, 0, most_entries));
  };
  conclusion_basis out;
  out.boxes = count("boxes");
  out.sheets = count("sheets");
  out.readings = count("readings");
  out.choices = count("choices");
  out.overrides = count("overrides");
  if (f.has("rulings")) out.rulings = count("rulings");
  out.record = f.text("record");
  out.findings = f.texts("findings", 0, most_listed);
  out.answers = f.texts("answers", 0, most_listed);
  return f.finish() ? std::nullopt : std::optional(std::move(out));
}

std::vector<std::string> came_since(const test_case& c, const received_kit& received) {
  if (received.conclusions.empty()) return {};
  const std::optional<conclusion_basis> then = read_basis(received.conclusions.back().seen);
  texts out = since_reader(received, then).read();
  if (!then) return out;
  const conclusion_basis now = basis_in(c, received);
  if (then->rulings != now.rulings)
    out.emplace_back("a named person took something back, moved it, or said whose it is");
  if (then->record != now.record) out.insert(out.begin(), record_words(*then, now));
  add_findings(*then, now, out);
  add_answers(*then, now, out);
  return out;
}

} // namespace qb::inline cases
