// Frame, flow and touch. The layout of a page is in page.cpp.
// Dear ImGui gives identity, focus and presses; nothing of its own look is used.
#include "app/patient/ui/toolkit.hpp"

#include <imgui.h>

#include <algorithm>
#include <utility>

namespace qb::inline ui {

toolkit::toolkit(const theme& colours, const fonts& set, toolkit_words words)
    : theme_(colours), fonts_(&set), words_(std::move(words)) {}

pen toolkit::ink() const {
  return {*fonts_, ImGui::GetWindowDrawList()};
}

void toolkit::begin_frame(float width_px, float height_px) {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;
  pressed_ = false;
  repeating_ = false;
  // While typing, the space bar writes a space and must not press what has the focus.
  if (keyboard_.key.empty()) {
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  } else {
    io.ConfigFlags &= ~ImGuiConfigFlags_NavEnableKeyboard;
  }
  width_ = width_px / fonts_->scale;
  height_ = height_px / fonts_->scale;
  outline_.elements.clear();
  outline_.width = width_px;
  outline_.height = height_px;
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({width_px, height_px});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0);
  ImGui::PushStyleColor(ImGuiCol_NavHighlight, 0);
  ImGui::Begin("page", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBackground |
                   ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBringToFrontOnFocus);
  ink().fill_box({0, 0, width_, height_}, theme_.paper);
}

void toolkit::end_frame() {
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar(2);
}

std::optional<box> toolkit::place(float height, float gap, float keep) {
  if (pass_ == pass::edit) return std::nullopt;
  const float roomy_gap = gap * (1 - 0.3F * flow_.squeeze);
  const std::size_t index = flow_.blocks.size();
  flow_.blocks.push_back({roomy_gap, height, keep > 0, keep < 0});
  if (flow_.plan != nullptr && index < flow_.plan->panel_of.size() &&
      flow_.plan->panel_of[index] != flow_.panel) {
    flow_.panel = flow_.plan->panel_of[index];
    const bool last = flow_.panel + 1 == plan_.panels;
    flow_.y = flow_.area.y + (last ? flow_.repeated_height : 0);
    flow_.at_top = true;
  }
  const float y = flow_.y + (flow_.at_top ? 0 : roomy_gap);
  flow_.y = y + height;
  flow_.at_top = false;
  const bool again = index < flow_.repeated && flow_.shown + 1 == plan_.panels;
  if (pass_ != pass::draw || (flow_.panel != flow_.shown && !again)) return std::nullopt;
  return box{flow_.area.x, y, flow_.area.w, height};
}

void toolkit::fill() {
  ++flow_.fills;
  flow_.y += flow_.fill_height;
}

float toolkit::stretch(float roomy, float least) const {
  return roomy + (least - roomy) * flow_.squeeze;
}

element& toolkit::note(const std::string& key, const std::string& role, const std::string& name,
                       box b) {
  const float s = fonts_->scale;
  element line;
  line.key = key;
  line.role = role;
  line.name = name;
  line.x = b.x * s;
  line.y = b.y * s;
  line.w = b.w * s;
  line.h = b.h * s;
  outline_.elements.push_back(line);
  return outline_.elements.back();
}

namespace {

// A button held down presses again after half a second, then in a steady rhythm; the release after
// that is no press. Time is counted in frames, as Dear ImGui counts it.
bool repeated(const touch& t) {
  constexpr float first_after = 0.5F;
  constexpr float then_every = 0.15F;
  const ImGuiIO& io = ImGui::GetIO();
  if (t.pressed) return !io.MouseReleased[0] || io.MouseDownDurationPrev[0] < first_after;
  const auto times = [](float held) {
    return held < first_after ? 0 : 1 + static_cast<int>((held - first_after) / then_every);
  };
  const float held = io.MouseDownDuration[0];
  return t.held && ImGui::IsItemHovered() && times(held) > times(held - io.DeltaTime);
}

} // namespace

touch toolkit::press(const std::string& key, const std::string& role, const std::string& name,
                     box b, const std::string& value, const std::string& state, hearing ears) {
  element& line = note(key, role, name, b);
  line.value = value;
  line.state = state;
  line.target = true;
  const float s = fonts_->scale;
  const bool hears = ears == hearing::always || !deaf_;
  const bool repeats = std::exchange(repeat_next_, false);
  ImGui::SetCursorScreenPos({b.x * s, b.y * s});
  touch t;
  t.pressed = ImGui::InvisibleButton(key.c_str(), {b.w * s, b.h * s});
  t.held = ImGui::IsItemActive();
  if (repeats) t.pressed = repeated(t);
  if (ImGui::IsItemActivated()) began_ = {turn_, key, hears};
  const bool began_here = began_.heard && began_.screen == turn_ && began_.key == key;
  t.pressed = t.pressed && began_here && hears;
  t.held = t.held && began_here && hears;
  t.focused = ImGui::IsItemFocused() && ImGui::GetIO().NavVisible;
  const bool enter = t.focused && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false);
  if (enter && hears) t.pressed = true;
  if (t.focused) ink().frame(b.inset(-4, -4), theme_.now, 3, 8);
  if (t.pressed && ears == hearing::waits) leads_on();
  if (t.held && repeats) repeating_ = true;
  return t;
}

} // namespace qb::inline ui
