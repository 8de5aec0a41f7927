// Says of each line of standard input whether it is a kit code: "right", or "wrong".
// tests/outside/run_kit_code holds the answers against another implementation's.
#include "core/protocol/kit_code.hpp"

#include <iostream>
#include <string>

int main() {
  for (std::string line; std::getline(std::cin, line);)
    std::cout << (qb::read_kit_code(line) ? "right\n" : "wrong\n");
  return 0;
}
