// Core that opens files.
// Bad on purpose: tests/rules/run must find it.
#include <fstream>
#include <string>

namespace qb::inline protocols {

std::string first_word(const std::string& name) {
  std::ifstream in(name);
  std::string word;
  in >> word;
  return word;
}

} // namespace qb::inline protocols
