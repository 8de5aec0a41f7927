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

void put_place(const std::optional<measured_at>& m, json::writer& out) {
  put_number(m ? std::optional(m->minute) : std::nullopt, out.key("minute"));
  put_number(m ? std::optional(m->value) : std::nullopt, out.key("value"));
  if (const char* is = m ? told_text(m->is) : nullptr; is != nullptr) out.key("value_is").text(is);
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

// One change that turns the answer, with its place where it has one.
void put_turn(const turn& t, json::writer& out) {
  out.open_object();
  out.key("by").text(change_text(t.by));
  out.key("answer").text(answer_text(t.to));
  if (t.minute) out.key("minute").digits(t.minute->text());
  if (t.tube) out.key("tube").integer(*t.tube);
  out.close_object();
}

void put_firmness(const firmness& f, json::writer& out) {
  out.open_object();
  out.key("tried").open_list();
  for (const change one : f.tried)
    out.text(change_text(one));
  out.close_list();
  out.key("turned_by").open_list();
  for (const turn& t : f.turns)
    put_turn(t, out);
  out.close_list();
  put_others(f.others, out.key("others"));
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
  j.corrected ? out.key("corrected").boolean(*j.corrected) : out.key("corrected").null();
  out.key("undeciding_min").open_list();
  for (const exact& minute : j.undeciding)
    out.digits(minute.text());
  out.close_list();
  out.key("criteria").open_list();
  for (const judged_criterion& c : j.criteria)
    put_criterion(c, with_sources, out);
  out.close_list();
  out.key("not_judged").open_list();
  for (const unjudged_gas& u : j.unjudged) {
    out.open_object();
    out.key("gas").text(u.gas);
    out.key("reason").text(u.why);
    out.close_object();
  }
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
