// The signs that version 1 of the protocol format took for granted.
#include "core/protocol/version_1.hpp"

namespace qb::inline protocols {

warning_rules warnings_of_version_1() {
  const auto sign = [](const char* id, const char* text) {
    return warning_sign{{}, id, text, false};
  };
  warning_rules out;
  out.signs = {
      sign("pain", "Bad pain, or pain that grows"), sign("fainting", "I feel faint, or I fainted"),
      sign("breathing", "It is hard to breathe"),   sign("confusion", "I feel confused"),
      sign("blood", "Blood in vomit or stool"),     sign("vomiting", "Vomiting again and again")};
  return out;
}

std::vector<breath_spoil> spoils_of_version_1() {
  const auto again = [](const char* id, const char* text) {
    return breath_spoil{{}, id, text, spoil_leads_to::repeat};
  };
  return {again("lid", "The lid was open"), again("short", "I blew too little"),
          again("fell", "The tube fell; it is not broken")};
}

} // namespace qb::inline protocols
