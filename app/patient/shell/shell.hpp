// The patient's window without the window: which test runs, on which clock, what the screen is
// given, and what becomes of a wish. The loop calls frame() and shows what it drew.
//
// One frame is one look at the clocks: shown, decided and recorded go by it. Its parts have files
// of their own: what waits for the disk (recovery), files (file_writing), calling the person
// (calling), a shared device (sharing), practice's clock (test_clock).
#pragma once

#include "app/patient/screens/screens.hpp"
#include "app/patient/shell/calling.hpp"
#include "app/patient/shell/device_data.hpp"
#include "app/patient/shell/file_writing.hpp"
#include "app/patient/shell/opening.hpp"
#include "app/patient/shell/recovery.hpp"
#include "app/patient/shell/running_test.hpp"
#include "app/patient/shell/sharing.hpp"
#include "app/patient/shell/test_clock.hpp"
#include "app/patient/shell/trembling.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline shells {

// What the window is started with.
struct shell_options {
  std::string data;    // folder of the device's tests
  std::string assets;  // folder of data files
  std::string profile; // the laboratory's profile, id or path
  std::string program; // name and version
  bool rehearsal{false};
};

// A hand-over that is being written: where to, since when, and what the first writing gave.
struct exporting {
  export_place to;
  instant at;
  handover::export_keys keys;
  std::optional<written_files> files;
};

// One window's tests, from its opening to its end.
class shell {
public:
  // Reads assets and opens the newest test there is. Refuses what cannot be read, and practice from
  // the fast of a real test on. Machine and cues must outlive it.
  [[nodiscard]] static result<std::unique_ptr<shell>> open(const shell_options& o, machine& m,
                                                           cue_player& cues);
  shell(const shell&) = delete;
  shell& operator=(const shell&) = delete;

  // Draws one frame of that size and carries out its wish. Answers the seconds until it is next
  // wanted.
  double frame(toolkit& k, float width, float height);

  [[nodiscard]] const words& texts() const { return data_.texts; }
  // Tests of the assets that nobody is offered, and why.
  [[nodiscard]] const std::vector<refusal>& not_offered() const { return data_.not_offered; }

private:
  shell(shell_options o, device_data data, machine& m, cue_player& cues);

  // Which test runs (shell_tests.cpp).
  [[nodiscard]] result<void> open_newest();
  void keep_beside_record();
  void greet(const clock_reading& r);
  void begin_test(payload first, const clock_reading& r);
  void switch_practice(bool on);
  void begin_trial(); // practice that begins at the glass
  [[nodiscard]] bool practice_allowed(const clock_reading& r) const;
  void begin_practising(const clock_reading& r, bool trial);
  [[nodiscard]] bool has_others() const; // tests beside the open one
  void forget_running();                 // nothing of a test is on the screen any more
  void erase_running();
  void keep_shared(const frame_time& m);
  void sweep_others(const frame_time& m);

  // What becomes of a wish (shell_wishes.cpp).
  void carry_out(const wish& w, const frame_time& m);
  void record(payload p, const clock_reading& r);
  void submit(const command& c, const clock_reading& r);
  void ask_for_help();
  void report_attention(const now_answer& now, const clock_reading& r);
  [[nodiscard]] bool saving() const; // what was told or taken away last is not durable yet
  void watch_saving(const frame_time& m);

  // Files (shell_files.cpp).
  void write_what_waits(const frame_time& m);
  void export_to(const export_place& to, const clock_reading& r);
  void finish_export();
  [[nodiscard]] std::optional<written_files> write_record();
  void write_reminders_to(const export_place& to, const clock_reading& r);
  void write_papers_to(const export_place& to, const clock_reading& r);
  void make_codes();

  // A frame (shell.cpp).
  [[nodiscard]] const state& current() const;
  [[nodiscard]] const lab_profile& terms() const;
  double draw(toolkit& k, const frame_time& m);
  void set_pace(const now_answer& now);
  void keep_drafts();
  void find_plan_zone();
  [[nodiscard]] view make_view(const now_answer& now, const clock_reading& r) const;
  void tell_trouble(view& v) const;
  [[nodiscard]] double seconds_to_next(const now_answer& now) const;
  [[nodiscard]] double wanted_in(const now_answer& now) const;

  shell_options options_;
  device_data data_;
  machine& machine_;
  test_clock clock_;
  calling calling_;
  file_writing writing_;
  recovery recovery_;
  sharing sharing_;
  trembling hand_;
  std::unique_ptr<running_test> running_;
  state nothing_; // what is shown while no record is open, or one for reading alone
  std::optional<salvage_note> salvaged_; // of the open test, until it is left
  std::optional<paper_why> on_paper_;    // nothing is recorded
  std::string noted_as_running_;         // the journal that the index names
  ui_state ui_;
  plan_preview preview_;
  std::optional<zone> plan_zone_; // of the standing plan, once it was another than the device's
  std::optional<shared_device> shared_; // of the open test, where its terms say so
  std::vector<code::symbol> codes_;     // of the record as it stood at codes_seq_
  std::int64_t codes_seq_{0};
  bool draft_refused_{false};            // what was typed waits for the disk too
  bool tubes_gone_{false};               // of the test that was erased last, while its page stands
  std::string trouble_;                  // what the last wish was refused for
  written_mark erased_{0};               // the last erasing
  std::optional<duration> saving_since_; // by the even time
  bool saving_told_{false};              // for so long, or something else was pressed meanwhile
  std::optional<exporting> under_way_;   // waits for the fact that it was handed over
  duration off_{0};
  std::optional<sample_number> due_while_off_;
};

// Whether practice may be begun while a real test stands as `s`: not from its fast on, until its
// end. Practice and a test must never be mistaken for each other.
[[nodiscard]] bool practice_may_begin(const state& s, const clock_reading& r);

} // namespace qb::inline shells
