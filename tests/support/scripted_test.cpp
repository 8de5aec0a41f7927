// The doubles of scripted_test.hpp.
// Compiled once for all test programs that need a session.
#include "tests/support/scripted_test.hpp"
#include "tests/support/repository.hpp"

#include "core/base/json.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <fstream>
#include <map>
#include <sstream>

namespace qb::test {

namespace {

std::string whole(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) fmt::print(stderr, "no file {}\n", path);
  QB_BELIEVE(in.good());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::string canonical_file(const std::string& path) {
  return json::canonical(json::parse(source_file(path)).value());
}

} // namespace

std::string source_file(const std::string& path) {
  return whole(repository() + "/" + path);
}

const std::string& lactulose_text() {
  static const std::string text = canonical_file("assets/protocols/lactulose-10g.json");
  return text;
}
const std::string& scored_after_text() {
  static const std::string text = [] {
    const std::string times = "\"symptom_times\":{";
    std::string out = lactulose_text();
    return out.insert(out.find(times) + times.size(), "\"after_last_min\":15,\"later_min\":240,");
  }();
  return text;
}
const protocol& lactulose() {
  static const protocol p = read_protocol(lactulose_text()).value();
  return p;
}
const protocol& glucose() {
  return shipped("glucose-75g");
}
const std::vector<std::string>& shipped_ids() {
  static const std::vector<std::string> ids{"fructose-25g", "glucose-50g", "glucose-75g",
                                            "lactose-25g", "lactulose-10g"};
  return ids;
}
std::string shipped_file(const std::string& id) {
  static std::map<std::string, std::string> read;
  const auto there = read.find(id);
  if (there != read.end()) return there->second;
  return read.emplace(id, canonical_file("assets/protocols/" + id + ".json")).first->second;
}
const protocol& shipped(const std::string& id) {
  static std::map<std::string, protocol> read;
  const auto there = read.find(id);
  if (there != read.end()) return there->second;
  return read.emplace(id, read_protocol(shipped_file(id)).value()).first->second;
}
const std::string& fenwick_text() {
  // As a laboratory's that is not invented: what is tested here is a real test.
  static const std::string text = [] {
    std::string shipped = canonical_file("assets/laboratories/fenwick-vale.json");
    const std::string mark = "\"for_trying\":true";
    const auto at = shipped.find(mark);
    QB_BELIEVE(at != std::string::npos);
    return shipped.replace(at, mark.size(), "\"for_trying\":false");
  }();
  return text;
}
const lab_profile& fenwick() {
  static const lab_profile p = read_profile(fenwick_text()).value();
  return p;
}

const zone& zone_named(const std::string& name) {
  static std::map<std::string, zone> read;
  const auto there = read.find(name);
  if (there != read.end()) return there->second;
  return read.emplace(name, zone::read(name, whole("/usr/share/zoneinfo/" + name)).value())
      .first->second;
}

instant utc(const std::string& text) {
  return parse_rfc3339_utc(text).value();
}

instant local(const std::string& text, const std::string& zone_name) {
  return std::get<unique_time>(zone_named(zone_name).meaning_of(parse_civil(text).value())).at;
}

clock_reading clock_double::look() const {
  clock_reading r;
  r.wall = wall_;
  if (has_boot_clock) {
    r.boot = boot_time{boot_};
    r.boot_id = fmt::format("boot-{}", boots_);
  }
  r.zone = zone_name;
  r.offset = zone_named(zone_name).offset_at(wall_);
  r.synchronised = synchronised;
  return r;
}

void clock_double::pass(duration d) {
  wall_ += d;
  boot_ += d;
  truly_ += d;
}

void clock_double::reboot(duration off) {
  wall_ += off;
  truly_ += off;
  boot_ = std::min<duration>(30s, off);
  ++boots_;
}

result<std::int64_t> memory_keeper::append(const std::vector<event>& batch) {
  if (fails && !failed_)
    failed_ = refusal{refusal_kind::machine, "memory", "writing", "a full disk", "space"};
  if (failed_) return tl::unexpected(*failed_);
  kept.insert(kept.end(), batch.begin(), batch.end());
  if (!slow) catch_up();
  return static_cast<std::int64_t>(kept.size());
}

patient::patient() : clock(utc("2027-03-08T10:00:00Z")), e(keeper, {}) {}

bool patient::tell(payload wanted) {
  const auto accepted = e.submit(command{std::move(wanted)}, clock.look());
  if (!accepted) no = accepted.error();
  return accepted.has_value();
}

std::string patient::refused(payload wanted) {
  return tell(std::move(wanted)) ? "" : no.where;
}

reported_person invented_person() {
  return {"Maren Oakhollow",
          civil_date{std::chrono::year{1957}, std::chrono::month(2), std::chrono::day(11)},
          "Dr Ivo Brandreth", "FV-2071", "Fenwick Vale Breath Laboratory"};
}

plan_made plan_of(instant start) {
  return {lactulose_text(), "syrup",
          make_plan(lactulose(), start, zone_named("Europe/London")).value()};
}

plan_made scored_after_plan(instant start) {
  return {scored_after_text(), "syrup",
          make_plan(lactulose(), start, zone_named("Europe/London")).value()};
}

void patient::open_and_plan() {
  QB_BELIEVE(tell(opened{"test-0001", "quarterbreath 0.1.0", false, fenwick_text()}));
  QB_BELIEVE(tell(invented_person()));
  const instant start = utc("2027-04-06T06:30:00Z");
  QB_BELIEVE(tell(scores_after ? scored_after_plan(start) : plan_of(start)));
}

std::optional<payload> told_at(const now_answer& a) {
  switch (a.what) {
  case step::sugar: return sugar_set_aside{};
  case step::symptoms: return reported_symptoms{*a.sample, {{"bloating", 1}}, ""};
  case step::red_flags: return reported_red_flags{*a.sample, {}, a.after};
  case step::breathe: return breath_begun{*a.sample};
  case step::close: return tube_closed{*a.sample};
  case step::unsure: return breath_abandoned{*a.sample, "not taken"};
  case step::label: return label_written{*a.sample};
  case step::drink: return drink_started{};
  case step::drinking: return drink_ended{};
  case step::who:
  case step::choose:
  case step::prepare:
  case step::gate:
  case step::held:
  case step::lead_in:
  case step::hold_breath:
  case step::blowing:
  case step::wait:
  case step::heads_up:
  case step::rest:
  case step::symptoms_after:
  case step::unwell:
  case step::finish: return std::nullopt;
  }
  QB_BELIEVE(false);
  return std::nullopt;
}

std::vector<payload> gate_answers(const state& s, const clock_reading& now) {
  std::vector<payload> out;
  const auto no = [&](const caution& c) {
    out.emplace_back(reported_caution{c.why.rule, caution_answer::no, {}, "", ""});
  };
  const std::vector<hindrance> against = hindrances(s, now);
  const auto is_asked = [&](const caution& c) {
    const hindrance open{hindrance_kind::unanswered, c.why.rule};
    return std::find(against.begin(), against.end(), open) != against.end();
  };
  for (const caution& c : s.test->cautions) {
    if (is_asked(c)) no(c);
  }
  for (const washout& w : s.test->washouts) {
    if (find_noted_washout(s, w.why.rule) == nullptr)
      out.emplace_back(reported_washout{{w.why.rule, washout_answer::never, {}, false}, ""});
  }
  for (const caution& c : s.test->morning) {
    if (is_asked(c)) no(c);
  }
  if (!s.packet) {
    reported_packet told = right_packet(s);
    told.asked_again = other_packet_standing(s) != nullptr;
    out.emplace_back(std::move(told));
  }
  reported_ready ready{gate_checks(), {}, "the laboratory", releaser::laboratory};
  const instant starts = std::max(now.wall, s.planned->what.start);
  for (const rule_check& c : readiness(s, now, starts, zone_named(now.zone))) {
    if (find_window(*s.test, c.rule) != nullptr && is_not_kept(c)) ready.not_kept.push_back(c.rule);
  }
  // A clock that was set is no less a start under the least, as the device sees it.
  for (const rule_check& c : readiness_now(s, now)) {
    const bool named =
        std::find(ready.not_kept.begin(), ready.not_kept.end(), c.rule) != ready.not_kept.end();
    if (!named && needs_agreement(c) && find_window(*s.test, c.rule) != nullptr)
      ready.not_kept.push_back(c.rule);
  }
  if (ready.not_kept.empty()) {
    ready.agreed.clear();
    ready.said_by.reset();
  }
  out.emplace_back(std::move(ready));
  return out;
}

void patient::answer_the_gate() {
  std::vector<payload> all = gate_answers(current(), clock.look());
  all.pop_back();
  for (payload& p : all)
    QB_BELIEVE(tell(std::move(p)));
}

void patient::pass_the_gate() {
  clock.pass(utc("2027-04-06T06:28:00Z") - clock.wall());
  for (payload& p : gate_answers(current(), clock.look()))
    QB_BELIEVE(tell(std::move(p)));
  QB_BELIEVE(tell(sugar_set_aside{}));
}

void patient::score(int n) {
  reported_symptoms told{sample_number(n), {}, ""};
  for (const symptom& s : lactulose().symptoms)
    told.scores.push_back({s.id, 1});
  QB_BELIEVE(tell(told));
}

void patient::breathe(int n) {
  QB_BELIEVE(tell(breath_begun{sample_number(n)}));
  clock.pass(fenwick().bounds.lead_in + lactulose().breath_most);
  QB_BELIEVE(tell(tube_closed{sample_number(n)}));
}

void patient::label(int n) {
  QB_BELIEVE(tell(label_written{sample_number(n)}));
}

void patient::through_tube_1() {
  open_and_plan();
  pass_the_gate();
  score(1);
  clock.pass(110s);
  breathe(1);
}

void patient::through_the_drink() {
  through_tube_1();
  clock.pass(10s);
  label(1);
  QB_BELIEVE(tell(drink_started{}));
  clock.pass(60s);
  QB_BELIEVE(tell(drink_ended{}));
}

void patient::wait_for(int n) {
  const now_answer a = now();
  QB_BELIEVE(a.to_due.has_value() && lactulose().samples() >= static_cast<std::size_t>(n));
  const duration left =
      lactulose().offset_of(sample_number(n)) - current().grid->at(clock.look()).length;
  if (left > duration{0}) clock.pass(left);
}

void patient::sample(int n) {
  wait_for(n);
  breathe(n);
  label(n);
  score(n);
}

void patient::through_the_tubes() {
  through_the_drink();
  for (int n = 2; n <= static_cast<int>(lactulose().samples()); ++n)
    sample(n);
}

void patient::score_after_the_tubes() {
  clock.pass(*now().to_due + 90s);
  QB_BELIEVE(tell(reported_symptoms_after{
      score_time::after_last, {{"bloating", 4}, {"pain", std::nullopt}}, "a walk"}));
  clock.pass(*now().to_due);
  QB_BELIEVE(tell(reported_symptoms_after{score_time::later, {{"bloating", 7}}, ""}));
  QB_BELIEVE(tell(reported_red_flags{*now().sample, {}, now().after}));
}

} // namespace qb::test
