// Written straight into the line: by the million, a tree for each would cost more than the judging.
#include "app/lab/render/judge_json.hpp"

#include "core/base/json.hpp"

#include <algorithm>
#include <fmt/compile.h>
#include <fmt/format.h>
#include <iterator>

namespace qb::lab {

namespace {

// A JSON string. Nearly all texts here are plain, and then it is only put between quotes.
std::string quoted(const std::string& text) {
  const bool plain = std::all_of(text.begin(), text.end(), [](char c) {
    return c >= ' ' && c <= '~' && c != '"' && c != '\\';
  });
  return plain ? "\"" + text + "\"" : json::canonical(json::value(text));
}

std::string number_or_null(const std::optional<exact>& n) {
  return n ? n->text() : "null";
}

std::string number_or_null(const std::optional<double>& n) {
  return n ? fmt::format("{}", *n) : "null";
}

// "minute":90,"value":20
std::string place_of(const std::optional<measured_at>& m) {
  if (!m) return R"("minute":null,"value":null)";
  return fmt::format(R"("minute":{},"value":{})", m->minute.text(), m->value.text());
}

std::string minutes_of(const std::vector<exact>& all) {
  std::string out;
  for (const exact& m : all)
    out += (out.empty() ? "" : ",") + m.text();
  return out;
}

std::string minutes_of(const std::vector<std::chrono::minutes>& all) {
  std::string out;
  for (const std::chrono::minutes m : all)
    out += (out.empty() ? "" : ",") + fmt::format("{}", m.count());
  return out;
}

std::string answer_or_null(const std::optional<answer>& a) {
  return a ? fmt::format("\"{}\"", answer_text(*a)) : std::string("null");
}

// Only where there is something to try: most curves have neither low air nor second readings.
void append_by_readings(const firmness& f, std::string& out) {
  if (f.uncorrected) out += R"(,"uncorrected":)" + answer_or_null(f.uncorrected);
  if (f.without_low_co2) out += R"(,"without_low_co2":)" + answer_or_null(f.without_low_co2);
  if (f.other_readings.empty()) return;
  out += R"(,"other_readings":[)";
  for (const answer_by_reading& o : f.other_readings)
    out += fmt::format(R"({}{{"tube":{},"answer":"{}"}})",
                       &o == &f.other_readings.front() ? "" : ",", o.tube, answer_text(o.says));
  out += "]";
}

void append_firmness(const firmness& f, std::string& out) {
  fmt::format_to(
      std::back_inserter(out),
      FMT_COMPILE(
          R"("firm":{},"firmness":{{"strict":"{}","nominal_times":"{}","lowest_earlier":{},)"
          R"("readings_noise":{},"without_one_sample":"{}","needs_min":[{}],)"
          R"("earlier_gaps_min":[{}],"others":[)"),
      f.firm, answer_text(f.strict.what), answer_text(f.nominal_times),
      answer_or_null(f.lowest_earlier), answer_or_null(f.readings_noise),
      answer_text(f.without_one_sample), minutes_of(f.needs), minutes_of(f.earlier_gaps));
  const char* comma = "";
  for (const other_verdict& o : f.others) {
    fmt::format_to(std::back_inserter(out),
                   FMT_COMPILE(R"({}{{"id":"{}","published_for":{},"answer":"{}",{}}})"), comma,
                   o.by->id, quoted(o.by->published_for), answer_text(o.says.what),
                   place_of(o.says.deciding()));
    comma = ",";
  }
  out += "]";
  if (f.within_precision)
    fmt::format_to(std::back_inserter(out), FMT_COMPILE(R"(,"within_precision":"{}")"),
                   answer_text(*f.within_precision));
  append_by_readings(f, out);
  out += "}";
}

void append_criterion(const judged_criterion& c, bool with_sources, std::string& out) {
  const criterion_verdict& v = c.says;
  fmt::format_to(std::back_inserter(out),
                 FMT_COMPILE(R"({{"id":"{}","answer":"{}",{},"reason":{},)"), c.by->id,
                 answer_text(v.what), place_of(v.deciding()), quoted(c.reason));
  out += v.greatest ? fmt::format(R"("greatest":{{{}}},)", place_of(v.greatest))
                    : std::string(R"("greatest":null,)");
  fmt::format_to(std::back_inserter(out), FMT_COMPILE(R"("strict":{{"answer":"{}",{}}},)"),
                 answer_text(c.how_firm.strict.what), place_of(c.how_firm.strict.deciding()));
  append_firmness(c.how_firm, out);
  if (c.low_co2) out += fmt::format(R"(,"deciding_low_co2_pct":{})", c.low_co2->text());
  if (with_sources)
    fmt::format_to(std::back_inserter(out), FMT_COMPILE(R"(,"published_for":{},"source":{})"),
                   quoted(c.by->published_for), quoted(citation_of(*c.by)));
  out += "}";
}

void append_area(const char* gas, const curve_area& a, std::string& out) {
  fmt::format_to(std::back_inserter(out), FMT_COMPILE(R"("{}":{{"total":{},"above_baseline":{}}})"),
                 gas, number_or_null(a.total), number_or_null(a.above_baseline));
}

} // namespace

void append_judgement(const judgement& j, const std::string& test, bool with_sources,
                      std::string& out) {
  fmt::format_to(std::back_inserter(out),
                 FMT_COMPILE(R"("test":{},"window_slack_min":{},"criteria":[)"), quoted(test),
                 j.slack.text());
  for (std::size_t i = 0; i < j.criteria.size(); ++i) {
    if (i > 0) out += ",";
    append_criterion(j.criteria[i], with_sources, out);
  }
  out += R"(],"flags":[)";
  const char* comma = "";
  for (const flag& f : j.flags) {
    fmt::format_to(std::back_inserter(out),
                   FMT_COMPILE(R"({}{{"id":"{}","minute":{},"value":{},"reason":{}}})"), comma,
                   f.id, number_or_null(f.minute), number_or_null(f.value), quoted(f.reason));
    comma = ",";
  }
  out += R"(],"areas":{)";
  append_area("h2", j.h2, out);
  out += ",";
  append_area("ch4", j.ch4, out);
  out += "}";
}

} // namespace qb::lab
