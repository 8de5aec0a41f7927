// What becomes of a wish: a fact recorded, practice begun or left, a test erased.
#include "app/patient/shell/shell.hpp"

namespace qb::inline shells {

namespace {

template <typename... Handlers>
struct handle : Handlers... {
  using Handlers::operator()...;
};
template <typename... Handlers>
handle(Handlers...) -> handle<Handlers...>;

// What makes another test the open one, or none: what waits for the disk would be written to the
// wrong one.
bool leaves_the_test(const wish& w) {
  return std::holds_alternative<begin_practice>(w) || std::holds_alternative<try_first>(w) ||
         std::holds_alternative<leave_practice>(w) || std::holds_alternative<begin_anew>(w) ||
         std::holds_alternative<open_earlier>(w) || std::holds_alternative<erase_test>(w);
}

bool begins_a_test(const wish& w) {
  const auto* told = std::get_if<payload>(&w);
  return told != nullptr && std::holds_alternative<opened>(*told);
}

// What is made of the open record.
bool reads_the_record(const wish& w) {
  return std::holds_alternative<hand_over>(w) || std::holds_alternative<write_papers>(w) ||
         std::holds_alternative<write_reminder_files>(w);
}

// Told a side page that was there for it, which closes then.
bool closes_side(const payload& p) {
  const auto* list = std::get_if<reported_checklist>(&p);
  return std::holds_alternative<plan_made>(p) || std::holds_alternative<reported_unwell>(p) ||
         std::holds_alternative<reported_person>(p) || std::holds_alternative<reported_ready>(p) ||
         (list != nullptr && list->name != kept_list);
}

} // namespace

void shell::carry_out(const wish& w, const frame_time& m) {
  const clock_reading& r = m.now;
  trouble_.clear();
  if (!recovery_.holds(running_)) recovery_.forget_aside(); // was seen: it is told from then on
  const bool waits = (recovery_.holds(running_) && leaves_the_test(w)) ||
                     (recovery_.lost(running_) && reads_the_record(w));
  if (waits) {
    trouble_ = data_.texts("trouble.then");
    return;
  }
  // What opens, leaves, erases or hands over a record must have all of it.
  if (saving() && (begins_a_test(w) || leaves_the_test(w) || reads_the_record(w))) {
    saving_told_ = true;
    return;
  }
  std::visit(handle{[&](const payload& p) { record(p, r); },
                    [&](const record_all& all) {
                      for (const payload& p : all.facts)
                        record(p, r);
                    },
                    [&](const jump_ahead&) {
                      const now_answer now = what_now(current(), r);
                      if (clock_.practice() && now.next_change) clock_.jump(*now.next_change);
                    },
                    [&](const begin_practice&) { begin_practising(r, false); },
                    [&](const try_first&) { begin_practising(r, true); },
                    [&](const leave_practice&) { switch_practice(false); },
                    [&](const try_sound&) { calling_.try_sound(); },
                    [&](const hand_over& h) { writing_.later(w, h.to, m.evenly); },
                    [&](const write_reminder_files& h) { writing_.later(w, h.to, m.evenly); },
                    [&](const write_papers& h) { writing_.later(w, h.to, m.evenly); },
                    [&](const files_seen&) { writing_.seen(); },
                    [&](const begin_anew&) { forget_running(); },
                    [&](const open_earlier&) {
                      if (const auto done = open_newest(); !done) trouble_ = sentence(done.error());
                    },
                    [&](const erase_test&) { erase_running(); }},
             w);
}

void shell::ask_for_help() {
  ui_.nav.open_side(side_page::unwell);
}

void shell::record(payload p, const clock_reading& r) {
  if (!recovery_.holds(running_)) {
    if (std::holds_alternative<opened>(p)) return begin_test(std::move(p), r);
    // Nothing is open, or it is for reading alone: the one thing that can be asked for is help.
    if (!running_ && on_paper_ && !std::holds_alternative<reported_unwell>(p))
      return ui_.nav.close_side();
    if (!running_) return ask_for_help();
  }
  submit(command{std::move(p)}, r);
}

bool shell::saving() const {
  if (!machine_.durable().is_durable(erased_)) return true;
  return running_ && !recovery_.holds(running_) && running_->session().saving();
}

void shell::watch_saving(const frame_time& m) {
  // Shorter than this a notice would be a flicker; the page stands until the write is durable.
  constexpr duration noticed{250};
  if (!saving()) {
    saving_since_.reset();
    saving_told_ = false;
  } else if (!saving_since_) {
    saving_since_ = m.evenly;
  } else if (m.evenly - *saving_since_ >= noticed) {
    saving_told_ = true;
  }
}

void shell::submit(const command& c, const clock_reading& r) {
  const bool meanwhile = saving();
  const auto done = recovery_.tell(c, r, running_);
  if (done) {
    if (closes_side(c.wanted)) ui_.nav.close_side();
    return;
  }
  if (meanwhile) { // the page that was pressed on is not the one that it stands against
    saving_told_ = true;
  } else {
    trouble_ = data_.texts.has(done.error().where) ? data_.texts(done.error().where)
                                                   : done.error().expected;
  }
  if (std::holds_alternative<reported_unwell>(c.wanted)) ask_for_help(); // help waits for nothing
}

// Refused by the disk, it is told again in a later frame; nobody has to be troubled with it.
void shell::report_attention(const now_answer& now, const clock_reading& r) {
  if (!running_ || recovery_.holds(running_) || saving()) return;
  if (const auto told = attention_to_report(current(), now, calling_.how(ui_)))
    (void)running_->session().submit(command{*told}, r);
}

} // namespace qb::inline shells
