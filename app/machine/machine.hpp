// The machine as the patient's window sees it: clocks, chance, drives, its disk, and staying awake.
// Passed in, so that a test has one whose clocks are set and whose drives come and go; and so that
// another platform brings another. Nothing above it asks the machine by any other way, blocks on
// it, or assumes that it has a clock since boot.
#pragma once

#include "app/machine/clocks.hpp"
#include "app/machine/disk.hpp"
#include "app/machine/drives.hpp"
#include "app/machine/durable.hpp"

#include <string>
#include <vector>

namespace qb::inline machines {

// What the machine answered to being asked not to sleep and not to go dark.
struct awake_answer {
  bool asked{false}; // and not let go since
  bool held{false};  // all of it agreed
};

// What a platform has to bring. Outlives whatever it is passed to.
class machine {
public:
  machine() = default;
  machine(const machine&) = delete;
  machine& operator=(const machine&) = delete;
  virtual ~machine() = default;

  // All clocks at one moment. A frame asks once.
  [[nodiscard]] virtual machine_clocks look() = 0;
  // 16 hexadecimal digits that nobody can foresee.
  [[nodiscard]] virtual std::string random_name() = 0;

  // The drives that are there now, and whether that folder is one of them.
  [[nodiscard]] virtual std::vector<drive> drives() = 0;
  [[nodiscard]] virtual bool is_drive(const std::string& folder) = 0;
  // What stood against writing there (app/machine/drives.hpp).
  [[nodiscard]] virtual place_trouble trouble_at(const std::string& folder, bool was_drive,
                                                 const refusal& why) = 0;
  // Where files are read and written.
  [[nodiscard]] virtual disk& files() = 0;
  // When what was written to files of our own counts.
  [[nodiscard]] virtual durable_writes& durable() = 0;

  // Asks the machine not to sleep and not to go dark, once; asking again while asked does nothing.
  virtual void stay_awake(const std::string& who, const std::string& why) = 0;
  virtual void let_sleep() = 0;
  [[nodiscard]] virtual awake_answer awake() const = 0;
};

} // namespace qb::inline machines
