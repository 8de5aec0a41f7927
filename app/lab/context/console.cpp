// Where lines go, and how a command says no.
#include "app/lab/context/console.hpp"

#include "app/lab/context/printable.hpp"
#include "core/base/visible.hpp"

#include <unistd.h>

namespace qb::lab {

console console_on(std::FILE* out, std::FILE* err) {
  const auto write = [](std::FILE* to, std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), to);
  };
  console to{[=](const std::string& text) { write(out, visible(text)); },
             [=](const std::string& text) { write(err, visible(text)); },
             [=](const std::string& bytes) { write(out, bytes); }};
  // Only figures of ours go there, with what begins a terminal's line anew.
  if (::isatty(::fileno(err)) == 1)
    to.terminal = [=](const std::string& line) { write(err, line); };
  return to;
}

int say_no(const refusal& no, const console& to) {
  to.err("quarterbreath-lab: " + printable(sentence(no)) + "\n");
  return exit_status(no);
}

} // namespace qb::lab
