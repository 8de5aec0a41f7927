// What becomes of a wish: a fact recorded, practice begun or left, a test erased.
#include "app/patient/shell/shell.hpp"

namespace qb {

namespace {

template <typename... Handlers>
struct handle : Handlers... {
  using Handlers::operator()...;
};
template <typename... Handlers>
handle(Handlers...) -> handle<Handlers...>;

} // namespace

void shell::carry_out(const wish& w, const frame_time& m) {
  const clock_reading& r = m.now;
  trouble_.clear();
  // While the record cannot be opened only facts are taken, to be written later.
  const bool fact = std::holds_alternative<payload>(w) || std::holds_alternative<record_all>(w);
  if (recovery_.lost(running_) && !fact) return;
  std::visit(handle{[&](const payload& p) { record(p, r); },
                    [&](const record_all& all) {
                      for (const payload& p : all.facts) {
                        // What is not written is asked again; only help is not.
                        const bool waits = recovery_.lost(running_) || recovery_.waiting();
                        if (waits && !std::holds_alternative<reported_unwell>(p)) continue;
                        record(p, r);
                      }
                    },
                    [&](const jump_ahead&) {
                      const now_answer now = what_now(current(), r);
                      if (clock_.practice() && now.next_change) clock_.jump(*now.next_change);
                    },
                    [&](const begin_practice&) { switch_practice(true); },
                    [&](const try_first&) { begin_trial(); },
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
  if (recovery_.lost(running_) || recovery_.waiting())
    return keep_for_later(command{std::move(p)}, r);
  if (std::holds_alternative<opened>(p)) return begin_test(std::move(p), r);
  // Nothing is open yet: the one thing that can be asked for is help.
  if (!running_) return ask_for_help();
  submit(command{std::move(p)}, r);
}

void shell::keep_for_later(const command& c, const clock_reading& r) {
  recovery_.keep(c, r);
  // Help does not wait for a disk.
  const bool ended = std::holds_alternative<test_ended>(c.wanted);
  if (is_always_heard(c.wanted) && !ended) ask_for_help();
}

void shell::submit(const command& c, const clock_reading& r) {
  const auto done = running_->session().submit(c, r);
  if (done) {
    const auto* list = std::get_if<reported_checklist>(&c.wanted);
    const bool leaves_side_page = std::holds_alternative<plan_made>(c.wanted) ||
                                  std::holds_alternative<reported_person>(c.wanted) ||
                                  std::holds_alternative<reported_ready>(c.wanted) ||
                                  (list != nullptr && list->name != kept_list);
    if (leaves_side_page) ui_.nav.close_side();
    return;
  }
  if (done.error().kind == refusal_kind::machine) {
    return keep_for_later(c, r);
  }
  trouble_ =
      data_.texts.has(done.error().where) ? data_.texts(done.error().where) : done.error().expected;
}

// Refused by the disk, it is told again in a later frame; nobody has to be troubled with it.
void shell::report_attention(const now_answer& now, const clock_reading& r) {
  if (!running_ || recovery_.waiting()) return;
  if (const auto told = attention_to_report(current(), now, calling_.how(ui_)))
    (void)running_->session().submit(command{*told}, r);
}

} // namespace qb
