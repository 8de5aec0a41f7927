// Calling the person: the device kept awake, the cues, the page in swapped colours.
// What of it belongs into the record, attention.hpp says.
#pragma once

#include "app/machine/machine.hpp"
#include "app/patient/shell/attention.hpp"
#include "app/patient/shell/cues.hpp"

#include <optional>

namespace qb::inline shells {

// Machine and cues must outlive it.
class calling {
public:
  calling(machine& m, cue_player& cues) : machine_(m), cues_(cues) {}

  // How the person is called now.
  [[nodiscard]] attention how(const ui_state& u) const;

  // Asks the device to stay awake while a test runs, and from the gate's list on, which speaks of
  // it; else lets it sleep. `why` is for whoever asks the machine what keeps it.
  void keep_awake(const state& s, const now_answer& now, const ui_state& u, const std::string& why);

  // Sounds what the change of the answer calls for. Answers whether the page changes its colours:
  // a new look shows from the next frame on, since this one's paper is already laid.
  bool call(toolkit& k, const now_answer& now, const ui_state& u, duration evenly);

  [[nodiscard]] bool has_sound() const { return cues_.has_sound(); }
  [[nodiscard]] bool sound_lost() const { return cues_.lost(); }
  [[nodiscard]] bool may_go_dark() const;
  [[nodiscard]] double wanted_in() const { return cues_.wanted_in(); }
  void try_sound() { cues_.play(glass::cue::now); }

private:
  machine& machine_;
  cue_player& cues_;
  std::optional<look> usual_; // while the page stands in swapped colours
};

} // namespace qb::inline shells
