// The packed bytes: a worked example byte by byte, the fullest result, and what is refused.
#include "core/code/code_text.hpp"
#include "core/code/flags.hpp"
#include "core/code/packed_result.hpp"
#include "core/code/result_of_events.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::code;
using namespace std::chrono_literals;

namespace {

packed_result small_result() {
  packed_result r;
  r.kit_number = "FV-1";
  r.protocol_id = "abc";
  r.protocol_digest = "\x01\x02\x03\x04";
  r.test_id = "00112233445566ff";
  r.events = 300;
  r.head_tail = "12345678";
  r.zero = instant{1000000000s};
  r.offset = 3600s;
  r.flags = {"drink-missing", "sample-late"};
  r.drink.start = 10s;
  r.symptoms = 3;
  packed_sample one;
  one.taken = how_known::observed;
  one.offset = 3600s;
  one.scores = {0, std::nullopt, 10};
  packed_sample two;
  r.samples = {one, two};
  return r;
}

// Everything a form can hold: all samples told, corrected, under a clock of their own.
packed_result fullest_result(int samples) {
  packed_result r = small_result();
  r.rehearsal = true;
  r.kit_number = std::string(64, 'K');
  r.test_id = "rehearsal-2480a11f962979d0";
  r.events = 20000;
  r.flags = {code_flags().begin(), code_flags().end()};
  r.drink = {-600s, 1200s, how_known::estimated, false, drink_part::none};
  r.samples.clear();
  for (int i = 0; i < samples; ++i) {
    packed_sample t;
    t.taken = i % 2 == 0 ? how_known::told : how_known::estimated;
    t.repeated = t.again = t.corrected = true;
    t.closed = 900s * i;
    t.elapsed = 900s * i + 3600s;
    t.offset = -34200s;
    t.scores = {i % 11, std::nullopt, 10};
    r.samples.push_back(t);
  }
  packed_seal s;
  s.key_id.fill(0xAB);
  s.signature.fill(0xCD);
  r.seal = s;
  return r;
}

std::string whole(const packed_result& r) {
  return with_seal(pack(r), r.seal);
}

} // namespace

TEST_CASE("a small result is these bytes, as the format's description has them") {
  const std::string expected("\x01\x00"                         // version, form
                             "\x04"                             // kit number
                             "FV-1"                             //
                             "\x03"                             // protocol
                             "abc"                              //
                             "\x01\x02\x03\x04"                 // its digest
                             "\x00\x00\x11\x22\x33\x44\x55\x66" // test id, as 8 bytes
                             "\xff"                             //
                             "\xac\x02"                         // 300 events
                             "12345678"                         // hash
                             "\x80\x94\xeb\xdc\x03"             // 1000000000 s
                             "\xa0\x38"                         // +3600 s as 7200
                             "\x81\x10"                         // flags 0 and 11
                             "\x05"                             // drink: start known, all of it
                             "\x14"                             // 10 s as 20
                             "\x03\x02"                         // symptoms, samples
                             "\x81\x00\x0f\xaf"                 // taken at 0; 0, skipped, 10
                             "\x00"                             // not taken
                             "\x00",                            // no seal
                             53);
  CHECK(whole(small_result()) == expected);
}

TEST_CASE("the fullest results of 10 and of 24 samples come back, in few codes") {
  for (const int samples : {0, 1, 10, 24}) {
    const packed_result r = fullest_result(samples);
    const auto back = unpack(whole(r));
    REQUIRE(back.has_value());
    CHECK(differences(r, *back).empty());
    CHECK(back->events == r.events);
    CHECK(back->offset == r.offset);
    CHECK(back->seal->signature == r.seal->signature);
    CHECK(back->seal->key_id == r.seal->key_id);
    CHECK(whole(*back) == whole(r));
    CHECK(code_texts(whole(r)).value().size() <= 3);
  }
}

TEST_CASE("an unusual test id comes back as it is") {
  for (const char* id : {"one", "00112233445566FF", "00112233445566f", "made-001"}) {
    packed_result r = small_result();
    r.test_id = id;
    CHECK(unpack(whole(r)).value().test_id == id);
  }
}

TEST_CASE("every shortened or lengthened result is refused") {
  const std::string good = whole(fullest_result(10));
  REQUIRE(unpack(good).has_value());
  for (std::size_t size = 0; size < good.size(); ++size)
    CHECK_FALSE(unpack(good.substr(0, size)).has_value());
  CHECK(unpack(good + '\0').error().found == "1 bytes more");
}

TEST_CASE("any byte changed is another result or none, never the same") {
  const std::string good = whole(small_result());
  for (std::size_t at = 0; at < good.size(); ++at) {
    for (int byte = 0; byte < 256; ++byte) {
      std::string changed = good;
      changed[at] = static_cast<char>(byte);
      if (changed == good) continue;
      const auto read = unpack(changed);
      if (read) CHECK(whole(*read) == changed);
    }
  }
}

TEST_CASE("a time written out that its absence says as well is refused") {
  using namespace std::string_literals;
  std::string other = whole(small_result());
  const std::size_t sample = other.find("\x81\x00\x0f\xaf"s);
  REQUIRE(sample != std::string::npos);
  other.replace(sample, 2, "\xa1\x00\x00"s); // elapsed: 0, as the closing
  const auto read = unpack(other);
  REQUIRE_FALSE(read.has_value());
  CHECK(read.error().expected == "the shortest form");
}

TEST_CASE("a newer version is refused in one line") {
  std::string newer = whole(small_result());
  newer[0] = 3;
  CHECK(unpack(newer).error().kind == refusal_kind::newer);
  CHECK(sentence(unpack(newer).error()) == "version: found version 3, expected version 2 or older");
}

TEST_CASE("the differences of two results name tube and field") {
  packed_result other = small_result();
  other.samples[0].closed = 3s;
  other.samples[0].scores[0] = 4;
  other.flags.clear();
  const auto found = differences(small_result(), other);
  REQUIRE(found.size() == 3);
  CHECK(found[0] == "flags: drink-missing, sample-late in the code, none in the log");
  CHECK(found[1] ==
        "tube 1 closed: 0 s after time zero in the code, 3 s after time zero in the log");
  CHECK(found[2] == "tube 1 scores: 0 - 10 in the code, 4 - 10 in the log");
}

TEST_CASE("every flag has a bit of its own") {
  std::set<std::uint64_t> bits;
  for (const std::string& flag : code_flags())
    bits.insert(flags_number({flag}));
  CHECK(bits.size() == code_flags().size());
  CHECK(bits.count(0) == 0);
  CHECK(flags_of(flags_number({"sample-late", "antibiotics"})) ==
        std::set<std::string>{"sample-late"});
  CHECK(flags_of(std::uint64_t{1} << 50U) == std::set<std::string>{"flag-50"});
  CHECK(flags_number({"flag-50"}) == std::uint64_t{1} << 50U);
}

TEST_CASE("scores that belong to no tube make it version 2; without them it stays version 1") {
  packed_result r = small_result();
  CHECK(whole(r)[0] == 1);
  const std::string before = pack(r);
  r.after = {{score_time::after_last, false, 12600s, {1, std::nullopt, 10}},
             {score_time::later, true, 21600s, {std::nullopt, 0, 3}}};
  const std::string after("\x02"                      // how many
                          "\x00\xf0\xc4\x01\x1f\xaf"  // after the last tube, 12600 s: 1 - 10
                          "\x03\xc0\xd1\x02\xf0\x3f", // later, put right, 21600 s: - 0 3
                          13);
  CHECK(pack(r) == "\x02" + before.substr(1) + after);
  const auto read = unpack(whole(r));
  REQUIRE(read.has_value());
  REQUIRE(read->after.size() == 2);
  CHECK(read->after[1].what == score_time::later);
  CHECK(read->after[1].corrected);
  CHECK(read->after[1].elapsed == 21600s);
  CHECK(read->after[0].scores == r.after[0].scores);
}

TEST_CASE("scores that belong to no tube are read in one form only") {
  packed_result r = small_result();
  r.after = {{score_time::later, false, 1s, {1, 2, 3}}};
  const std::string good = whole(r);
  REQUIRE(unpack(good).has_value());
  const std::size_t count = good.size() - 6; // count, byte, number, two bytes of scores, no seal
  const auto with = [&](std::size_t at, char byte) {
    std::string bytes = good;
    bytes[at] = byte;
    return unpack(bytes);
  };
  CHECK_FALSE(with(0, 1).has_value());              // version 1 has none
  CHECK_FALSE(with(count, 0).has_value());          // none at all is version 1
  CHECK_FALSE(with(count, 3).has_value());          // there are but two times
  CHECK_FALSE(with(count + 1, 4).has_value());      // a bit that means nothing
  CHECK_FALSE(with(count + 3, '\xb1').has_value()); // 11 is no score
  r.after = {{score_time::later, false, 1s, {1, 2, 3}},
             {score_time::after_last, false, 2s, {1, 2, 3}}};
  CHECK_FALSE(unpack(whole(r)).has_value()); // each once, the earlier first
}
