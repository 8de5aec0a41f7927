// Any bytes as a timing log.
// What is read can be written again, and that is the same log; what is read at once is the same
// again.
#include "core/record/log.hpp"

#include "tests/fuzz/fuzz.hpp"
#include "tests/support/read_both_ways.hpp"

using namespace qb;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static sound_log_reader reader(test::digest_of_all);
  const std::string text(test::text_of(data, size));
  test::promised(test::read_both_ways(reader, text) != test::read_how::at_once_otherwise);
  const auto log = read_log(text);
  if (!log) return 0;
  const auto again = read_log(write_log(log->events, log->program, log->tzdata));
  test::promised(again.has_value() && again->mismatches.empty());
  test::promised(again->events.size() == log->events.size());
  return 0;
}
