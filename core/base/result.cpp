// Words for refusals, in one place so that every message has the same shape.
#include "core/base/result.hpp"

#include <cstdlib>
#include <fmt/core.h>

namespace qb {

std::string sentence(const refusal& no) {
  std::string text;
  for (const std::string& place : {no.file, no.where}) {
    if (!place.empty()) text += place + ": ";
  }
  if (!no.found.empty()) text += "found " + no.found;
  if (!no.found.empty() && !no.expected.empty()) text += ", ";
  if (!no.expected.empty()) text += "expected " + no.expected;
  return text;
}

refusal in_file(refusal no, const std::string& file) {
  if (no.file.empty()) no.file = file;
  return no;
}

int exit_status(const refusal& no) {
  return no.kind == refusal_kind::machine ? 1 : 2;
}

void broken_belief(const char* belief, const char* file, int line) {
  fmt::print(stderr, "{}:{}: this should always hold: {}\n", file, line, belief);
  std::abort();
}

} // namespace qb
