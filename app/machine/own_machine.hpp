// The machine this program runs on.
#pragma once

#include "app/machine/awake.hpp"
#include "app/machine/machine.hpp"

namespace qb::inline machines {

// Each answer is the system's own at that moment; nothing is kept but the asking to stay awake.
class own_machine : public machine {
public:
  // Drives appear below these folders.
  explicit own_machine(std::vector<std::string> drive_roots);

  [[nodiscard]] machine_clocks look() override;
  [[nodiscard]] std::string random_name() override;
  [[nodiscard]] std::vector<drive> drives() override;
  [[nodiscard]] bool is_drive(const std::string& folder) override;
  [[nodiscard]] place_trouble trouble_at(const std::string& folder, bool was_drive,
                                         const refusal& why) override;
  [[nodiscard]] disk& files() override { return disk_; }
  [[nodiscard]] durable_writes& durable() override { return durable_; }
  void stay_awake(const std::string& who, const std::string& why) override;
  void let_sleep() override;
  [[nodiscard]] awake_answer awake() const override;

private:
  std::vector<std::string> drive_roots_;
  own_disk disk_;
  own_durable durable_;
  qb::awake awake_;
};

} // namespace qb::inline machines
