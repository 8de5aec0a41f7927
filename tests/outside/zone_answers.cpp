// Answers questions about time zones, one a line, for a reader of another make to check.
// Kept to reading and printing: what is checked is core/time, not this.
//
// Usage: zone_answers FOLDER    Questions on standard input, answers on standard output:
//   ZONE at SECONDS         -> the offset in seconds at that Unix time
//   ZONE civil DATE TIME    -> one T | two T T | none T BEFORE AFTER   (T in Unix seconds)
#include "core/time/zone.hpp"

#include <fmt/core.h>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

namespace {

std::string answer(const qb::zone& z, std::istream& question) {
  const auto seconds = [](qb::instant t) { return qb::to_unix_ms(t) / 1000; };
  std::string kind;
  question >> kind;
  if (kind == "at") {
    std::int64_t t = 0;
    question >> t;
    return fmt::format("{}", z.offset_at(qb::from_unix_ms(t * 1000)).count());
  }
  std::string date;
  std::string time;
  question >> date >> time;
  const auto civil = qb::parse_civil(date + " " + time);
  if (!civil) return "refused";
  const qb::civil_meaning m = z.meaning_of(*civil);
  if (const auto* one = std::get_if<qb::unique_time>(&m))
    return fmt::format("one {}", seconds(one->at));
  if (const auto* two = std::get_if<qb::twofold_time>(&m))
    return fmt::format("two {} {}", seconds(two->first), seconds(two->second));
  const auto& none = std::get<qb::missing_time>(m);
  return fmt::format("none {} {} {}", seconds(none.jump), qb::civil_text(none.before),
                     qb::civil_text(none.after));
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  std::map<std::string, qb::zone> zones;
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream question(line);
    std::string name;
    question >> name;
    if (zones.count(name) == 0) {
      std::ifstream in(std::string(argv[1]) + "/" + name, std::ios::binary);
      std::ostringstream bytes;
      bytes << in.rdbuf();
      const auto read = qb::zone::read(name, bytes.str());
      if (!read) {
        fmt::print("refused: {}\n", qb::sentence(read.error()));
        continue;
      }
      zones.emplace(name, *read);
    }
    fmt::print("{}\n", answer(zones.at(name), question));
  }
  return 0;
}
