// Put piece by piece: by the million, a tree for each would cost more than the judging.
#include "app/lab/render/judge_json.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

void put_number(const std::optional<exact>& n, json::writer& out) {
  n ? out.digits(n->text()) : out.null();
}

// An area is no edge, so it may be rounded.
void put_area(const std::optional<double>& n, json::writer& out) {
  n ? out.digits(fmt::format("{}", *n)) : out.null();
}

void put_answer(const std::optional<answer>& a, json::writer& out) {
  a ? out.text(answer_text(*a)) : out.null();
}

void put_place(const std::optional<measured_at>& m, json::writer& out) {
  put_number(m ? std::optional(m->minute) : std::nullopt, out.key("minute"));
  put_number(m ? std::optional(m->value) : std::nullopt, out.key("value"));
}

void put_minutes(const std::vector<exact>& all, json::writer& out) {
  out.open_list();
  for (const exact& m : all)
    out.digits(m.text());
  out.close_list();
}

void put_minutes(const std::vector<std::chrono::minutes>& all, json::writer& out) {
  out.open_list();
  for (const std::chrono::minutes m : all)
    out.integer(m.count());
  out.close_list();
}

void put_others(const std::vector<other_verdict>& all, json::writer& out) {
  out.open_list();
  for (const other_verdict& o : all) {
    out.open_object();
    out.key("id").text(o.by->id);
    out.key("published_for").text(o.by->published_for);
    out.key("answer").text(answer_text(o.says.what));
    put_place(o.says.deciding(), out);
    out.close_object();
  }
  out.close_list();
}

// Only where there is something to try: most curves have neither low air nor second readings.
void put_by_readings(const firmness& f, json::writer& out) {
  if (f.uncorrected) put_answer(f.uncorrected, out.key("uncorrected"));
  if (f.without_low_co2) put_answer(f.without_low_co2, out.key("without_low_co2"));
  if (f.other_readings.empty()) return;
  out.key("other_readings").open_list();
  for (const answer_by_reading& o : f.other_readings) {
    out.open_object();
    out.key("tube").integer(o.tube);
    out.key("answer").text(answer_text(o.says));
    out.close_object();
  }
  out.close_list();
}

void put_firmness(const firmness& f, json::writer& out) {
  out.open_object();
  out.key("strict").text(answer_text(f.strict.what));
  out.key("nominal_times").text(answer_text(f.nominal_times));
  put_answer(f.lowest_earlier, out.key("lowest_earlier"));
  put_answer(f.readings_noise, out.key("readings_noise"));
  out.key("without_one_sample").text(answer_text(f.without_one_sample));
  put_minutes(f.needs, out.key("needs_min"));
  put_minutes(f.earlier_gaps, out.key("earlier_gaps_min"));
  put_others(f.others, out.key("others"));
  if (f.within_precision) put_answer(f.within_precision, out.key("within_precision"));
  put_by_readings(f, out);
  out.close_object();
}

void put_greatest(const std::optional<measured_at>& greatest, json::writer& out) {
  if (!greatest) return out.null();
  out.open_object();
  put_place(greatest, out);
  out.close_object();
}

void put_strict(const criterion_verdict& strict, json::writer& out) {
  out.open_object();
  out.key("answer").text(answer_text(strict.what));
  put_place(strict.deciding(), out);
  out.close_object();
}

void put_criterion(const judged_criterion& c, bool with_sources, json::writer& out) {
  out.open_object();
  out.key("id").text(c.by->id);
  out.key("answer").text(answer_text(c.says.what));
  put_place(c.says.deciding(), out);
  out.key("reason").text(c.reason);
  put_greatest(c.says.greatest, out.key("greatest"));
  put_strict(c.how_firm.strict, out.key("strict"));
  out.key("firm").boolean(c.how_firm.firm);
  put_firmness(c.how_firm, out.key("firmness"));
  if (c.low_co2) out.key("deciding_low_co2_pct").digits(c.low_co2->text());
  if (with_sources) {
    out.key("published_for").text(c.by->published_for);
    out.key("source").text(citation_of(*c.by));
  }
  out.close_object();
}

void put_flag(const flag& f, json::writer& out) {
  out.open_object();
  out.key("id").text(f.id);
  put_number(f.minute, out.key("minute"));
  put_number(f.value, out.key("value"));
  out.key("reason").text(f.reason);
  out.close_object();
}

void put_areas(const curve_area& a, json::writer& out) {
  out.open_object();
  put_area(a.total, out.key("total"));
  put_area(a.above_baseline, out.key("above_baseline"));
  out.close_object();
}

} // namespace

void judge_json(const judgement& j, const std::string& test, bool with_sources, json::writer& out) {
  out.key("test").text(test);
  out.key("window_slack_min").digits(j.slack.text());
  out.key("criteria").open_list();
  for (const judged_criterion& c : j.criteria)
    put_criterion(c, with_sources, out);
  out.close_list();
  out.key("flags").open_list();
  for (const flag& f : j.flags)
    put_flag(f, out);
  out.close_list();
  out.key("areas").open_object();
  put_areas(j.h2, out.key("h2"));
  put_areas(j.ch4, out.key("ch4"));
  out.close_object();
}

} // namespace qb::lab
