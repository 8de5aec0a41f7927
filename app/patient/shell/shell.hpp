// The patient's window without the window: which test runs, on which clock, what the screen is
// given, and what becomes of a wish. The loop calls frame() and shows what it drew.
#pragma once

#include "app/assets/assets.hpp"
#include "app/machine/awake.hpp"
#include "app/patient/screens/screens.hpp"
#include "app/patient/shell/attention.hpp"
#include "app/patient/shell/cues.hpp"
#include "app/patient/shell/running_test.hpp"
#include "app/patient/shell/test_clock.hpp"

#include <deque>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace qb {

// What the window is started with.
struct shell_options {
  std::string data;                     // folder of the device's tests
  std::string assets;                   // folder of data files
  std::string profile;                  // the laboratory's profile, id or path
  std::string program;                  // name and version
  std::vector<std::string> drive_roots; // below which drives appear
  bool rehearsal{false};
};

class shell {
public:
  // Reads assets and opens the newest test there is. Refuses what cannot be read, and practice from
  // the fast of a real test on.
  [[nodiscard]] static result<std::unique_ptr<shell>> open(const shell_options& o,
                                                           cue_player& cues);
  shell(const shell&) = delete;
  shell& operator=(const shell&) = delete;

  // Draws one frame and carries out its wish. Answers the seconds until it is next wanted.
  double frame(toolkit& k);

  [[nodiscard]] const words& texts() const { return words_; }

private:
  shell(shell_options o, cue_player& cues) : options_(std::move(o)), cues_(cues) {}

  [[nodiscard]] result<void> load_assets();
  [[nodiscard]] result<void> open_newest();
  [[nodiscard]] const state& current() const;
  [[nodiscard]] bool practice_allowed() const;
  void greet(const clock_reading& r);

  void carry_out(const wish& w, const clock_reading& r);
  void record(payload p, const clock_reading& r);
  void begin_test(payload first, const clock_reading& r);
  void submit(const command& c, const clock_reading& r);
  // A disk that refuses (host_disk.cpp).
  void keep_for_later(const command& c, const clock_reading& r);
  void recover();
  void switch_practice(bool on);
  [[nodiscard]] bool has_others() const; // tests beside the open one
  void forget_running();                 // nothing of a test is on the screen any more
  void erase_running();
  // A shared device (host_shared.cpp).
  [[nodiscard]] const lab_profile& terms() const;
  void keep_shared(const clock_reading& r);
  void sweep_others(const clock_reading& r);
  // Writing files to a folder or a drive (host_places.cpp).
  void look_for_places();
  void write_soon(wish w, export_place to);
  void write_what_waits(const clock_reading& r);
  template <typename Write>
  std::optional<written_files> written_to(const export_place& to, const std::string& page,
                                          const Write& write);
  void export_to(const export_place& to, const clock_reading& r);
  void write_reminders_to(const export_place& to, const clock_reading& r);
  void write_papers_to(const export_place& to, const clock_reading& r);
  void set_pace(const now_answer& now);
  void keep_base(const practice_base& b);
  void keep_drafts();
  void find_plan_zone();
  void make_codes(); // host_codes.cpp
  // The person's attention (host_attention.cpp).
  [[nodiscard]] attention how_called() const;
  void keep_awake(const now_answer& now);
  // Answers whether the page changes its colours with the next frame.
  bool call_person(toolkit& k, const now_answer& now);
  void tell_attention(const now_answer& now, const clock_reading& r);
  [[nodiscard]] view make_view(const now_answer& now, const clock_reading& r) const;
  void tell_trouble(view& v) const;
  [[nodiscard]] double seconds_to_next(const now_answer& now) const;

  shell_options options_;
  cue_player& cues_;
  words words_;
  std::vector<offered_test> tests_;
  std::optional<loaded<lab_profile>> profile_;
  test_clock clock_;
  awake awake_;
  std::optional<look> usual_look_; // while the page stands in swapped colours
  std::unique_ptr<running_test> running_;
  state without_record_; // what is shown while no record is open: nothing, or what was known last
  ui_state ui_;
  plan_preview preview_;
  std::optional<zone> plan_zone_; // of the standing plan, once it was another than the device's
  std::vector<export_place> places_;
  std::optional<wish> waits_;             // to be written once the page that says so is shown
  std::optional<export_place> waits_for_; // where to
  duration waits_since_{0};               // by the time since boot
  written_files written_;
  std::optional<label_sheet> labels_;    // that the device's laboratory sends
  std::optional<shared_device> shared_;  // of the open test, where its terms say so
  std::optional<duration> notice_since_; // since when it says that it is going to be erased
  std::optional<duration> swept_at_;     // when the other tests were last looked at
  std::vector<code_symbol> codes_;       // of the record as it stood at codes_seq_
  std::int64_t codes_seq_{0};
  bool tubes_gone_{false}; // of the test that was erased last, while its page stands
  std::string trouble_;    // what the last wish was refused for
  duration off_{0};
  std::optional<sample_number> due_while_off_;
  std::deque<std::pair<command, clock_reading>> unwritten_; // wait for the disk, the oldest first
  std::string lost_path_; // of the record that could not be opened again meanwhile
};

// Whether practice may be begun while a real test stands as `s`: not from its fast on, until its
// end. Practice and a test must never be mistaken for each other.
[[nodiscard]] bool practice_may_begin(const state& s, const clock_reading& r);

} // namespace qb
