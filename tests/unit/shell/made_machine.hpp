// A machine for the shell's tests: clocks that move when told to, drives that come and go, a disk
// that can fail as the kernel fails, and a count of the looks at its clocks.
#pragma once

#include "app/machine/machine.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"
#include "tests/unit/machine/later_disk.hpp"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <map>
#include <vector>

namespace qb::test {

// The real disk, but for folders on which writing is told to fail.
class failing_disk : public disk {
public:
  [[nodiscard]] result<std::string> read(const std::string& path) override {
    return this_disk().read(path);
  }
  [[nodiscard]] result<void> write(const std::string& path, const std::string& bytes) override {
    if (before_write) before_write();
    if (const int why = error_at(path); why != 0) return no(path, why);
    return this_disk().write(path, bytes);
  }
  [[nodiscard]] result<void> remove(const std::string& path) override {
    if (const int why = error_at(path); why != 0) return no(path, why);
    return this_disk().remove(path);
  }
  [[nodiscard]] result<void> make_folder(const std::string& path) override {
    return this_disk().make_folder(path);
  }

  std::map<std::string, int> fails;   // folder -> errno
  std::function<void()> before_write; // what happens meanwhile

private:
  [[nodiscard]] int error_at(const std::string& path) const {
    for (const auto& [folder, why] : fails)
      if (path.compare(0, folder.size(), folder) == 0) return why;
    return 0;
  }
  static tl::unexpected<refusal> no(const std::string& path, int why) {
    return tl::unexpected(refusal{refusal_kind::machine, path, "write", std::strerror(why),
                                  "a file that can be used"});
  }
};

class made_machine : public machine {
public:
  // Its own files lie below `folder`.
  made_machine(instant wall, std::string folder) : clock(wall), store(std::move(folder)) {}

  [[nodiscard]] machine_clocks look() override {
    ++looks;
    const clock_reading r = clock.look();
    machine_clocks m;
    m.wall_ms = to_unix_ms(r.wall);
    m.boot_ms = r.boot ? r.boot->time_since_epoch().count() : -1;
    m.boot_id = r.boot_id;
    m.zone = r.zone;
    m.synchronised = r.synchronised;
    return m;
  }
  [[nodiscard]] std::string random_name() override { return "made-" + std::to_string(++names_); }
  [[nodiscard]] std::vector<drive> drives() override { return plugged_in; }
  [[nodiscard]] bool is_drive(const std::string& folder) override {
    for (const drive& d : plugged_in)
      if (d.folder == folder) return true;
    return false;
  }
  [[nodiscard]] place_trouble trouble_at(const std::string& folder, bool was_drive,
                                         const refusal& why) override {
    if (was_drive && !is_drive(folder)) return place_trouble::gone;
    return qb::trouble_at(folder, false, why);
  }
  [[nodiscard]] disk& files() override { return files_double; }
  [[nodiscard]] durable_writes& durable() override { return store; }
  void stay_awake(const std::string&, const std::string&) override { asked_ = true; }
  void let_sleep() override { asked_ = false; }
  [[nodiscard]] awake_answer awake() const override { return {asked_, asked_ && agrees_to_wake}; }

  clock_double clock;
  failing_disk files_double;
  later_disk store;
  std::vector<drive> plugged_in;
  bool agrees_to_wake{true};
  int looks{0};

private:
  bool asked_{false};
  int names_{0};
};

} // namespace qb::test
