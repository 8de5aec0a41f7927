// The outline as JSON: put piece by piece, so that each element can stand on a line of its own.
#include "app/patient/ui/outline.hpp"

#include "core/base/json_writer.hpp"

#include <cmath>

namespace qb::inline ui {

namespace {

std::int64_t whole(float pixels) {
  return std::lround(pixels);
}

void put(const element& e, json::writer& out) {
  out.open_object();
  out.key("key").text(e.key);
  out.key("role").text(e.role);
  out.key("name").text(e.name);
  out.key("value").text(e.value);
  out.key("state").text(e.state);
  out.key("x").integer(whole(e.x));
  out.key("y").integer(whole(e.y));
  out.key("w").integer(whole(e.w));
  out.key("h").integer(whole(e.h));
  out.close_object();
}

} // namespace

const element* outline::find(const std::string& key) const {
  for (const element& e : elements) {
    if (e.key == key) return &e;
  }
  return nullptr;
}

std::string to_json(const outline& seen) {
  std::string text;
  json::writer out(text, json::style::one_line);
  out.open_object();
  out.key("screen").text(seen.screen);
  out.key("frame").integer(static_cast<std::int64_t>(seen.frame));
  out.key("settled").boolean(seen.settled);
  out.key("size").put(json::array{whole(seen.width), whole(seen.height)});
  out.key("elements").open_list();
  for (const element& e : seen.elements) {
    out.break_line();
    put(e, out);
  }
  out.break_line();
  out.close_list();
  out.close_object();
  return text + "\n";
}

std::string fingerprint(outline seen) {
  seen.frame = 0;
  return to_json(seen);
}

} // namespace qb::inline ui
