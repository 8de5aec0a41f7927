// The loop of receiving. What was told is kept before anything is answered, so that a kill between
// two lines loses nothing: a kit's line keeps that it came, a box's line the rest.
#include "app/lab/commands/day.hpp"
#include "app/lab/commands/paper.hpp"
#include "app/lab/context/kit_tests.hpp"
#include "app/lab/context/person_options.hpp"
#include "app/lab/context/receive_kit.hpp"
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/context/typed_line.hpp"
#include "app/lab/intake/box_options.hpp"
#include "app/lab/intake/read_code.hpp"
#include "app/lab/render/receive_text.hpp"
#include "app/machine/files.hpp"
#include "core/base/text.hpp"
#include "core/code/code_text.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <set>

namespace qb::lab {

namespace {

constexpr const char* help =
    "A kit first: its number, its code, a tube's label, or the scanned code text. Then its box in "
    "words, and\n"
    "Enter: y (identifiers are the request's) or n, -7 (tube 7 missing), !4 (bad lid), +11 (one\n"
    "more), 4@08:16 (a label's time), arrived DATE TIME, posted DATE, tested DATE, whole, "
    "partial,\n"
    "stopped, a test's id, lot L7, expires DATE, stored room (cool, warm, frozen). An empty line: "
    "all tubes are here, identifiers not compared.\n"
    "who NAME, born DATE, hospital NUMBER, order NUMBER: whose the label says it is, as far as it\n"
    "does.\n"
    "paper [TEST] DATE 07:30 07:45 - ... drink 07:32-07:34 keeps a sheet of a kit without a log.\n"
    "q ends.\n";

// A kit that is being received.
struct box_at_hand {
  kept_kit of;          // as it was when it was looked at
  std::size_t which{0}; // of its tests
  received_kit received;
  known_kit known;
  std::string protocol{};             // of the kit's code, where that was read
  std::vector<std::string> scanned{}; // tubes' codes so far
};

class receiver {
public:
  // `posted`: of every box whose words say nothing else.
  receiver(lab_context& at, const tube_codes& codes, std::optional<civil_date> posted,
           const console& to)
      : at_(at), codes_(codes), posted_(posted), to_(to) {}

  [[nodiscard]] int status() const { return status_; }

  // Answers false at the end.
  bool line(const std::string& typed) {
    ++lines_;
    const std::string text = trimmed(typed);
    if (text == "q") return false;
    if (text == "?") {
      to_.out(help);
    } else if (code::looks_scanned(text)) {
      scanned(text);
    } else if (!doubts_.empty() && (text == "y" || text == "n")) {
      answered(text == "y");
    } else if (!text.empty() && codes_.count(text) == 0 && tube_on_label(at_, text)) {
      if (!open_)
        open(text);
      else
        tube_scanned(text);
    } else if (!text.empty() && (tests_shown_.count(text) != 0 || is_kit(at_, codes_, text))) {
      open(text);
    } else if (!open_) {
      if (!text.empty()) refuse(no_kit("no kit is open", "a kit number, its code, or code text"));
    } else if (text.rfind("who ", 0) == 0) {
      (void)who(text.substr(text.find(' ') + 1));
    } else if (text.rfind("paper ", 0) == 0) {
      paper(text.substr(text.find(' ') + 1), {});
    } else if (codes_.count(text) != 0) {
      tube_scanned(text);
    } else {
      box(text);
    }
    return !machine_failed_;
  }

  void open(const std::string& text) {
    doubts_.clear();
    box_at_hand next;
    // A test's id opens its kit too: which of several tests is meant.
    const auto of_test = kit_of_test(at_, text);
    if (!of_test) return refuse(of_test.error());
    const std::string test = of_test->has_value() ? text : std::string();
    const auto kit = of_test->has_value() ? result<std::string>(**of_test)
                                          : kit_number_in(at_, text, next.protocol);
    if (!kit) return refuse(kit.error());
    if (!look(next, *kit, test)) return;
    if (const auto meant = ask_of_new_kit(at_, next.of, to_); !meant) return refuse(meant.error());
    if (next.received.arrivals.empty() && !keep_arrival(next)) return;
    open_ = std::move(next);
    if (at_.shared().format == output_format::text)
      to_.out(kit_line(at_, open_->received, open_->known));
    take_up_scans();
    if (codes_.count(text) == 0 && tube_on_label(at_, text)) tube_scanned(text);
  }

  void box(const std::string& text) {
    auto words = read_box_options(text, codes_);
    if (!words) return refuse(words.error());
    words->codes.insert(words->codes.end(), open_->scanned.begin(), open_->scanned.end());
    const auto by = named_person(at_, work_act::receive);
    if (!by) return refuse(by.error());
    auto told = arrival_of(*words, *by, true);
    if (!told) return refuse(told.error());
    const auto test = the_test(told->protocol);
    if (!test) return refuse(test.error());
    told->protocol = (*test)->id;
    const auto tubes = tubes_of(*words, **test);
    if (!tubes) return refuse(tubes.error());
    std::vector<tube_row> rows;
    for (const received_tube& t : *tubes)
      rows.push_back(row_of(t, open_->of.kit, open_->received.test));
    const auto kept = at_.received().put_box(row_of(*told), std::move(rows), open_->of.seen);
    if (!kept) return refuse(kept.error());
    if (look_again()) answer();
    open_.reset();
  }

  // Whose the label says the box is. Kept at once, as an entry of the box without its tubes.
  bool who(const std::string& line) {
    const auto person = read_person_line(line);
    if (!person) return refuse(person.error()), false;
    return keep_person(*person);
  }
  bool keep_person(const told_person& person) {
    const auto by = named_person(at_, work_act::receive);
    if (!by) return refuse(by.error()), false;
    auto told = arrival_of({}, *by, false);
    if (!told) return refuse(told.error()), false;
    told->who = told_again(told->who, person);
    const auto kept = at_.received().put(row_of(*told), open_->of.seen);
    if (!kept) return refuse(kept.error()), false;
    if (!look_again()) return false;
    for (const receiving_finding& f :
         check_identity(open_->received, open_->known.who, open_->known.asked_for))
      to_.out("  ! " + f.words + "\n");
    if (at_.shared().format == output_format::text) to_.out("  kept: whose it is\n");
    return true;
  }
  [[nodiscard]] bool has_open() const { return open_.has_value(); }

private:
  // A column belongs to the line that was typed; lines that were scanned count too.
  [[nodiscard]] refusal in_line(refusal no) const {
    if (lines_ > 0)
      no.where = fmt::format("line {}{}{}", lines_, no.where.empty() ? "" : ", ", no.where);
    return no;
  }

  void refuse(const refusal& no) {
    machine_failed_ = machine_failed_ || no.kind == refusal_kind::machine;
    const int status = say_no(in_line(no), to_);
    status_ = status_ == 1 ? 1 : status;
    if (!open_) return;
    // What came is shown, and stands from now on as what was seen.
    const std::string came = came_since_look(at_, open_->of, no);
    if (!came.empty() && look_again()) to_.out(came);
  }

  // Looks at that kit, and at the one of its tests that is meant. Where it is not said which, all
  // are shown, and a line with a test's id opens that one.
  bool look(box_at_hand& box, const std::string& kit, const std::string& test) {
    auto of = open_kit(at_, kit);
    if (!of) return refuse(of.error()), false;
    const auto which = which_test(at_, *of, test);
    if (!which) {
      to_.out(side_by_side(*of));
      for (const kept_test& t : of->tests)
        tests_shown_.insert(t.received.test);
      return refuse(which.error()), false;
    }
    box.of = std::move(*of);
    box.which = *which;
    box.received = box.of.tests[*which].received;
    box.known = box.of.tests[*which].known;
    return true;
  }
  // The same test of the same kit as it is now; another that came first is not slipped under it.
  bool look_again() {
    box_at_hand& box = *open_;
    const std::string test = box.received.test;
    auto of = open_kit(at_, box.of.kit);
    if (!of) return refuse_once(of.error());
    const auto same = std::find_if(of->tests.begin(), of->tests.end(),
                                   [&](const kept_test& t) { return t.received.test == test; });
    // A box that no test was known for is the only one's by now, or nobody's.
    const auto at = same != of->tests.end() ? same - of->tests.begin() : 0;
    if (same == of->tests.end() && of->tests.size() > 1) {
      to_.out(side_by_side(*of));
      open_.reset();
      return false;
    }
    box.which = static_cast<std::size_t>(at);
    box.of = std::move(*of);
    box.received = box.of.tests[box.which].received;
    box.known = box.of.tests[box.which].known;
    return true;
  }
  bool refuse_once(const refusal& no) {
    open_.reset();
    refuse(no);
    return false;
  }

  // A box that was told keeps its tubes unless they are told again; a scan then only ticks one.
  result<std::vector<received_tube>> tubes_of(const box_options& words, const protocol& test) {
    const auto blown =
        open_->known.told ? open_->known.told->labels : std::vector<std::optional<day_minute>>();
    const std::size_t samples = blown.empty() ? test.samples() : blown.size();
    const bool settled = !open_->received.tubes.empty();
    box_options typed = words;
    typed.codes.clear();
    auto tubes = !settled || tells_tubes(typed)
                     ? stated_tubes(typed, samples, blown)
                     : result<std::vector<received_tube>>(open_->received.tubes); // as told before
    if (!tubes) return tubes;
    if (const auto no = add_codes(words, codes_, open_->received.kit, settled, *tubes))
      return tl::unexpected(*no);
    return tubes;
  }

  // That it came is kept at once, whatever is told of it later.
  bool keep_arrival(box_at_hand& box) {
    const auto by = named_person(at_, work_act::receive);
    if (!by) return refuse(by.error()), false;
    arrival a;
    a.kit = box.of.kit;
    a.at = at_.now();
    a.entered = a.at;
    a.by = *by;
    a.protocol = box.known.told          ? box.known.told->protocol
                 : !box.protocol.empty() ? box.protocol
                                         : box.known.supply.protocol;
    a.mark.test = box.received.test;
    if (const auto kept = at_.received().put(row_of(a), box.of.seen); !kept)
      return refuse(kept.error()), false;
    const std::string protocol = box.protocol;
    if (!look(box, box.of.kit, a.mark.test)) return false;
    box.protocol = protocol;
    return true;
  }

  // What is not told now stands as it was told before.
  result<arrival> arrival_of(const box_options& w, const std::string& by, bool by_words) const {
    arrival a = open_->received.arrivals.back();
    a.kit = open_->of.kit;
    a.mark = {0, open_->received.test};
    a.by = by;
    a.entered = at_.now();
    if (w.identifiers != stated::not_stated) a.identifiers = w.identifiers;
    if (!a.posted && by_words) a.posted = posted_;
    if (w.posted) a.posted = w.posted;
    if (w.tested) a.tested = w.tested;
    if (w.completed != stated::not_stated) a.completed = w.completed;
    if (w.stopped != stated::not_stated) a.stopped = w.stopped;
    if (!w.supply.lot.empty()) a.supply.lot = w.supply.lot;
    if (w.supply.expires) a.supply.expires = w.supply.expires;
    if (!w.stored.empty()) a.stored = w.stored;
    if (!w.protocol.empty()) a.protocol = w.protocol;
    if (a.protocol.empty()) a.protocol = open_->protocol;
    if (w.arrived) {
      const auto moment = moment_in(at_.place(), *w.arrived, "arrived");
      if (!moment) return tl::unexpected(moment.error());
      a.at = *moment;
    }
    if (a.at > at_.now())
      return tl::unexpected(refusal{refusal_kind::out_of_range, "", "arrived", "a time to come",
                                    "when the box arrived"});
    return a;
  }

  [[nodiscard]] result<const protocol*> the_test(const std::string& told) const {
    const std::string id = !told.empty()       ? told
                           : open_->known.told ? open_->known.told->protocol
                                               : open_->known.supply.protocol;
    const protocol* test = at_.test(id);
    if (test != nullptr) return test;
    return tl::unexpected(no_kit(id.empty() ? "a box whose test nobody told" : "no test of that id",
                                 "the test's id among the box's words (lactulose-10g)"));
  }

  // What was scanned before `receive` was left, and not told with its box.
  void take_up_scans() {
    const auto& before = open_->received.scanned;
    if (before.empty()) return;
    for (const std::string& code : before)
      if (tube_scanned_as(codes_, code)) open_->scanned.push_back(code);
    if (at_.shared().format != output_format::text) return;
    const std::size_t n = before.size();
    const std::string count =
        fmt::format("{} tube{} scanned before", n, n == 1 ? " was" : "s were");
    to_.out("  " + count +
            (open_->scanned.empty() ? "; --tube-codes FILE names them\n"
                                    : "; scan the others, then Enter\n"));
  }

  void tube_scanned(const std::string& code) {
    const known_tube known = tube_scanned_as(codes_, code).value();
    if (known.kit != open_->received.kit)
      return refuse(no_kit("a tube of kit " + known.kit, "tubes of the kit that is open"));
    auto& all = open_->scanned;
    if (std::find(all.begin(), all.end(), code) == all.end()) {
      const auto by = named_person(at_, work_act::receive);
      if (!by) return refuse(by.error());
      tube_scan scan{open_->of.kit, 0, code, {0, open_->received.test}};
      scan.boxes = static_cast<std::int64_t>(open_->of.rows.arrivals.size());
      const auto kept = at_.received().put(row_of(scan, *by, at_.now()), open_->of.seen);
      if (!kept) return refuse(kept.error());
      all.push_back(code);
      if (!look_again()) return;
    }
    to_.out(fmt::format("  tube {} ({} scanned)\n", known.sample, all.size()));
  }

  // A result in codes: its parts come in any order, each a line.
  void scanned(const std::string& text) {
    codes_so_far_ += text + "\n";
    const code::scanned_codes read = code::read_codes(codes_so_far_);
    if (read.contents.empty()) {
      const bool part = code::read_codes(text).refused.size() == 1 &&
                        read.refused.front().kind == refusal_kind::missing;
      if (part) {
        to_.out("  one part; scan the others\n");
      } else {
        codes_so_far_.clear();
        refuse(read.refused.front());
      }
      return;
    }
    const taken_codes done = take_in_codes(at_.logs(), codes_so_far_, {at_.options().rehearsals});
    codes_so_far_.clear();
    for (const refusal& no : done.refused)
      refuse(no);
    const auto result = code::unpack(read.contents.front());
    if (done.refused.empty() && result) open(result->kit_number);
  }

  void paper(const std::string& line, const std::set<std::string>& confirmed) {
    const arrival& a = open_->received.arrivals.back();
    // Where nothing else tells the test, its id is the first word.
    const std::string first = line.substr(0, line.find(' '));
    const bool reported_here = at_.test(first) != nullptr;
    const auto test = the_test(reported_here        ? first
                               : a.protocol.empty() ? open_->protocol
                                                    : a.protocol);
    if (!test) return refuse(test.error());
    const std::string sheet = reported_here ? line.substr(first.size()) : line;
    const auto done =
        enter_paper_line(at_, open_->of, open_->which, **test, {a.tested, sheet, confirmed, a.who});
    if (!done) return refuse(done.error());
    for (const paper_question& q : done->questions) {
      to_.out(fmt::format("  {} (y or n)\n", q.words));
      doubts_.insert(doubt_text(q.what));
    }
    sheet_ = line;
    if (done->questions.empty() && look_again()) to_.out(fmt::format("  kept: {}\n", paper_words));
  }

  void answered(bool yes) {
    const std::set<std::string> confirmed = std::move(doubts_);
    doubts_.clear();
    if (yes) return paper(sheet_, confirmed);
    to_.out("  not kept; type the sheet again\n");
  }

  void answer() {
    to_.out(at_.shared().format == output_format::json
                ? json::canonical(receive_json(at_, open_->received, open_->known)) + "\n"
                : box_lines(at_, open_->received, open_->known));
  }

  lab_context& at_;
  const tube_codes& codes_;
  std::optional<civil_date> posted_;
  const console& to_;
  std::optional<box_at_hand> open_;
  std::string codes_so_far_; // parts of a result that is not whole yet
  std::string sheet_;        // the paper line that was asked about
  std::set<std::string> doubts_;
  int lines_{0};                      // that were typed so far; 0: told by options
  std::set<std::string> tests_shown_; // of numbers that several bear: their ids open them
  int status_{0};
  bool machine_failed_{false};
};

int receive_all(receiver& received, const lab_context_options& o, const console& to) {
  to.out("A kit's number, its code, or code text; ? for help, q to end.\n");
  bool too_long = false;
  int status = 0;
  while (const auto line = read_line(o.standard_input, too_long)) {
    if (too_long) {
      status = say_no({refusal_kind::out_of_range, "", "line", "a line without end",
                       fmt::format("at most {} bytes", most_line)},
                      to);
      continue;
    }
    if (!received.line(*line)) break;
  }
  return received.status() == 0 ? status : received.status();
}

} // namespace

result<tube_codes> load_tube_codes(const std::string& path) {
  if (path.empty()) return tube_codes{};
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto codes = read_tube_codes(*text);
  if (!codes) return tl::unexpected(in_file(codes.error(), path));
  return codes;
}

namespace {

result<std::optional<civil_date>> posted_in(const receive_options& o) {
  if (o.posted.empty()) return std::optional<civil_date>();
  const auto day = parse_date(o.posted);
  if (day) return std::optional(*day);
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", "--posted", "no day", "a day as YYYY-MM-DD"});
}

} // namespace

int receive_boxes(const shared_options& shared, const lab_context_options& o,
                  const receive_options& options, const console& to) {
  if (const auto by = named_person(shared, o, work_act::receive); !by)
    return say_no(by.error(), to);
  const auto codes = load_tube_codes(options.tube_codes);
  if (!codes) return say_no(codes.error(), to);
  const auto posted = posted_in(options);
  if (!posted) return say_no(posted.error(), to);
  auto at = lab_context::open(shared, o, true);
  if (!at) return say_no(at.error(), to);
  receiver received(*at, *codes, *posted, to);
  if (options.kit.empty()) return receive_all(received, o, to);
  received.open(options.kit);
  const auto person = person_in(options.who);
  if (!person) return say_no(person.error(), to);
  if (received.has_open() && tells_anything(*person) && !received.keep_person(*person))
    return received.status();
  if (received.has_open() && received.status() == 0) received.box(options.box);
  return received.status();
}

} // namespace qb::lab
