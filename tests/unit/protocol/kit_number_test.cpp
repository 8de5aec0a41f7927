// One kit number, however it was typed.
#include "core/protocol/kit_number.hpp"

#include <catch2/catch.hpp>
#include <string>

using namespace qb;

TEST_CASE("blanks, dashes of any length, full width and small letters are one number") {
  for (const char* typed : {"FV-2071", "fv-2071", "FV 2071", " FV  2071 ", "fv\u20132071",
                            "FV \u2014 2071", "FV\u22122071", "FV\u00A02071", "FV\u30002071",
                            "FV\t2071", "FV--2071", "\uFF26\uFF36\uFF0D\uFF12\uFF10\uFF17\uFF11",
                            "\uFF26\uFF36-2071", "\uFF46\uFF56\u20102071"}) {
    INFO(typed);
    CHECK(read_kit_number(typed) == "FV-2071");
    CHECK(kit_key(typed) == "FV-2071");
  }
}

TEST_CASE("folding twice is folding once, and what is folded holds no other character") {
  const std::string parts[] = {"F", "v", "\uFF26", "2", "\uFF12", " ", "-", "\u2013", "\u3000"};
  for (const std::string& a : parts)
    for (const std::string& b : parts)
      for (const std::string& c : parts)
        for (const std::string& d : parts) {
          const std::string typed = a + b + c + d;
          const auto once = read_kit_number(typed);
          INFO(typed);
          if (!once) {
            CHECK(kit_key(typed) == typed);
            continue;
          }
          CHECK(read_kit_number(*once) == once);
          CHECK(once->find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-") == once->npos);
          CHECK(once->front() != '-');
          CHECK(once->back() != '-');
        }
}

TEST_CASE("what cannot be a kit number stands for itself") {
  for (const std::string& typed :
       {std::string("=1+2"), std::string("made by hand"), std::string(), std::string(" "),
        std::string("-7"), std::string("7-"), std::string("FV_2071"), std::string("FV-2071\xFF"),
        std::string(65, '7')}) {
    INFO(typed);
    CHECK_FALSE(read_kit_number(typed).has_value());
    CHECK(kit_key(typed) == typed);
  }
}
