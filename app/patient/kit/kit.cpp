// Frame, flow and touch. The layout of a page is in page.cpp.
// Dear ImGui gives identity, focus and presses; nothing of its own look is used.
#include "app/patient/kit/kit.hpp"

#include <imgui.h>

#include <algorithm>

namespace qb {

kit::kit(const theme& colours, const fonts& set, kit_words words)
    : theme_(colours), fonts_(&set), words_(std::move(words)) {}

pen kit::ink() const {
  return {*fonts_, ImGui::GetWindowDrawList()};
}

void kit::begin_frame(float width_px, float height_px) {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigInputTextCursorBlink = false;
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

void kit::end_frame() {
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar(2);
}

std::optional<box> kit::place(float height, float gap, float keep) {
  if (pass_ == pass::edit) return std::nullopt;
  const float roomy_gap = flow_.at_top ? 0 : gap * (1 - 0.3F * flow_.squeeze);
  float y = flow_.y + roomy_gap;
  const auto bottom = [this] {
    return flow_.leaf < flow_.tall_leaves ? flow_.tall_bottom : flow_.area.bottom();
  };
  if (!flow_.at_top && y + height + keep > bottom() + 0.5F) {
    ++flow_.leaf;
    y = flow_.area.y;
  }
  if (y + height > bottom() + 0.5F) flow_.overflow = true;
  flow_.y = y + height;
  flow_.at_top = false;
  flow_.used = flow_.y - flow_.area.y;
  if (pass_ != pass::draw || flow_.leaf != flow_.shown) return std::nullopt;
  return box{flow_.area.x, y, flow_.area.w, height};
}

void kit::fill() {
  ++flow_.fills;
  flow_.y += flow_.fill_height;
}

float kit::stretch(float roomy, float least) const {
  return roomy + (least - roomy) * flow_.squeeze;
}

element& kit::note(const std::string& key, const std::string& role, const std::string& name,
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

touch kit::press(const std::string& key, const std::string& role, const std::string& name, box b,
                 const std::string& value, const std::string& state) {
  element& line = note(key, role, name, b);
  line.value = value;
  line.state = state;
  line.target = true;
  const float s = fonts_->scale;
  ImGui::SetCursorScreenPos({b.x * s, b.y * s});
  touch t;
  t.pressed = ImGui::InvisibleButton(key.c_str(), {b.w * s, b.h * s});
  t.held = ImGui::IsItemActive();
  t.focused = ImGui::IsItemFocused() && ImGui::GetIO().NavVisible;
  if (t.focused && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter), false)) t.pressed = true;
  if (t.focused) ink().frame(b.inset(-4, -4), theme_.now, 3, 8);
  return t;
}

} // namespace qb
