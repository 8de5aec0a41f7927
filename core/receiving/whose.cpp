// First which tests there are, then each row's owner, then each test's rows as they stand now.
#include "core/receiving/whose.hpp"

#include "core/receiving/standing_box.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <map>
#include <utility>

namespace qb::inline receiving {

namespace {

constexpr const char* nobody = "";

class owner_finder {
public:
  owner_finder(const kit_rows& rows, const std::vector<known_test>& known)
      : rows_(rows), tests_(known) {
    for (const ruling& r : rows.rulings)
      hear(r);
    add_sheets();
    for (const known_test& t : tests_)
      if (joined_.count(t.id) == 0) standing_.push_back(&t);
    find_sole();
  }

  [[nodiscard]] const std::vector<known_test>& tests() const { return tests_; }
  [[nodiscard]] bool is_joined(const std::string& id) const { return joined_.count(id) != 0; }

  // The last word on whose it is: `is_of` or `moved`.
  [[nodiscard]] const ruling* word_on(ruled what, std::int64_t entry) const {
    const auto at = last_.find({what, entry});
    return at == last_.end() ? nullptr : at->second.whose;
  }
  // Where a reading was moved to, unless that was undone.
  [[nodiscard]] const ruling* move_of(std::int64_t entry) const {
    const auto at = last_.find({ruled::reading, entry});
    return at == last_.end() ? nullptr : at->second.moved;
  }
  [[nodiscard]] bool taken_back(ruled what, std::int64_t entry) const {
    const auto at = last_.find({what, entry});
    return at != last_.end() && at->second.gone;
  }
  [[nodiscard]] std::string owner_of(ruled what, const row_mark& mark) const {
    const ruling* r = word_on(what, mark.entry);
    // A reading that was moved to a kit of which no test was known is as if entered there.
    return resolved(r != nullptr ? r->test : mark.test);
  }
  // An old sheet's owner is found with the tests, whatever else is test-less.
  [[nodiscard]] std::string owner_of_sheet(const paper_record& p) const {
    const ruling* r = word_on(ruled::sheet, p.mark.entry);
    return resolved(r != nullptr ? r->test : own_id(p));
  }
  // Those that a second test is told by: practice is none while there is a real one.
  [[nodiscard]] std::vector<const known_test*> considered() const {
    std::vector<const known_test*> out;
    for (const bool practice : {false, true}) {
      for (const known_test* t : standing_)
        if (t->practice == practice && !t->hidden) out.push_back(t);
      if (!out.empty()) break;
    }
    return out;
  }

private:
  // Of a sheet that an earlier version kept: nothing where it goes with the only log.
  [[nodiscard]] std::string own_id(const paper_record& p) const {
    return p.mark.test.empty() ? old_sheet_ : p.mark.test;
  }

  void add_sheets() {
    const std::size_t records = tests_.size();
    std::vector<known_test> sheets;
    for (const paper_record& p : rows_.papers) {
      if (p.mark.test.empty() && old_sheet_.empty() && !goes_with_only_log(p))
        old_sheet_ = sheet_test_id(p);
      const std::string id = own_id(p);
      const auto is_it = [&](const known_test& t) { return t.id == id; };
      if (id.empty() || std::any_of(tests_.begin(), tests_.end(), is_it)) continue;
      const auto there = std::find_if(sheets.begin(), sheets.end(), is_it);
      const known_test sheet{id, p.who, p.day, known_by::sheet};
      if (there == sheets.end()) {
        sheets.push_back(sheet);
      } else if (!taken_back(ruled::sheet, p.mark.entry)) {
        *there = sheet; // a later sheet of the same test stands in place of the earlier
      }
    }
    for (const known_test& sheet : sheets)
      join(sheet, records);
    tests_.insert(tests_.end(), sheets.begin(), sheets.end());
  }

  [[nodiscard]] bool goes_with_only_log(const paper_record& p) const {
    std::vector<const known_test*> all;
    for (const bool practice : {false, true}) {
      for (const known_test& t : tests_)
        if (t.practice == practice && !t.hidden) all.push_back(&t);
      if (!all.empty()) break;
    }
    // Of several logs it is nobody's, like all that no test was known for.
    return all.size() > 1 || (all.size() == 1 && (!all[0]->day || all[0]->day == p.day));
  }

  // A sheet's test is a log's where a person said so of each of its sheets, or two identifiers do.
  void join(const known_test& sheet, std::size_t records) {
    std::string said;
    bool all_said = true;
    for (const paper_record& p : rows_.papers) {
      if (own_id(p) != sheet.id || taken_back(ruled::sheet, p.mark.entry)) continue;
      const ruling* r = word_on(ruled::sheet, p.mark.entry);
      const bool is_of = r != nullptr && r->test != sheet.id;
      all_said = all_said && is_of;
      if (is_of) said = r->test;
    }
    if (all_said && !said.empty()) joined_[sheet.id] = said;
    if (all_said) return;
    for (std::size_t i = 0; i < records; ++i) {
      const known_test& t = tests_[i];
      if (!t.practice && t.day == sheet.day && is_same_person(t.who, sheet.who))
        joined_[sheet.id] = t.id;
    }
  }

  // The only test of rows for which none was known.
  void find_sole() {
    const auto all = considered();
    if (all.size() != 1) return;
    for (const arrival& a : rows_.arrivals)
      if (a.mark.test.empty() && word_on(ruled::box, a.mark.entry) == nullptr &&
          !person_differences(a.who, all[0]->who).empty())
        return;
    sole_ = all[0]->id;
  }

  [[nodiscard]] std::string resolved(const std::string& id) const {
    if (id.empty()) return sole_;
    const auto at = joined_.find(id);
    const std::string& one = at == joined_.end() ? id : at->second;
    const bool there =
        std::any_of(tests_.begin(), tests_.end(), [&](const known_test& t) { return t.id == one; });
    return there ? one : nobody;
  }

  // Whose a row is, and whether it counts, are two questions: a word on the one leaves the other as
  // it was. Letting a reading stand again undoes its move.
  void hear(const ruling& r) {
    row_words& words = last_[{r.what, r.of}];
    words.gone = r.says == row_word::taken_back || (words.gone && r.says == row_word::is_of);
    if (r.says == row_word::is_of || r.says == row_word::moved) words.whose = &r;
    if (r.says == row_word::moved) words.moved = &r;
    if (r.says == row_word::stands && words.moved != nullptr) words.whose = words.moved = nullptr;
  }

  struct row_words {
    const ruling* whose{nullptr};
    const ruling* moved{nullptr};
    bool gone{false};
  };
  const kit_rows& rows_;
  std::vector<known_test> tests_;
  std::map<std::pair<ruled, std::int64_t>, row_words> last_;
  std::map<std::string, std::string> joined_; // a sheet's test -> the log's that it is
  std::string old_sheet_;                     // the test of sheets that have none of their own
  std::vector<const known_test*> standing_;
  std::string sole_;
};

// Puts every row where it belongs.
class sorter {
public:
  sorter(const kit_rows& rows, const owner_finder& owners) : rows_(rows), owners_(owners) {
    out_.kit = rows.kit;
    out_.nobodys.kit = rows.kit;
    for (const known_test& t : owners.tests()) {
      if (owners.is_joined(t.id)) continue;
      out_.tests.push_back({t, {}});
      out_.tests.back().rows.kit = rows.kit;
      out_.tests.back().rows.test = t.id;
    }
  }

  kit_file sorted() {
    for (const arrival& a : rows_.arrivals)
      put(ruled::box, a.mark, owners_.owner_of(ruled::box, a.mark), a, &received_kit::arrivals);
    for (const tube_scan& s : rows_.scans)
      (void)claim(ruled::scan, s.mark, owners_.owner_of(ruled::scan, s.mark));
    for (const paper_record& p : rows_.papers)
      put(ruled::sheet, p.mark, owners_.owner_of_sheet(p), p, &received_kit::papers);
    readings();
    for (const reading_choice& c : rows_.choices)
      put(ruled::choice, c.mark, owners_.owner_of(ruled::choice, c.mark), c,
          &received_kit::choices);
    for (const override_of& o : rows_.overrides)
      put(ruled::set_aside, o.mark, owners_.owner_of(ruled::set_aside, o.mark), o,
          &received_kit::overrides);
    conclusions();
    for (test_rows& t : out_.tests)
      stand(t.rows);
    stand(out_.nobodys);
    count_rulings();
    drop_empty_sheets();
    return std::move(out_);
  }

private:
  received_kit& rows_of(const std::string& test) {
    for (test_rows& t : out_.tests)
      if (t.rows.test == test) return t.rows;
    return out_.nobodys;
  }

  // Notes whose the row is; nullptr where it counts no more.
  received_kit* claim(ruled what, const row_mark& mark, const std::string& owner) {
    out_.owners.push_back({what, mark.entry, owner, mark.test});
    return owners_.taken_back(what, mark.entry) ? nullptr : &rows_of(owner);
  }
  template <typename T>
  void put(ruled what, const row_mark& mark, const std::string& owner, const T& value,
           std::vector<T> received_kit::*list) {
    if (received_kit* to = claim(what, mark, owner)) (to->*list).push_back(value);
  }

  void readings() {
    for (gas_reading r : rows_.readings) {
      const ruling* word = owners_.move_of(r.mark.entry);
      if (word != nullptr) {
        if (word->to_kit != rows_.kit) { // it is another kit's now
          out_.owners.push_back({ruled::reading, r.mark.entry, nobody, r.mark.test, true});
          continue;
        }
        r.sample = word->to_tube;
      } else if (r.kit != rows_.kit && !is_here(r.mark.test)) {
        continue; // it came back to where it was
      }
      r.kit = rows_.kit;
      put(ruled::reading, r.mark, owners_.owner_of(ruled::reading, r.mark), r,
          &received_kit::readings);
    }
  }
  [[nodiscard]] bool is_here(const std::string& test) const {
    return std::any_of(out_.tests.begin(), out_.tests.end(),
                       [&](const test_rows& t) { return t.test.id == test; });
  }

  void conclusions() {
    for (conclusion c : rows_.conclusions) {
      received_kit* to =
          claim(ruled::conclusion, c.mark, owners_.owner_of(ruled::conclusion, c.mark));
      if (to == nullptr) continue;
      // Earlier versions did not number them.
      if (c.number == 0) c.number = static_cast<int>(to->conclusions.size()) + 1;
      to->conclusions.push_back(c);
    }
  }

  void stand(received_kit& one) const {
    one.tubes = standing_tubes(one.arrivals, rows_.tubes, rows_.rulings);
    std::int64_t boxes = 0; // how many entries of the kit's boxes there are up to this one's last
    for (std::size_t i = 0; i < rows_.arrivals.size(); ++i)
      if (!one.arrivals.empty() && rows_.arrivals[i].mark.entry == one.arrivals.back().mark.entry)
        boxes = static_cast<std::int64_t>(i) + 1;
    for (const tube_scan& s : rows_.scans) {
      const bool mine = owners_.owner_of(ruled::scan, s.mark) == one.test;
      const bool once =
          std::find(one.scanned.begin(), one.scanned.end(), s.code) == one.scanned.end();
      if (mine && once && s.boxes >= boxes && !owners_.taken_back(ruled::scan, s.mark.entry))
        one.scanned.push_back(s.code);
    }
  }

  void count_rulings() {
    for (const ruling& r : rows_.rulings) {
      const bool of_tube = r.what == ruled::lid || r.what == ruled::absence ||
                           r.what == ruled::extra || r.what == ruled::label;
      const ruled what = of_tube ? ruled::box : r.what;
      for (const owned_row& row : out_.owners) {
        if (row.what != what || row.entry != r.of) continue;
        for (test_rows& t : out_.tests)
          if (t.test.id == row.test || t.test.id == row.entered_for) ++t.rows.rulings;
      }
    }
  }

  // A sheet that was taken back, with nothing else of its test, is no test any more.
  void drop_empty_sheets() {
    const auto is_empty = [](const test_rows& t) {
      const received_kit& r = t.rows;
      return t.test.from == known_by::sheet && r.papers.empty() && r.arrivals.empty() &&
             r.scanned.empty() && r.readings.empty() && r.overrides.empty() &&
             r.conclusions.empty();
    };
    out_.tests.erase(std::remove_if(out_.tests.begin(), out_.tests.end(), is_empty),
                     out_.tests.end());
  }

  const kit_rows& rows_;
  const owner_finder& owners_;
  kit_file out_;
};

bool has_rows(const received_kit& r) {
  return !r.arrivals.empty() || !r.scanned.empty() || !r.papers.empty() || !r.readings.empty() ||
         !r.choices.empty() || !r.overrides.empty() || !r.conclusions.empty();
}

// Whether a person who knew of all of them said whose the box is.
bool is_ruled(const kit_rows& rows, const std::vector<std::string>& ids) {
  return std::any_of(rows.rulings.begin(), rows.rulings.end(), [&](const ruling& r) {
    return r.what == ruled::kit && std::all_of(ids.begin(), ids.end(), [&](const std::string& id) {
             return std::find(r.known.begin(), r.known.end(), id) != r.known.end();
           });
  });
}

std::vector<std::string> why_stopped(const kit_rows& rows, const kit_file& file) {
  std::vector<std::string> ids;
  for (const bool practice : {false, true}) {
    if (!ids.empty()) break;
    for (const test_rows& t : file.tests)
      if (t.test.practice == practice && !t.test.hidden) ids.push_back(t.test.id);
  }
  std::vector<std::string> out;
  if (ids.size() > 1 && !is_ruled(rows, ids))
    out.push_back(fmt::format("{} tests bear the kit number {}", ids.size(), rows.kit));
  if (!ids.empty() && has_rows(file.nobodys))
    out.push_back(ids.size() > 1
                      ? "what was entered before the second test came is nobody's"
                      : "the box names somebody else than the only test: what no test was known "
                        "for is nobody's");
  return out;
}

} // namespace

kit_file whose(const kit_rows& rows, const std::vector<known_test>& known) {
  const owner_finder owners(rows, known);
  kit_file out = sorter(rows, owners).sorted();
  out.stopped = why_stopped(rows, out);
  for (test_rows& t : out.tests)
    t.rows.stopped = out.stopped;
  out.nobodys.stopped = out.stopped;
  return out;
}

std::vector<receiving_finding> check_identity(const received_kit& kit, const told_person& record,
                                              const told_person& asked_for) {
  std::vector<receiving_finding> out;
  for (const std::string& why : kit.stopped)
    out.push_back({"kit-shared",
                   consequence::cannot_be_used,
                   {},
                   {},
                   why + "; a named person has to say whose the box is"});
  std::vector<std::pair<std::string, told_person>> told{{"the record", record}};
  if (!kit.papers.empty()) told.emplace_back("the sheet", kit.papers.back().who);
  if (!kit.arrivals.empty()) told.emplace_back("the box", kit.arrivals.back().who);
  told.emplace_back("the request", asked_for);
  for (std::size_t i = 0; i < told.size(); ++i) {
    for (std::size_t j = i + 1; j < told.size(); ++j) {
      std::string in;
      for (const std::string& one : person_differences(told[i].second, told[j].second))
        in += (in.empty() ? "" : ", ") + one;
      if (!in.empty())
        out.push_back({"person-differs",
                       consequence::cannot_be_used,
                       {},
                       {},
                       fmt::format("{} and {} do not name the same person: the {} is another",
                                   told[i].first, told[j].first, in)});
    }
  }
  return out;
}

} // namespace qb::inline receiving
