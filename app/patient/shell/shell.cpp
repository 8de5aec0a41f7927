// Starting, drawing a frame, and what a screen is given.
#include "app/patient/shell/shell.hpp"

#include "app/assets/zone_files.hpp"
#include "app/handover/erase_test.hpp"
#include "app/machine/files.hpp"
#include "app/patient/screens/places.hpp"
#include "app/patient/shell/preview.hpp"

#include <algorithm>
#include <filesystem>
#include <limits>

namespace qb {

namespace {

constexpr int practice_pace = 10; // practice seconds a second, except while a breath is guided

bool keeps_pace(step s) {
  return s == step::lead_in || s == step::blowing || s == step::close;
}

} // namespace

bool practice_may_begin(const state& s, const clock_reading& r) {
  if (!s.planned || s.ended) return true;
  const bool over = s.grid && what_now(s, r).what == step::finish;
  return over || (!s.grid && !may_start_early(s, r));
}

result<std::unique_ptr<shell>> shell::open(const shell_options& o, cue_player& cues) {
  std::unique_ptr<shell> h(new shell(o, cues));
  if (const auto read = h->load_assets(); !read) return tl::unexpected(read.error());
  if (const auto done = finish_erasing(o.data); !done) return tl::unexpected(done.error());
  if (h->profile_->value.kiosk) {
    if (const auto gone = erase_practice(o.data); !gone) return tl::unexpected(gone.error());
  }
  if (const auto opened = h->open_newest(); !opened) return tl::unexpected(opened.error());
  if (!o.rehearsal) return h;
  if (!practice_may_begin(h->current(), h->clock_.look()))
    return tl::unexpected(refusal{refusal_kind::not_now, "", "--rehearsal",
                                  "a test whose fast has begun",
                                  "practice before the fast, or after the test"});
  h->switch_practice(true);
  return h;
}

result<void> shell::load_assets() {
  namespace fs = std::filesystem;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(options_.assets + "/texts/en", none)) {
    const std::string path = entry.path().string();
    const auto text = read_file(path);
    if (!text) return tl::unexpected(text.error());
    const auto read = words::read(*text);
    if (!read) return tl::unexpected(in_file(read.error(), path));
    words_.add(*read);
  }
  for (const std::string& id : protocol_ids(options_.assets)) {
    auto test = load_protocol(options_.assets, id);
    if (!test) return tl::unexpected(test.error());
    tests_.push_back({id, std::move(test->canonical_text), std::move(test->value)});
  }
  auto profile = load_profile(options_.assets, options_.profile);
  if (!profile) return tl::unexpected(profile.error());
  profile_ = std::move(*profile);
  const std::string& sheet = profile_->value.label_sheet;
  auto labels = load_label_sheet(options_.assets, sheet.empty() ? usual_labels : sheet);
  if (!labels) return tl::unexpected(labels.error());
  labels_ = std::move(labels->value);
  if (!tests_.empty()) return {};
  return tl::unexpected(refusal{refusal_kind::missing, options_.assets, "protocols", "no protocol",
                                "the program's data files (--assets DIR)"});
}

// Opens the test written last, if any, and goes on where it stood.
result<void> shell::open_newest() {
  forget_running();
  trouble_.clear();
  const std::string folder = tests_folder(options_.data, clock_.practice());
  if (auto made = make_folder(folder); !made) return made;
  const auto path = newest_journal(folder);
  if (!path) return {};
  auto opened = running_test::open(*path);
  if (!opened) return tl::unexpected(opened.error());
  running_ = std::move(*opened);
  ui_.text = running_->drafts();
  if (clock_.practice()) {
    const auto base = parse_practice_base(ui_.text["clock.base"]);
    if (base) clock_ = test_clock(*base);
    const now_answer now = what_now(current(), clock_.look());
    if (now.what == step::finish && current().exported_at) { // a practice that is over starts anew
      running_.reset();
      ui_ = ui_state{};
      return {};
    }
  }
  if (current().last_reading) greet(clock_.look());
  return {};
}

// What happened while the program was off: a due time that passed is stated, not hidden.
void shell::greet(const clock_reading& r) {
  const state& s = current();
  if (!s.person) return;
  off_ = between(*s.last_reading, r).length;
  due_while_off_.reset();
  for (std::size_t i = 0; s.grid && i < s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    const instant due = due_on_wall(s, n, r);
    const bool passed = due <= r.wall && due > r.wall - off_;
    if (!s.samples[i].taken && passed) due_while_off_ = n;
  }
  ui_.open = "return";
  record(resumed{}, r);
}

const state& shell::current() const {
  return running_ ? running_->session().current() : without_record_;
}

bool shell::practice_allowed() const {
  return !clock_.practice() && (!current().last_reading || !current().planned ||
                                practice_may_begin(current(), *current().last_reading));
}

double shell::frame(toolkit& k) {
  if (running_) running_->session().settle();
  const clock_reading r = clock_.look();
  if (!unwritten_.empty()) recover();
  write_what_waits(r); // before anything of this frame is worked out
  keep_shared(r);
  now_answer now = what_now(current(), r);
  set_pace(now);
  if (now.what == step::choose || ui_.open == "choose")
    preview_ = preview_plan(ui_.text, current(), tests_, r.wall, clock_.place());
  find_plan_zone();
  look_for_places();
  make_codes();
  keep_awake(now);
  const std::string open = ui_.open;
  const int page = ui_.page;
  const maybe_wish w = draw_screen(k, make_view(now, r), ui_);
  if (left_place_page(open, page, ui_)) trouble_.clear();
  keep_drafts();
  const bool swapped = call_person(k, now);
  tell_attention(now, r);
  if (w) carry_out(*w, r);
  if (w || swapped) return 0;
  constexpr double soon = 0.1; // what is to be written waits for its page to be read
  if (waits_) return soon;
  constexpr double look_again = 1.0; // a drive that is plugged in is seen within a second
  constexpr double a_minute = 60.0;  // a shared device looks whether a test is to be erased
  const double next = std::min(seconds_to_next(now), cues_.wanted_in());
  if (asks_for_place(ui_.open) || (shared_ && shared_->left)) return std::min(next, look_again);
  return terms().kiosk ? std::min(next, a_minute) : next;
}

// A plan keeps its instants when the device comes to another zone; both times are shown then.
void shell::find_plan_zone() {
  if (!current().planned) return;
  const std::string& name = current().planned->what.zone_name;
  if (name == clock_.place().name() || (plan_zone_ && plan_zone_->name() == name)) return;
  if (auto read = load_zone(name)) plan_zone_ = std::move(*read);
}

view shell::make_view(const now_answer& now, const clock_reading& r) const {
  const state& s = current();
  const lab_profile& lab = terms();
  view v{s, now, r, clock_.place(), words_, tests_, lab, preview_, {}, "", ""};
  v.places = places_;
  v.written = written_;
  v.writing_to = waits_for_;
  v.label_sheet = labels_->name;
  v.shared = shared_;
  v.others = has_others();
  v.tubes_gone = tubes_gone_;
  v.codes = codes_;
  v.kept_in = options_.data;
  tell_trouble(v);
  v.off = off_;
  v.due_while_off = due_while_off_;
  v.practice = clock_.practice();
  v.can_practise = practice_allowed();
  v.sound = cues_.has_sound();
  v.sound_lost = cues_.lost();
  v.may_go_dark = awake_.asked() && !awake_.held();
  if (plan_zone_ && s.planned && s.planned->what.zone_name == plan_zone_->name())
    v.plan_zone = &*plan_zone_;
  return v;
}

// A countdown wants a frame when its next second begins, a guided breath several; where nothing
// counts, the next change of the answer, and where there is none, only an input.
double shell::seconds_to_next(const now_answer& now) const {
  constexpr double guided = 0.1;
  constexpr double second = 1.0;
  if (now.what == step::lead_in || now.what == step::blowing) return guided;
  if (!unwritten_.empty()) return second;
  const double pace = clock_.rate();
  const bool counts = now.to_due && (now.what == step::wait || now.what == step::heads_up ||
                                     now.what == step::breathe || now.what == step::prepare ||
                                     now.what == step::gate);
  if (counts && pace > 1) return second;
  if (counts) {
    const auto part = (*now.to_due - std::chrono::floor<std::chrono::seconds>(*now.to_due)).count();
    return part == 0 ? second : static_cast<double>(part) / 1000.0 + 0.005;
  }
  if (!now.next_change) return std::numeric_limits<double>::infinity();
  return static_cast<double>(now.next_change->count()) / 1000.0 / pace + 0.005;
}

void shell::set_pace(const now_answer& now) {
  if (!clock_.practice()) return;
  const int wanted = keeps_pace(now.what) ? 1 : practice_pace;
  if (clock_.rate() != wanted) keep_base(clock_.set_rate(wanted));
}

void shell::keep_base(const practice_base& b) {
  ui_.text["clock.base"] = practice_base_text(b);
}

void shell::keep_drafts() {
  if (!running_ || !unwritten_.empty()) return;
  // A draft that cannot be kept is said when a fact cannot be: the same disk.
  if (const auto kept = running_->save_drafts(ui_.text); !kept) trouble_ = sentence(kept.error());
}

} // namespace qb
