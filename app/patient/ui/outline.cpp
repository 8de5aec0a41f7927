// The outline as JSON, written by hand: the shape is fixed and small.
// Strings are UTF-8 and only quotes, backslashes and control characters need care.
#include "app/patient/ui/outline.hpp"

#include <cmath>
#include <fmt/core.h>

namespace qb {

namespace {

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (byte < 0x20) {
      out += fmt::format("\\u{:04x}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

long whole(float pixels) {
  return std::lround(pixels);
}

} // namespace

const element* outline::find(const std::string& key) const {
  for (const element& e : elements) {
    if (e.key == key) return &e;
  }
  return nullptr;
}

std::string to_json(const outline& seen) {
  std::string text = fmt::format(
      R"({{"screen":{},"frame":{},"settled":{},"size":[{},{}],"elements":[)", quoted(seen.screen),
      seen.frame, seen.settled, whole(seen.width), whole(seen.height));
  const char* comma = "\n";
  for (const element& e : seen.elements) {
    text += fmt::format(
        R"({}{{"key":{},"role":{},"name":{},"value":{},"state":{},"x":{},"y":{},"w":{},"h":{}}})",
        comma, quoted(e.key), quoted(e.role), quoted(e.name), quoted(e.value), quoted(e.state),
        whole(e.x), whole(e.y), whole(e.w), whole(e.h));
    comma = ",\n";
  }
  return text + "\n]}\n";
}

std::string fingerprint(outline seen) {
  seen.frame = 0;
  return to_json(seen);
}

} // namespace qb
