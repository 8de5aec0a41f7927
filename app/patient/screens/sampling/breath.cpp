// The guided breath: straw in, hold it where the protocol asks, blow, close the tube. No press
// between the first and the last.
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

// How a phase that runs by itself is drawn.
struct guided_phase {
  breath_phase phase;
  const char* screen;
  const char* words;
};

guided_phase phase_of(step s) {
  if (s == step::hold_breath) return {breath_phase::hold, "hold-breath", "breath.hold"};
  if (s == step::blowing) return {breath_phase::blow, "blowing", "breath.blow"};
  return {breath_phase::lead_in, "lead-in", "breath.straw"};
}

breath_view picture_of_phase(const view& v) {
  breath_view b;
  if (v.now.what == step::close) {
    b.phase = breath_phase::close;
    b.words = v.t("breath.close", {{"n", number_text(*v.now.sample)}});
    return b;
  }
  const double length = static_cast<double>(std::max<std::int64_t>(1, v.now.phase_length->count()));
  const double left = static_cast<double>(v.now.phase_left->count());
  const auto seconds = std::chrono::ceil<std::chrono::seconds>(*v.now.phase_left).count();
  const guided_phase now = phase_of(v.now.what);
  b.phase = now.phase;
  b.words = v.t(now.words);
  b.figure = std::to_string(seconds);
  b.done = static_cast<float>(1.0 - left / length);
  b.enough = static_cast<float>(v.s.test->breath_least.count()) /
             static_cast<float>(v.s.test->breath_most.count());
  return b;
}

const char* name_of(step s) {
  return s == step::close ? "close-tube" : phase_of(s).screen;
}

} // namespace

maybe_wish draw_breath(toolkit& k, const view& v, ui_state&) {
  bool closed = false;
  bool again = false;
  const auto content = [&] { breath(k, "breath", picture_of_phase(v)); };
  const auto actions = [&] {
    if (v.now.what == step::close)
      closed = primary_button(k, "tube-closed",
                              v.t("breath.closed", {{"n", number_text(*v.now.sample)}}));
    again = quiet_button(k, "break-off", v.t("breath.break-off"));
  };
  auto out = framed_page(k, v, name_of(v.now.what), content, actions, page_kind::guided);
  if (again) return wish{payload{breath_abandoned{*v.now.sample, "broken off"}}};
  if (closed) return wish{payload{tube_closed{*v.now.sample}}};
  return out;
}

} // namespace qb::inline screens
