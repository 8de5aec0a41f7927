// JSON as a text of its own making.
// Bad on purpose: tests/rules/run must find it. A comment may show {"kit":"FV-2071"}.
#include <fmt/core.h>

std::string written(int n) {
  std::string out = fmt::format(R"({{"kit":{}}})", n);
  out += "{\"tube\":1}";
  return out;
}
