// The laboratory's key in its profile: read whole, or the profile is refused.
// A slip in it would seal every record to nobody, and be noticed when it is too late.
#include "core/protocol/profile.hpp"
#include "tests/support/scripted_test.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::test;

namespace {

// The shipped profile with that key, or without one.
std::string with_key(const std::string& key) {
  std::string text = fenwick_text();
  const std::string head = "\"seal_to\":\"";
  const std::size_t from = text.find(head);
  REQUIRE(from != std::string::npos);
  const std::size_t end = text.find('"', from + head.size());
  if (key.empty()) return text.erase(from, end + 2 - from);
  return text.replace(from + head.size(), end - from - head.size(), key);
}

} // namespace

TEST_CASE("a profile may name the key that records are sealed to, or none") {
  const std::string key = read_profile(fenwick_text()).value().seal_to;
  CHECK(key.substr(0, 4) == "age1");
  CHECK(read_profile(with_key("")).value().seal_to.empty());
}

TEST_CASE("a key with one wrong character, cut, or of another kind is refused by its field") {
  const std::string key = read_profile(fenwick_text()).value().seal_to;
  std::string wrong = key;
  wrong.back() = wrong.back() == 'q' ? 'p' : 'q';
  const std::string secret =
      "AGE-SECRET-KEY-149Y5RGHCWKEHWEEVQV2EC9DCGTKERZZSPY2C99U38J638A253JDSC22788"; // of demo-data
  for (const std::string& bad : {wrong, key.substr(0, 40), key + " ", secret}) {
    const auto no = read_profile(with_key(bad));
    REQUIRE_FALSE(no);
    CHECK_THAT(sentence(no.error()), Catch::Contains("seal_to"));
    CHECK_THAT(sentence(no.error()), !Catch::Contains("SECRET-KEY-149"));
  }
}
