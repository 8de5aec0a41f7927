// Window, toolkit and shell tied together: one run of the patient's window, on whatever it is
// shown.
#pragma once

#include "app/glass/window.hpp"
#include "app/patient/shell/shell.hpp"
#include "app/patient/theme/glyph_supply.hpp"
#include "app/patient/theme/theme.hpp"

#include <functional>
#include <optional>

namespace qb::patient {

// The two files of letters. Refuses where one cannot be read.
[[nodiscard]] result<font_bytes> load_fonts();

// Builds the letters for each size the window takes, draws the shell's frames, and shows what was
// drawn to a mirror. Window and shell must outlive it.
class showing {
public:
  // What was drawn, for tests and for a voice; what it refuses ends the run.
  using mirror = std::function<result<void>(const outline&)>;

  // An empty mirror is none.
  showing(glass::window& w, shell& s, look l, font_bytes bytes, mirror m);
  showing(const showing&) = delete;
  showing& operator=(const showing&) = delete;

  // As window::run, whose calls are this object's.
  glass::loop_report run();

  [[nodiscard]] const std::optional<refusal>& failed() const { return failed_; }

private:
  void build(glass::frame_size size);
  void show_mirror(const glass::frame_info& info, bool settled);

  glass::window& window_;
  shell& shell_;
  font_bytes bytes_;
  glyph_supply supply_;
  fonts fonts_;
  toolkit toolkit_;
  mirror mirror_;
  std::optional<refusal> failed_;
};

} // namespace qb::patient
