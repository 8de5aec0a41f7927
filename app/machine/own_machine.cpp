// Each question to the part of the machine that answers it.
#include "app/machine/own_machine.hpp"

#include "app/machine/surroundings.hpp"

namespace qb::inline machines {

own_machine::own_machine(std::vector<std::string> drive_roots)
    : drive_roots_(std::move(drive_roots)) {}

machine_clocks own_machine::look() {
  return read_clocks();
}

std::string own_machine::random_name() {
  return qb::random_name();
}

std::vector<drive> own_machine::drives() {
  return drives_below(drive_roots_);
}

bool own_machine::is_drive(const std::string& folder) {
  return qb::is_drive(folder);
}

place_trouble own_machine::trouble_at(const std::string& folder, bool was_drive,
                                      const refusal& why) {
  return qb::trouble_at(folder, was_drive, why);
}

void own_machine::stay_awake(const std::string& who, const std::string& why) {
  awake_.hold(who, why);
}

void own_machine::let_sleep() {
  awake_.let_go();
}

awake_answer own_machine::awake() const {
  return {awake_.asked(), awake_.held()};
}

} // namespace qb::inline machines
