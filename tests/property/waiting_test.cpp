// A disk that refuses at any moment and comes back at any moment, a record that cannot be opened
// for a while, another copy that writes to it meanwhile, and a person who presses anything: what
// was accepted is in the record once, at its own time, in its own form or in one that is told; what
// was refused is not; no drink is lost; and feeling unwell closes the drink.
#include "core/record/codec.hpp"
#include "core/record/log.hpp"
#include "core/record/waiting.hpp"
#include "tests/property/world.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fmt/core.h>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

// A keeper of one opening of the record: refuses while the disk does, and once it has refused for
// good. What it refuses may have reached the disk all the same.
class refusing_keeper : public event_keeper {
public:
  struct record {
    std::vector<event> events;
    bool refuses{false};
    bool reaches{false};
  };
  explicit refusing_keeper(record& on) : on_(on) {}

  [[nodiscard]] result<std::int64_t> append(const std::vector<event>& batch) override {
    if (!failed_ && on_.refuses)
      failed_ = refusal{refusal_kind::machine, "", "write", "full", "room"};
    if (!failed_ || std::exchange(on_.reaches, false))
      on_.events.insert(on_.events.end(), batch.begin(), batch.end());
    if (failed_) return tl::unexpected(*failed_);
    return batch.back().seq;
  }
  [[nodiscard]] std::int64_t durable() const override {
    return static_cast<std::int64_t>(on_.events.size());
  }
  [[nodiscard]] std::optional<refusal> failure() const override { return failed_; }

private:
  record& on_;
  std::optional<refusal> failed_;
};

struct counts {
  int people{0};
  int drinks{0};
  int closed_by_unwell{0};
  int waited{0};
  int aside{0};
};

class person_at_a_disk {
public:
  explicit person_at_a_disk(int begun) : clock_(utc("2027-04-06T06:30:00Z")) {
    const patient p = far_gone(begun);
    clock_ = p.clock;
    disk_.events = p.keeper.kept;
    before_ = disk_.events.size();
    open();
  }

  void happen(const deed& d) {
    clock_.pass(std::chrono::milliseconds{1 + d.much % 40000});
    const int what = d.what % 100;
    if (what < 50) {
      follow(d);
    } else if (what < 78) {
      tell(anything_about(d, clock_.wall()));
    } else if (what < 86) {
      disk_.refuses = true;
      disk_.reaches = d.much % 4 == 0;
    } else if (what < 92) {
      away_ = d.much % 3 != 0;
    } else if (what < 96) {
      write_as_another(d);
    } else {
      disk_.refuses = false;
    }
    frame();
    check_the_drink();
  }

  // The disk is back: all is written. The first belief that does not hold, in words.
  std::string broken(counts& n) {
    const bool was_another = another_;
    const std::string shown = shape(visible());
    disk_.refuses = false;
    away_ = false;
    frame();
    if (!wrong_.empty()) return wrong_;
    if (!waiting_.empty() || !engine_) return "something still waits";
    if (!was_another && shape(engine_->current()) != shown)
      return "what was shown is not what was written";
    if (!was_another && !waiting_.aside().empty()) return "something was put aside for no reason";
    n.aside += static_cast<int>(waiting_.aside().size());
    n.closed_by_unwell += closed_by_unwell_;
    n.waited += waited_;
    std::size_t from = before_;
    for (const accepted_command& a : accepted_) {
      if (const std::string fault = fault_of(a, from); !fault.empty()) return fault;
      n.drinks += is_drink(a.wanted.wanted) ? 1 : 0;
    }
    for (const auto& [p, at] : refused_) {
      if (count_at(at) != 0) return fmt::format("{} was refused and is written", kind_name(p));
    }
    return "";
  }

private:
  static bool is_drink(const payload& p) {
    return std::holds_alternative<drink_started>(p) || std::holds_alternative<reported_drink>(p);
  }
  static std::string shape(const state& s) { return json::canonical(summary_of(s)); }
  static std::string as_kept(const payload& p, const clock_reading& at) {
    return json::canonical(encode_event(event{0, at, p}));
  }

  // In the record once, after what was accepted before it, in one of its forms; another form than
  // its own is told.
  std::string fault_of(const accepted_command& a, std::size_t& from) const {
    const std::string named(kind_name(a.wanted.wanted));
    const auto forms = forms_of(a);
    int found = 0;
    std::size_t form = forms.size();
    for (std::size_t i = before_; i < disk_.events.size(); ++i) {
      const event& e = disk_.events[i];
      const std::string kept = as_kept(e.what, e.at);
      for (std::size_t f = 0; f < forms.size(); ++f) {
        if (as_kept(forms[f], a.at) != kept) continue;
        ++found;
        form = f;
        if (i < from) return named + " is out of its order";
        from = i;
      }
    }
    const auto& all = waiting_.aside();
    const bool told = std::any_of(all.begin(), all.end(), [&](const put_aside& one) {
      return one.pressed == a.at.wall && one.noted == (found > 0);
    });
    if (found > 1) return named + " is written twice";
    if (found == 0 && !told) return named + " is lost";
    if (found == 0 && is_drink(a.wanted.wanted)) return "a drink is lost";
    if (found == 1 && form > 0 && !told) return named + " became another in silence";
    if (found == 1 && is_drink(a.wanted.wanted) && form + 1 == forms.size())
      return "a drink became a note";
    return "";
  }
  [[nodiscard]] int count_at(const clock_reading& at) const {
    int n = 0;
    for (const event& e : disk_.events)
      n += e.at.wall == at.wall ? 1 : 0;
    return n;
  }

  [[nodiscard]] const state& visible() const {
    return engine_ && waiting_.empty() ? engine_->current() : waiting_.shown();
  }

  void tell(payload p) {
    const clock_reading now = clock_.look();
    const bool unwell = unwell_;
    const bool drink = std::holds_alternative<drink_started>(p);
    if (!waiting_.tell(engine_ ? &*engine_ : nullptr, command{p}, now)) {
      refused_.emplace_back(p, now);
      closed_by_unwell_ += drink && unwell ? 1 : 0;
      return;
    }
    if (drink && unwell && !another_) wrong_ = "a drink was begun although the person feels unwell";
    waited_ += waiting_.empty() ? 0 : 1;
    if (std::holds_alternative<reported_unwell>(p)) unwell_ = true;
    if (std::holds_alternative<unwell_over>(p) || std::holds_alternative<test_ended>(p))
      unwell_ = false;
    accepted_.push_back({command{std::move(p)}, now});
  }

  void follow(const deed& d) {
    const now_answer a = what_now(visible(), clock_.look());
    switch (a.what) {
    case step::choose: return tell(plan_of(utc("2027-04-06T06:30:00Z")));
    case step::gate:
      for (payload& one : gate_answers(visible(), clock_.look())) {
        clock_.pass(1s);
        tell(std::move(one));
      }
      return;
    case step::lead_in:
    case step::hold_breath:
    case step::blowing: return clock_.pass(*a.phase_left);
    case step::unwell:
      if (d.much % 3 == 0) return tell(drink_started{});
      if (wants_signs_told(visible())) return tell(reported_red_flags{sample_number(1), {}});
      return tell(unwell_over{true});
    default:
      if (auto fact = told_at(a)) tell(std::move(*fact));
    }
  }

  // Another copy may open the record only while this one cannot.
  void write_as_another(const deed& d) {
    if (engine_) return;
    const state s = fold_events(disk_.events);
    const auto batch = batch_of(s, command{anything_about(d, clock_.wall())}, clock_.look());
    if (!batch) return;
    disk_.events.insert(disk_.events.end(), batch->begin(), batch->end());
    another_ = true;
    clock_.pass(1s);
  }

  void open() {
    keeper_.emplace(disk_);
    engine_.emplace(*keeper_, disk_.events);
  }

  // As the shell does it (app/patient/shell/recovery.cpp).
  void frame() {
    const bool failed = engine_ && engine_->failure();
    if (waiting_.empty() && engine_ && !failed) return;
    if (engine_) waiting_.take_over(*engine_);
    engine_.reset();
    if (away_) return;
    open();
    waiting_.write_to(*engine_);
  }

  void check_the_drink() {
    const step what = what_now(visible(), clock_.look()).what;
    if (unwell_ && !another_ && (what == step::drink || what == step::breathe))
      wrong_ = "the drink is offered although the person feels unwell";
  }

  clock_double clock_;
  refusing_keeper::record disk_;
  std::optional<refusing_keeper> keeper_;
  std::optional<engine> engine_;
  waiting_facts waiting_;
  std::size_t before_{0}; // events of before
  std::vector<accepted_command> accepted_;
  std::vector<std::pair<payload, clock_reading>> refused_;
  bool away_{false};    // the record cannot be opened
  bool another_{false}; // another copy has written
  bool unwell_{false};  // said, and not gone on
  int closed_by_unwell_{0};
  int waited_{0};
  std::string wrong_;
};

rc::Gen<std::vector<deed>> some_deeds() {
  const auto one = rc::gen::map(rc::gen::tuple(rc::gen::inRange(0, 100), rc::gen::inRange(1, 11),
                                               rc::gen::inRange(0, 100000)),
                                [](const std::tuple<int, int, int>& t) {
                                  return deed{std::get<0>(t), std::get<1>(t), std::get<2>(t)};
                                });
  return rc::gen::resize(rc::kNominalSize, rc::gen::mapcat(rc::gen::inRange(10, 90), [=](int n) {
                           return rc::gen::container<std::vector<deed>>(static_cast<std::size_t>(n),
                                                                        one);
                         }));
}

} // namespace

TEST_CASE("whenever a disk refuses and returns, what was accepted is written once or told, no "
          "drink is lost, and feeling unwell closes the drink") {
  counts n;
  const bool held = rc::check("a refusing disk", [&] {
    for (int begun = 0; begun < 4; ++begun) {
      ++n.people;
      person_at_a_disk p(begun);
      for (const deed& d : *some_deeds())
        p.happen(d);
      const std::string broken = p.broken(n);
      if (!broken.empty()) RC_FAIL(broken);
    }
  });
  CHECK(held);
  // Presses must really wait, drinks be begun, and some of it be refused by then, or this proves
  // nothing.
  INFO(n.waited << " waited, " << n.drinks << " drinks, " << n.closed_by_unwell
                << " closed by feeling unwell, " << n.aside << " put aside");
  CHECK(n.waited > 2 * n.people);
  CHECK(n.drinks > n.people / 10);
  CHECK(n.closed_by_unwell > n.people / 40);
  CHECK(n.aside > n.people / 40);
}
