// A screen of handing over or erasing in a made-up window, with places to write to and, where
// wished, on a shared device.
#pragma once

#include "tests/unit/screens/stage.hpp"

namespace qb::test {

inline const export_place own_place{"a-folder/quarterbreath/handed-over", "A folder on this device",
                                    false};
inline const export_place blue{"media/someone-with-a-long-name/BLUE-LABEL-32",
                               "The drive BLUE-LABEL-32", true, "BLUE-LABEL-32"};

// A stage with places to write to, and with what a shared device says.
struct handing_stage : stage {
  explicit handing_stage(test::screen shown_first, float width = 360, float height = 640)
      : stage(shown_first, width, height) {
    h.draw = [this](toolkit& k) {
      view v = m.get();
      v.places = places;
      v.written = written;
      v.writing_to = writing_to;
      v.shared = shared;
      v.others = others;
      v.tubes_gone = tubes_gone;
      v.due_while_off = due_while_off;
      v.codes = codes;
      v.label_sheet = "A4, 3 by 8 labels of 70 x 37 mm";
      if (auto w = what(k, v, u)) wished = w;
    };
  }
  void become_shared() {
    m.lab.kiosk = kiosk_terms{true, std::chrono::hours{72}, std::chrono::minutes{15}};
    shared = shared_device{m.instant_of("2027-04-09 12:00"), std::nullopt};
  }
  // Some minutes after the last tube's time, with tube 1 taken.
  void finish() {
    planned(m);
    m.go_to("2027-04-06 07:30");
    m.tell(tube_closed{sample_number(1)});
    m.tell(drink_started{});
    m.tell(test_ended{"stopped"});
    m.go_to("2027-04-06 11:00");
  }

  std::vector<export_place> places{own_place, blue};
  written_files written;
  std::optional<export_place> writing_to;
  std::optional<shared_device> shared;
  bool others{false};
  bool tubes_gone{false};
  std::optional<sample_number> due_while_off;
  std::vector<code::symbol> codes;
};

inline written_files written_for(side_page page, const export_place& to) {
  return {page, {to.folder + "/quarterbreath-QB7-4410-2.sheet.pdf.age"}, to, true, true};
}

} // namespace qb::test
