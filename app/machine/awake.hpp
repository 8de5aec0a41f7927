// Keeping the device awake while a test runs: it must not sleep, and its screen must not go dark.
// Due times survive a sleep, but nobody is called by a device that sleeps.
#pragma once

#include "core/base/result.hpp"

#include <memory>
#include <string>

namespace qb::inline machines {

// Asks two parties, each of which may say no: the login manager not to suspend or act on idleness
// (an inhibitor lock of logind), and the X server not to blank the screen. Both are let go by
// themselves when the program ends, however it ends.
class awake {
public:
  awake();
  awake(const awake&) = delete;
  awake& operator=(const awake&) = delete;
  ~awake();

  // Asks both, once; asking again while held or refused does nothing until let_go(). Takes a second
  // at the very most. `who` and `why` are shown to a person who asks the machine what keeps it.
  void hold(const std::string& who, const std::string& why);
  void let_go();

  // Has been asked and not let go since.
  [[nodiscard]] bool asked() const { return inside_ != nullptr; }
  // Both agreed. Where one did not, the screen may go dark or the device may sleep.
  [[nodiscard]] bool held() const;
  [[nodiscard]] bool sleep_held() const;  // by the login manager
  [[nodiscard]] bool screen_held() const; // by the X server
  // Why the login manager did not agree, in its own words; empty where it did.
  [[nodiscard]] std::string why_not() const;

private:
  struct inside;
  std::unique_ptr<inside> inside_;
};

} // namespace qb::inline machines
