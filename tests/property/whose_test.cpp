// Two benches, several kits and persons, in any order: no reading, box, choice, override or
// conclusion ever stands under a person it was not entered for, and nothing that was entered is
// lost. The oracle keeps its own notes of who was meant, and knows nothing of how rows are sorted.
#include "core/receiving/whose.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <rapidcheck.h>
#include <set>

using namespace qb;

namespace qb::test {

// One random thing that happens: what, at which bench, to which kit, and two choices more.
struct happening {
  int what{0};
  int bench{0};
  int kit{0};
  int which{0};
  int more{0};
};

void showValue(const happening& h, std::ostream& os);
void showValue(const happening& h, std::ostream& os) {
  os << "{" << h.what << "," << h.bench << "," << h.kit << "," << h.which << "," << h.more << "}";
}

} // namespace qb::test

namespace {

using qb::test::happening;

constexpr int kits = 2;
constexpr int persons = 3;
constexpr int benches = 2;

std::string kit_name(int kit) {
  return "FV-" + std::to_string(7000 + kit);
}

// What the oracle knows of one row.
struct note {
  std::string entered_for; // a test; empty: none was known
  std::string said;        // by the last person who said whose it is
  bool gone{false};        // taken back
  int at_kit{0};
};

class laboratory {
public:
  laboratory() {
    for (int k = 0; k < kits; ++k)
      rows_[k].kit = kit_name(k);
  }

  void happen(const happening& h) {
    switch (h.what) {
    case 0: return log_comes(h);
    case 1: return look(h);
    case 2: return assign(h);
    case 3: return take_back(h);
    case 4: return move(h);
    default: return enter(h);
    }
  }

  void check() const {
    std::map<std::int64_t, int> seen;
    for (int k = 0; k < kits; ++k) {
      const kit_file file = whose(rows_[k], known_[k]);
      for (const test_rows& t : file.tests)
        for (const std::int64_t entry : entries(t.rows)) {
          ++seen[entry];
          RC_ASSERT(may_stand(notes_.at(entry), t.test.id, k));
        }
      for (const std::int64_t entry : entries(file.nobodys))
        ++seen[entry];
      if (known_[k].size() > 1 && ruled_knowing_[k] < known_[k].size())
        RC_ASSERT(!file.stopped.empty());
    }
    for (const auto& [entry, n] : notes_)
      RC_ASSERT(seen[entry] == (n.gone ? 0 : 1));
  }

private:
  // What a bench sees on its screen.
  struct screen {
    std::size_t state{0};
    std::string test;
    bool open{false};
  };

  [[nodiscard]] std::size_t state(int kit) const {
    const kit_rows& r = rows_[kit];
    return r.arrivals.size() + r.readings.size() + r.choices.size() + r.overrides.size() +
           r.conclusions.size() + r.rulings.size() + known_[kit].size();
  }

  void log_comes(const happening& h) {
    const std::string id = "test-" + std::to_string(h.which % persons);
    if (!come_.insert(id).second) return;
    known_[h.kit].push_back({id, {id, {}, {}, {}}, {}, known_by::log});
  }

  // A kit number that several tests bear shows nothing until one of them is named.
  void look(const happening& h) {
    screen& s = screens_[h.bench][h.kit];
    const auto& tests = known_[h.kit];
    s = {state(h.kit), "", true};
    if (!tests.empty()) s.test = tests[static_cast<std::size_t>(h.which) % tests.size()].id;
  }

  void enter(const happening& h) {
    const screen& s = screens_[h.bench][h.kit];
    if (!s.open || s.state != state(h.kit)) return look(h); // shown again, nothing changed
    kit_rows& r = rows_[h.kit];
    const row_mark mark{++entry_, s.test};
    notes_[entry_] = {s.test, "", false, h.kit};
    const auto add = [&](auto& list) {
      list.emplace_back();
      list.back().mark = mark;
    };
    switch (h.what) {
    case 5: add(r.arrivals); break;
    case 6: add(r.choices); break;
    case 7: add(r.overrides); break;
    case 8: add(r.conclusions); break;
    default: add(r.readings); r.readings.back().kit = r.kit;
    }
    look(h);
  }

  ruling& rule(int kit, ruled what, std::int64_t of, row_word says) {
    ruling r;
    r.kit = kit_name(kit);
    r.what = what;
    r.of = of;
    r.says = says;
    r.mark.entry = ++rulings_;
    for (const known_test& t : known_[kit])
      r.known.push_back(t.id);
    rows_[kit].rulings.push_back(r);
    return rows_[kit].rulings.back();
  }

  // A person who sees all tests says whose everything of nobody's is.
  void assign(const happening& h) {
    const auto& tests = known_[h.kit];
    if (tests.empty()) return;
    const std::string id = tests[static_cast<std::size_t>(h.which) % tests.size()].id;
    const kit_file file = whose(rows_[h.kit], tests);
    rule(h.kit, ruled::kit, 0, row_word::is_of).test = id;
    ruled_knowing_[h.kit] = tests.size();
    for (const owned_row& row : file.owners) {
      if (!row.test.empty() || row.away) continue;
      const ruling said = (rule(h.kit, row.what, row.entry, row_word::is_of).test = id,
                           rows_[h.kit].rulings.back());
      if (row.what == ruled::reading) heard_elsewhere(h.kit, row.entry, said);
      notes_[row.entry].said = id;
    }
  }

  // The store shows a moved reading, and all that was said of it, under both kits.
  [[nodiscard]] bool has_reading(int kit, std::int64_t entry) const {
    const auto& all = rows_[kit].readings;
    return std::any_of(all.begin(), all.end(),
                       [&](const gas_reading& one) { return one.mark.entry == entry; });
  }
  void heard_elsewhere(int kit, std::int64_t entry, const ruling& said) {
    for (int k = 0; k < kits; ++k)
      if (k != kit && has_reading(k, entry)) rows_[k].rulings.push_back(said);
  }

  void take_back(const happening& h) {
    const auto& all = rows_[h.kit].arrivals;
    if (all.empty()) return;
    const std::int64_t entry = all[static_cast<std::size_t>(h.which) % all.size()].mark.entry;
    const bool again = h.more % 2 == 0 && notes_[entry].gone;
    rule(h.kit, ruled::box, entry, again ? row_word::stands : row_word::taken_back);
    notes_[entry].gone = !again;
  }

  // To another kit's test, or to a kit of which none is known.
  void move(const happening& h) {
    auto& all = rows_[h.kit].readings;
    if (all.empty()) return;
    const gas_reading reading = all[static_cast<std::size_t>(h.which) % all.size()];
    if (reading.kit != kit_name(h.kit)) return;
    const int to = h.more % kits;
    const auto& tests = known_[to];
    const std::string id =
        tests.empty() ? "" : tests[static_cast<std::size_t>(h.more) % tests.size()].id;
    ruling r = rule(h.kit, ruled::reading, reading.mark.entry, row_word::moved);
    r.test = id;
    r.to_kit = kit_name(to);
    r.to_tube = 2;
    rows_[h.kit].rulings.back() = r;
    for (int k = 0; k < kits; ++k)
      if (k != h.kit && !has_reading(k, reading.mark.entry)) {
        rows_[k].readings.push_back(reading);
        for (const ruling& before : rows_[h.kit].rulings)
          if (before.what == ruled::reading && before.of == reading.mark.entry &&
              before.mark.entry != r.mark.entry)
            rows_[k].rulings.push_back(before);
      }
    heard_elsewhere(h.kit, reading.mark.entry, r);
    notes_[reading.mark.entry].said = id;
    notes_[reading.mark.entry].at_kit = to;
    if (id.empty()) notes_[reading.mark.entry].entered_for.clear();
  }

  // Entered for that test, or said to be its, or of a time when no test was known, and it is the
  // only one that ever bore this number.
  [[nodiscard]] bool may_stand(const note& n, const std::string& test, int kit) const {
    if (!n.said.empty()) return n.said == test;
    if (!n.entered_for.empty()) return n.entered_for == test;
    return n.at_kit == kit && known_[kit].size() == 1 && known_[kit].front().id == test;
  }

  [[nodiscard]] static std::vector<std::int64_t> entries(const received_kit& r) {
    std::vector<std::int64_t> out;
    const auto add = [&](const auto& list) {
      for (const auto& one : list)
        out.push_back(one.mark.entry);
    };
    add(r.arrivals), add(r.readings), add(r.choices), add(r.overrides), add(r.conclusions);
    return out;
  }

  kit_rows rows_[kits];
  std::vector<known_test> known_[kits];
  std::size_t ruled_knowing_[kits]{};
  screen screens_[benches][kits];
  std::set<std::string> come_;
  std::map<std::int64_t, note> notes_;
  std::int64_t entry_{0};
  std::int64_t rulings_{0};
};

rc::Gen<happening> any_happening() {
  return rc::gen::build<happening>(rc::gen::set(&happening::what, rc::gen::inRange(0, 10)),
                                   rc::gen::set(&happening::bench, rc::gen::inRange(0, benches)),
                                   rc::gen::set(&happening::kit, rc::gen::inRange(0, kits)),
                                   rc::gen::set(&happening::which, rc::gen::inRange(0, 6)),
                                   rc::gen::set(&happening::more, rc::gen::inRange(0, 6)));
}

} // namespace

TEST_CASE("no row ever stands under a person it was not entered for, and none is lost") {
  CHECK(rc::check("two benches, kits and persons in any order", [] {
    laboratory lab;
    for (const happening& h : *rc::gen::container<std::vector<happening>>(any_happening())) {
      lab.happen(h);
      lab.check();
    }
  }));
}
