// The consequences' keys, one table for both ways.
#include "core/protocol/consequence.hpp"

#include "core/base/result.hpp"

namespace qb::inline protocols {

const char* consequence_text(consequence c) {
  switch (c) {
  case consequence::note: return "note";
  case consequence::review: return "review";
  case consequence::cannot_be_used: return "cannot-be-used";
  }
  QB_BELIEVE(false);
  return "";
}

std::optional<consequence> read_consequence(std::string_view text) {
  for (const consequence c :
       {consequence::note, consequence::review, consequence::cannot_be_used}) {
    if (text == consequence_text(c)) return c;
  }
  return std::nullopt;
}

} // namespace qb::inline protocols
