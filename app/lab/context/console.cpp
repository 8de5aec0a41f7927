// How a command says no.
#include "app/lab/context/console.hpp"

#include "app/lab/context/printable.hpp"

namespace qb::lab {

int say_no(const refusal& no, const console& to) {
  to.err("quarterbreath-lab: " + printable(sentence(no)) + "\n");
  return exit_status(no);
}

} // namespace qb::lab
