// Where lines go, and how a command says no.
#include "app/lab/context/console.hpp"

#include "app/lab/context/printable.hpp"
#include "core/base/visible.hpp"

namespace qb::lab {

console console_on(std::FILE* out, std::FILE* err) {
  const auto write = [](std::FILE* to, std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), to);
  };
  return {[=](const std::string& text) { write(out, visible(text)); },
          [=](const std::string& text) { write(err, visible(text)); },
          [=](const std::string& bytes) { write(out, bytes); }};
}

int say_no(const refusal& no, const console& to) {
  to.err("quarterbreath-lab: " + printable(sentence(no)) + "\n");
  return exit_status(no);
}

} // namespace qb::lab
