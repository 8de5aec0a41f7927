// Any bytes as a timing log.
// What is read can be written again, and that is the same log.
#include "core/record/log.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto log = read_log(test::text_of(data, size));
  if (!log) return 0;
  const auto again = read_log(write_log(log->events, log->program, log->tzdata));
  test::promised(again.has_value() && again->mismatches.empty());
  test::promised(again->events.size() == log->events.size());
  return 0;
}
