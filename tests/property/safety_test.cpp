// Whatever is told, in whatever order: nothing leads on towards the sugar, the first tube or the
// drink while anything forbids it, and the truth is never refused.
// The oracle reads the events alone and knows nothing of the judgement: it is written from the
// sentences of the protocol's contract, so that a check dropped in core is missed here.
#include "tests/support/scripted_test.hpp"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fmt/core.h>
#include <map>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace qb::test {

// One random thing that is told: what, and how.
struct telling {
  int what{0};
  int which{0};
  int how{0};
};

void showValue(const telling& t, std::ostream& os);
void showValue(const telling& t, std::ostream& os) {
  os << "{" << t.what << "," << t.which << "," << t.how << "}";
}

} // namespace qb::test

namespace {

bool is_final(const protocol& p, const std::string& id) {
  const auto& all = p.warnings.signs;
  return std::any_of(all.begin(), all.end(),
                     [&](const warning_sign& s) { return s.id == id && s.is_final; });
}

bool ends_a_breath(const payload& p) {
  const auto* signs = std::get_if<reported_red_flags>(&p);
  return std::holds_alternative<breath_abandoned>(p) || std::holds_alternative<tube_closed>(p) ||
         std::holds_alternative<reported_breath>(p) || std::holds_alternative<plan_made>(p) ||
         std::holds_alternative<plan_called_off>(p) || std::holds_alternative<reported_drink>(p) ||
         std::holds_alternative<reported_unwell>(p) || std::holds_alternative<test_ended>(p) ||
         (signs != nullptr && !signs->present.empty());
}

// Elapsed by a clock that nobody can set.
duration since(const clock_reading& earlier, const clock_reading& now) {
  return *now.boot - *earlier.boot;
}

// The latest of each kind, straight from the events.
struct told_so_far {
  const protocol* test{nullptr};
  std::optional<plan_made> plan;
  std::optional<reported_person> person;
  std::optional<reported_kit> kit;
  std::optional<reported_packet> packet;
  std::optional<event> ready;
  std::map<std::string, event> answers;
  std::map<std::string, reported_washout> washouts;
  bool another{false};   // the packet that was told last was not the plan's
  std::string lightened; // what became lighter without a second asking: a medicine, the packet
  std::vector<event> slips;
  std::int64_t planned_at{0};
  std::optional<clock_reading> breath_began;
  std::optional<int> pain;     // the score given last
  std::optional<int> asked_at; // the score after which the signs were asked last
  bool unwell{false};
  bool signs_told{false}; // since the person felt unwell
  bool some_sign{false};  // of them one at least, since the person last went on
  bool final_sign{false};
  bool drunk{false};

  void take(const event& e) {
    if (const auto* x = std::get_if<plan_made>(&e.what)) {
      plan = *x;
      test = &shipped(x->what.protocol_id);
      planned_at = e.seq;
      pain.reset();
      asked_at.reset();
      packet.reset();
      ready.reset();
    }
    if (std::holds_alternative<plan_called_off>(e.what)) {
      plan.reset();
      packet.reset();
      ready.reset();
    }
    if (const auto* x = std::get_if<reported_person>(&e.what)) person = *x;
    if (const auto* x = std::get_if<reported_kit>(&e.what)) kit = *x;
    if (const auto* x = std::get_if<reported_packet>(&e.what)) take_packet(*x);
    if (std::holds_alternative<reported_ready>(e.what)) ready = e;
    if (std::holds_alternative<reported_slip>(e.what)) slips.push_back(e);
    if (const auto* x = std::get_if<reported_caution>(&e.what))
      answers.insert_or_assign(x->rule, e);
    if (const auto* x = std::get_if<reported_washout>(&e.what)) take_washout(*x);
    if (std::holds_alternative<breath_begun>(e.what)) breath_began = e.at;
    if (ends_a_breath(e.what)) breath_began.reset();
    take_signs(e.what);
    if (const auto* x = std::get_if<reported_red_flags>(&e.what)) {
      for (const std::string& sign : x->present)
        final_sign = final_sign || (test != nullptr && plan && is_final(*test, sign));
    }
    drunk = drunk || std::holds_alternative<drink_started>(e.what) ||
            std::holds_alternative<reported_drink>(e.what);
  }

  void take_signs(const payload& p) {
    if (const auto* x = std::get_if<reported_symptoms>(&p)) pain = x->scores.front().score;
    if (std::holds_alternative<unwell_over>(p)) unwell = signs_told = some_sign = false;
    if (std::holds_alternative<reported_unwell>(p)) {
      unwell = true;
      signs_told = signs_told && some_sign;
    }
    if (const auto* x = std::get_if<reported_red_flags>(&p)) {
      asked_at = pain;
      some_sign = some_sign || !x->present.empty();
      unwell = unwell || !x->present.empty();
      signs_told = true;
    }
  }
  // Whether a score calls for the warning signs, and they were not asked after it.
  [[nodiscard]] bool signs_due() const {
    const auto& level = test->warnings.level;
    return !breath_began && pain && level && *pain >= *level && pain > asked_at;
  }

  // What it says first against the plan, and then no more, only where it was read once more.
  void take_packet(const reported_packet& x) {
    packet = x;
    if (!plan) return;
    const bool right = is_of_the_plan(x);
    if (right && another && !x.asked_again) lightened = "the packet";
    another = !right;
  }
  [[nodiscard]] bool is_of_the_plan(const reported_packet& x) const {
    const auto& forms = test->sugar.forms;
    const bool fits = std::any_of(forms.begin(), forms.end(), [&](const sugar_form& f) {
      return f.form == plan->form && f.amount == x.amount && f.unit == x.unit;
    });
    return fits && x.name == test->sugar.name;
  }
  void take_washout(const reported_washout& x) {
    const auto last = washouts.find(x.what.rule);
    if (last != washouts.end() && !x.asked_again && is_lighter(x, last->second))
      lightened = x.what.rule;
    washouts.insert_or_assign(x.what.rule, x);
  }
  // Less to wait for, or less to ask about: by pairs, not by a sum of weights.
  [[nodiscard]] static bool is_lighter(const reported_washout& is, const reported_washout& was) {
    using answer = washout_answer;
    const answer now = is.what.answer;
    switch (was.what.answer) {
    case answer::never: return false;
    case answer::last_on:
      return now == answer::never ||
             (is.what.on && date_text(*is.what.on) < date_text(*was.what.on));
    case answer::until:
      return now == answer::never || now == answer::last_on ||
             (is.what.on && date_text(*is.what.on) < date_text(*was.what.on));
    case answer::unknown: return now != answer::unknown && now != answer::cannot_stop;
    case answer::cannot_stop: return now != answer::cannot_stop;
    }
    return true;
  }
};

// Whether that answer forbids going on, by the words of the protocol.
bool forbids(const protocol& p, const caution& asked, const reported_caution& x) {
  if (x.answer == caution_answer::no) return false;
  if (!x.for_test.empty() && x.for_test != p.id) return true;
  const leads_to leads = x.answer == caution_answer::yes ? asked.leads : asked.unsure_leads;
  if (leads == leads_to::not_this_test) return true;
  if (x.outcome != asked_outcome::go_on || !x.said_by) return true;
  const auto& may = asked.may_release;
  return std::find(may.begin(), may.end(), *x.said_by) == may.end();
}

// The same of a question that this test does not ask: the laboratory alone may say to go on.
bool of_another_sugar_forbids(const protocol& p, const reported_caution& x) {
  if (x.answer == caution_answer::no) return false;
  const bool of_this = x.for_test.empty() || x.for_test == p.id;
  return !of_this || x.outcome != asked_outcome::go_on || x.said_by != releaser::laboratory;
}

// What was eaten or drunk after the gate was passed, too lately for the least that is accepted.
bool ate_since_the_gate(const told_so_far& t, const clock_reading& now) {
  if (!t.ready) return false;
  const preparation_window& fast = *find_window(*t.test, "fast");
  const instant counted = t.ready->at.wall + since(t.ready->at, now);
  return std::any_of(t.slips.begin(), t.slips.end(), [&](const event& e) {
    const auto& slip = std::get<reported_slip>(e.what);
    const duration ago = since(e.at, now) + (e.at.wall - slip.when);
    return e.seq > t.ready->seq && ago < fast.least &&
           counted - ago >= t.plan->what.start - fast.from;
  });
}

// The first thing that forbids going on at that time, in words; "" where nothing does.
// `at_the_gate`: what was eaten is looked at there, and may be agreed to.
std::string forbidden(const told_so_far& t, const clock_reading& now, bool at_the_gate) {
  if (!t.plan) return "no plan";
  for (const caution& c : t.test->cautions) {
    const auto at = t.answers.find(c.why.rule);
    if (at == t.answers.end()) return c.why.rule + " not answered";
    if (forbids(*t.test, c, std::get<reported_caution>(at->second.what))) return c.why.rule;
  }
  for (const caution& c : t.test->morning) {
    const auto at = t.answers.find(c.why.rule);
    if (at == t.answers.end() || at->second.seq < t.planned_at) return c.why.rule + " not answered";
    if (forbids(*t.test, c, std::get<reported_caution>(at->second.what))) return c.why.rule;
    if (since(at->second.at, t.breath_began.value_or(now)) > morning_answers_hold)
      return c.why.rule + " answered too long ago";
  }
  if (!t.kit) {
    for (const auto& [rule, told] : t.answers) {
      if (find_caution(*t.test, rule) == nullptr &&
          of_another_sugar_forbids(*t.test, std::get<reported_caution>(told.what)))
        return rule + ", of another sugar";
    }
  }
  if (!at_the_gate && ate_since_the_gate(t, now)) return "eaten since the gate";
  if (t.final_sign && t.unwell) return "a final sign";
  if (t.kit && t.kit->protocol_id != t.test->id) return "another kit";
  const zone here = zone_named(now.zone);
  const instant counted =
      t.ready ? t.ready->at.wall + since(t.ready->at, now) : std::max(now.wall, t.plan->what.start);
  const civil_date today = date_of(here.civil_at(counted));
  if (t.kit && t.kit->expires < today) return "an old kit";
  if (!age_fits(*t.test, t.person->birth_date, today)) return "another age";
  if (!t.packet) return "the packet was not read";
  if (!t.is_of_the_plan(*t.packet)) return "another packet";
  if (t.unwell) return "unwell";
  if (t.signs_due()) return "the warning signs were not asked";
  return "";
}

bool leads_on(const payload& p) {
  const auto* begun = std::get_if<breath_begun>(&p);
  const auto* closed = std::get_if<tube_closed>(&p);
  return std::holds_alternative<reported_ready>(p) || std::holds_alternative<sugar_set_aside>(p) ||
         std::holds_alternative<drink_started>(p) || begun != nullptr || closed != nullptr;
}

bool is_towards_the_sugar(step s) {
  static const std::array<step, 9> those{step::sugar,   step::symptoms,    step::breathe,
                                         step::lead_in, step::hold_breath, step::blowing,
                                         step::close,   step::drink,       step::label};
  return std::find(those.begin(), those.end(), s) != those.end();
}

class person {
public:
  person() : clock_(utc("2027-04-05T10:00:00Z")), engine_(keeper_, {}) {
    tell(opened{"s", "quarterbreath", false, fenwick_text()});
    tell(invented_person());
  }

  void happen(const telling& t) {
    clock_.pass(std::chrono::seconds{t.how % 50});
    if (t.what == 99) clock_.step(std::chrono::hours{t.how % 2 == 0 ? 1 : -1});
    if (t.what == 98) clock_.pass(std::chrono::minutes{t.how % 200});
    if (t.what < 55) return follow();
    tell(anything(t));
  }

  // What does not hold, in words; "" where all does.
  [[nodiscard]] std::string broken() const {
    if (!wrong_.empty()) return wrong_;
    if (!told_.lightened.empty()) return told_.lightened + " became lighter in silence";
    const clock_reading now = clock_.look();
    for (const payload& truth : {payload{test_ended{"stopped"}}, payload{reported_unwell{}},
                                 payload{reported_red_flags{sample_number(3), {"fainting"}}},
                                 payload{reported_drink{now.wall - 60s, how_known::told}}}) {
      const auto done = decide(engine_.current(), command{truth}, now);
      if (!done) return "the truth was refused: " + sentence(done.error());
    }
    const now_answer a = what_now(engine_.current(), now);
    const std::string no = forbidden(told_, now, false);
    if (!told_.drunk && !no.empty() && is_towards_the_sugar(a.what))
      return fmt::format("step {} is shown while it is forbidden: {}", static_cast<int>(a.what),
                         no);
    return "";
  }
  [[nodiscard]] bool drank() const { return told_.drunk; }
  [[nodiscard]] int held() const { return held_; }

private:
  void tell(payload wanted) {
    const clock_reading now = clock_.look();
    const bool passes_gate = std::holds_alternative<reported_ready>(wanted);
    const std::string no = !told_.person ? "" : forbidden(told_, now, passes_gate);
    const std::size_t before = keeper_.kept.size();
    const bool well_again = std::holds_alternative<unwell_over>(wanted);
    const auto* ready = std::get_if<reported_ready>(&wanted);
    const bool nobodys = ready != nullptr && !ready->agreed.empty() && !ready->said_by;
    const bool leads = leads_on(wanted) && !told_.drunk;
    if (!engine_.submit(command{std::move(wanted)}, now)) {
      held_ += leads && !no.empty() ? 1 : 0;
      return;
    }
    if (well_again && told_.final_sign) wrong_ = "went on after a final sign";
    if (well_again && told_.plan && !told_.signs_told) wrong_ = "went on with no word of the signs";
    if (nobodys) wrong_ = "started on the word of nobody who may agree";
    if (leads && !no.empty()) wrong_ = "led on while it was forbidden: " + no;
    if (leads && !passes_gate && !told_.ready) wrong_ = "led on past the gate";
    for (std::size_t i = before; i < keeper_.kept.size(); ++i)
      told_.take(engine_.events()[i]);
  }

  void follow() {
    const state& s = engine_.current();
    const now_answer a = what_now(s, clock_.look());
    switch (a.what) {
    case step::choose: return tell(plan_for("lactulose-10g", 0));
    case step::prepare: return clock_.pass(a.next_change.value_or(duration{60s}));
    case step::gate: return tell(gate_answers(s, clock_.look()).front());
    case step::lead_in:
    case step::hold_breath:
    case step::blowing: return clock_.pass(*a.phase_left);
    case step::unwell:
      if (wants_signs_told(s)) return tell(reported_red_flags{sample_number(1), {}});
      return tell(unwell_over{true});
    default:
      if (auto fact = told_at(a)) tell(std::move(*fact));
    }
  }

  [[nodiscard]] static payload plan_for(const std::string& id, int minutes) {
    const instant start = utc("2027-04-06T06:30:00Z") + std::chrono::minutes{minutes};
    const protocol& p = shipped(id);
    return plan_made{shipped_file(id), p.sugar.forms.back().form,
                     make_plan(p, start, zone_named("Europe/London")).value()};
  }

  [[nodiscard]] payload answer(const telling& t) const {
    const protocol& p = engine_.current().test ? *engine_.current().test : lactulose();
    const std::size_t all = p.cautions.size() + p.morning.size();
    const std::size_t n = static_cast<std::size_t>(t.which) % all;
    const caution& c = n < p.cautions.size() ? p.cautions[n] : p.morning[n - p.cautions.size()];
    static const std::array<caution_answer, 4> answers{caution_answer::no, caution_answer::no,
                                                       caution_answer::yes, caution_answer::unsure};
    static const std::array<std::optional<releaser>, 3> sayers{releaser::doctor,
                                                               releaser::laboratory, std::nullopt};
    reported_caution out{c.why.rule, answers[static_cast<std::size_t>(t.how) % 4], {}, "", ""};
    if (out.answer != caution_answer::no && t.how % 3 != 0) {
      out.outcome = t.how % 5 == 0 ? asked_outcome::not_this_test : asked_outcome::go_on;
      out.who = "somebody";
      out.said_by = sayers[static_cast<std::size_t>(t.how / 7) % 3];
      if (t.how % 4 == 0) out.for_test = t.how % 8 == 0 ? "lactose-25g" : p.id;
    }
    out.asked_again = t.how % 2 == 0;
    return out;
  }

  // Of two medicines, with days on both sides of what is asked.
  [[nodiscard]] static payload washout_answered(const telling& t) {
    static const std::array<washout_answer, 6> answers{
        washout_answer::never, washout_answer::never,   washout_answer::last_on,
        washout_answer::until, washout_answer::unknown, washout_answer::cannot_stop};
    reported_washout out{{t.how % 2 == 0 ? "antibiotics" : "laxatives",
                          answers[static_cast<std::size_t>(t.how / 2) % answers.size()],
                          std::nullopt, false},
                         ""};
    const bool dated =
        out.what.answer == washout_answer::last_on || out.what.answer == washout_answer::until;
    if (dated)
      out.what.on = plus_days(parse_date("2027-02-20").value(), std::chrono::days{t.how % 50});
    if (out.what.answer == washout_answer::until) {
      out.who = "somebody";
      out.said_by = releaser::doctor;
    }
    out.asked_again = t.how / 12 % 2 == 0;
    return out;
  }

  [[nodiscard]] payload anything(const telling& t) const {
    const instant wall = clock_.wall();
    if (t.what < 75) return answer(t);
    const std::array<payload, 23> all{
        reported_kit{"FV2C-7HW2-4K6D", "FV-2C7H", t.how % 3 == 0 ? "lactose-25g" : "lactulose-10g",
                     parse_date(t.how % 5 == 0 ? "2027-04-05" : "2027-12-31").value()},
        reported_packet{t.how % 3 == 0 ? "glucose" : "lactulose", t.how % 4 == 0 ? 75 : 15, "ml",
                        "", t.how % 5 < 3},
        reported_packet{"", 0, "", "something else"},
        plan_for(shipped_ids()[static_cast<std::size_t>(t.which) % 5], t.how % 90),
        plan_called_off{""},
        reported_ready{gate_checks(),
                       {"fast"},
                       t.how % 2 == 0 ? "the laboratory" : "",
                       t.how % 4 < 2 ? std::optional(releaser::laboratory) : std::nullopt},
        sugar_set_aside{},
        breath_begun{sample_number(1)},
        tube_closed{sample_number(1)},
        drink_started{},
        reported_unwell{},
        unwell_over{t.how % 2 == 0},
        reported_red_flags{sample_number(1), {t.how % 2 == 0 ? "fainting" : "vomiting"}},
        reported_red_flags{sample_number(1), {}},
        reported_slip{"fast", wall - std::chrono::minutes{t.how % 600}, how_known::told, "", ""},
        reported_breath{sample_number(1), wall - 60s, how_known::told},
        repeat_wanted{sample_number(1), "spoiled"},
        reported_symptoms{sample_number(1), {{"bloating", t.how % 11}}, ""},
        resumed{},
        label_written{sample_number(1)},
        washout_answered(t),
        breath_abandoned{sample_number(1), ""},
        [&] {
          reported_person who = invented_person();
          if (t.how % 2 == 0) who.birth_date = parse_date("2015-01-31").value();
          return who;
        }()};
    // A drink ends what is looked at here: it is told only now and then.
    if (t.how % 61 == 0) return reported_drink{wall - 60s, how_known::told};
    return all.at(static_cast<std::size_t>(t.which) % all.size());
  }

  clock_double clock_;
  memory_keeper keeper_;
  engine engine_;
  told_so_far told_;
  std::string wrong_;
  int held_{0};
};

rc::Gen<std::vector<telling>> tellings() {
  const auto one = rc::gen::map(rc::gen::tuple(rc::gen::inRange(0, 100), rc::gen::inRange(0, 1000),
                                               rc::gen::inRange(0, 1000)),
                                [](const std::tuple<int, int, int>& t) {
                                  return telling{std::get<0>(t), std::get<1>(t), std::get<2>(t)};
                                });
  return rc::gen::resize(rc::kNominalSize, rc::gen::mapcat(rc::gen::inRange(20, 160), [=](int n) {
                           return rc::gen::container<std::vector<telling>>(
                               static_cast<std::size_t>(n), one);
                         }));
}

} // namespace

TEST_CASE("nobody is led on towards the sugar while anything forbids it, and truth is never "
          "refused") {
  int drank = 0;
  int held = 0;
  // Two thousand people in an ordinary run of a hundred cases, a hundred thousand in a deep one of
  // a thousand; few where the cases are few, in the tree with sanitizers.
  const char* tier = std::getenv("QB_DEEP");
  const bool deep = tier != nullptr && std::string(tier) == "1";
  const int people = deep ? 100 : std::getenv("QB_CASES") != nullptr ? 4 : 20;
  const bool kept = rc::check("random tellings", [&] {
    for (int i = 0; i < people; ++i) {
      person p;
      for (const telling& t : *tellings()) {
        p.happen(t);
        const std::string broken = p.broken();
        if (!broken.empty()) RC_FAIL(broken);
      }
      drank += p.drank() ? 1 : 0;
      held += p.held();
    }
  });
  CHECK(kept);
  // People must really get to the drink, and really be held back, or this proves nothing.
  INFO(drank << " drank, held back " << held << " times");
  CHECK(drank >= people);
  CHECK(held >= people * 10);
}
