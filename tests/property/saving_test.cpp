// A slow disk changes when a fact counts, never which ones do: whatever is told, and whenever a
// write becomes durable, a slow keeper and one that is durable at once take and refuse the same and
// keep the same record.
#include "core/record/codec.hpp"
#include "tests/property/world.hpp"

#include <catch2/catch.hpp>
#include <rapidcheck.h>

using namespace qb;
using namespace qb::test;

namespace {

// Two engines that are told the same at the same readings.
class twins {
public:
  explicit twins(int begun) : clock_(utc("2027-04-06T06:30:00Z")) {
    const patient p = far_gone(begun);
    clock_ = p.clock;
    at_once_.kept = p.keeper.kept;
    at_once_.catch_up();
    later_.kept = p.keeper.kept;
    later_.catch_up();
    later_.slow = true;
    quick_.emplace(at_once_, at_once_.kept);
    slow_.emplace(later_, later_.kept);
  }

  void happen(const deed& d) {
    clock_.pass(std::chrono::milliseconds{1 + d.much % 40000});
    if (d.what % 100 < 40) {
      later_.catch_up();
      slow_->settle();
      return;
    }
    const command c{d.what % 100 < 75 ? next(d) : anything_about(d, clock_.wall())};
    const bool was_saving = slow_->saving();
    const auto now = clock_.look();
    const auto first = quick_->submit(c, now);
    const auto second = slow_->submit(c, now);
    if (first.has_value() != second.has_value() ||
        (!first && first.error().where != second.error().where))
      wrong_ = "one took it and the other refused it";
    if (slow_->current().seq > static_cast<std::int64_t>(durable()))
      wrong_ = "what is not durable is shown as kept";
    heard_ += was_saving && first ? 1 : 0;
  }

  // All is durable at last. The first belief that does not hold, in words.
  std::string broken() {
    for (int most = 10000; slow_->saving() && most > 0; --most) {
      later_.catch_up();
      slow_->settle();
    }
    if (!wrong_.empty()) return wrong_;
    if (slow_->saving()) return "something waits for ever";
    if (bodies(*quick_) != bodies(*slow_)) return "the records differ";
    return "";
  }
  [[nodiscard]] int heard() const { return heard_; }

private:
  [[nodiscard]] std::size_t durable() const { return static_cast<std::size_t>(later_.durable()); }

  // What a person who follows the program would tell next, by what will be durable.
  [[nodiscard]] payload next(const deed& d) const {
    const auto fact = told_at(what_now(quick_->current(), clock_.look()));
    return fact ? *fact : payload{reported_comment{"number " + std::to_string(d.much)}};
  }

  static std::vector<std::string> bodies(const engine& e) {
    std::vector<std::string> out;
    for (const event& one : e.events())
      out.push_back(json::canonical(encode_event(one)));
    return out;
  }

  clock_double clock_;
  memory_keeper at_once_;
  memory_keeper later_;
  std::optional<engine> quick_;
  std::optional<engine> slow_;
  std::string wrong_;
  int heard_{0};
};

rc::Gen<deed> some_deed() {
  return rc::gen::map(rc::gen::tuple(rc::gen::inRange(0, 100), rc::gen::inRange(1, 11),
                                     rc::gen::inRange(0, 100000)),
                      [](const std::tuple<int, int, int>& t) {
                        return deed{std::get<0>(t), std::get<1>(t), std::get<2>(t)};
                      });
}

} // namespace

TEST_CASE("a slow disk changes when a fact counts, and never which facts there are") {
  int heard = 0;
  int tried = 0;
  const bool held = rc::check("a slow disk", [&] {
    for (int begun = 0; begun < 3; ++begun) {
      ++tried;
      twins both(begun);
      for (const deed& d : *rc::gen::container<std::vector<deed>>(40, some_deed()))
        both.happen(d);
      const std::string broken = both.broken();
      if (!broken.empty()) RC_FAIL(broken);
      heard += both.heard();
    }
  });
  CHECK(held);
  CHECK(heard > 2 * tried); // something must really be told while a write is on its way
}
