// The made-up window. Dear ImGui 1.86 has no event queue, so a press is written into its fields.
#include "tests/unit/ui/harness.hpp"

#include "app/glass/draw_hash.hpp"
#include "app/machine/files.hpp"

#include <fmt/core.h>
#include <imgui.h>

#include <algorithm>
#include <set>
#include <stdexcept>

namespace qb::test {

namespace {

constexpr const char* folder = "/usr/share/fonts/truetype/noto/";

std::string font(const char* name) {
  auto bytes = read_file(std::string(folder) + name);
  if (!bytes) throw std::runtime_error(sentence(bytes.error()));
  return *bytes;
}

bool overlap(const element& a, const element& b) {
  constexpr float touch = 0.5F;
  return a.x + a.w > b.x + touch && b.x + b.w > a.x + touch && a.y + a.h > b.y + touch &&
         b.y + b.h > a.y + touch;
}

} // namespace

toolkit_words some_words() {
  return {"More",
          "Back",
          "I feel unwell",
          "This is practice: leave tubes and sugar closed",
          "For trying only: this laboratory is invented",
          "Done",
          "space",
          "Erase",
          "Capitals",
          "abc",
          "é à",
          "123",
          "All of it is kept. We cannot print some of these letters. Paper shows a square for "
          "each, and a code with the whole text."};
}

harness::harness(float width, float height, float scale, look kind, toolkit_words words)
    : context_(ImGui::CreateContext()),
      bytes_{font("NotoSans-Regular.ttf"), font("NotoSans-Bold.ttf")} {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.DisplaySize = {width, height};
  io.DeltaTime = 1.0F / 60;
  for (int key = 0; key < ImGuiKey_COUNT; ++key)
    io.KeyMap[key] = key;
  rasterise(scale > 0 ? scale : natural_scale(width, height));
  toolkit_ = std::make_unique<toolkit>(make_theme(kind), fonts_, std::move(words));
}

harness::~harness() {
  ImGui::SetCurrentContext(context_);
  ImGui::DestroyContext(context_);
}

void harness::rasterise(float scale) {
  auto built = build_fonts(*ImGui::GetIO().Fonts, bytes_, scale, supply_);
  if (!built) throw std::runtime_error(sentence(built.error()));
  fonts_ = *built;
}

// As the window does: a frame that lacked letters is drawn again.
void harness::frame() {
  draw_once();
  for (int again = 0; again < 4 && fonts_.lacking(); ++again) {
    rasterise(fonts_.scale);
    draw_once();
  }
}

void harness::draw_once() {
  ImGui::SetCurrentContext(context_);
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  ImGui::NewFrame();
  if (draw_frame) {
    draw_frame(*toolkit_, size.x, size.y);
  } else {
    toolkit_->begin_frame(size.x, size.y);
    draw(*toolkit_);
    toolkit_->end_frame();
  }
  ImGui::Render();
  picture_ = glass::draw_hash();
}

void harness::frames(int count) {
  for (int i = 0; i < count; ++i)
    frame();
}

bool harness::press(const std::string& key) {
  if (seen().elements.empty()) frame();
  constexpr int most_leaves = 20;
  for (int turn = 0; key != "page-more" && find(key) == nullptr && turn < most_leaves; ++turn) {
    if (find("page-more") == nullptr || !press("page-more")) break;
  }
  const element* what = find(key);
  if (what == nullptr || !what->target) return false;
  press_at(what->x + what->w / 2, what->y + what->h / 2);
  return true;
}

void harness::press_at(float x, float y) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.MousePos = {x, y};
  frame();
  io.MouseDown[0] = true;
  frame();
  io.MouseDown[0] = false;
  frame();
  frame();
}

void harness::type(const std::string& text) {
  ImGui::SetCurrentContext(context_);
  ImGui::GetIO().AddInputCharactersUTF8(text.c_str());
  frames(2);
}

void harness::hit(int imgui_key) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.KeysDown[imgui_key] = true;
  frame();
  io.KeysDown[imgui_key] = false;
  frames(2);
}

std::string harness::value(const std::string& key) const {
  const element* e = find(key);
  return e == nullptr ? "(none)" : e->value;
}

std::string harness::state(const std::string& key) const {
  const element* e = find(key);
  return e == nullptr ? "(none)" : e->state;
}

std::vector<std::string> harness::faults() const {
  std::vector<std::string> all;
  const outline& page = seen();
  const float least = sizes::least_target * fonts_.scale - 0.5F;
  std::set<std::string> keys;
  for (const element& e : page.elements) {
    if (!keys.insert(e.key).second) all.push_back(e.key + " stands twice");
    if (e.cut) all.push_back(fmt::format("the words of {} are cut: {}", e.key, e.name));
    if (e.x < -0.5F || e.y < -0.5F || e.x + e.w > page.width + 0.5F ||
        e.y + e.h > page.height + 0.5F) {
      all.push_back(fmt::format("{} is outside: {} {} {} {}", e.key, e.x, e.y, e.w, e.h));
    }
    if (e.target && (e.w < least || e.h < least)) {
      all.push_back(fmt::format("{} is small: {} by {}", e.key, e.w, e.h));
    }
  }
  for (std::size_t i = 0; i < page.elements.size(); ++i) {
    for (std::size_t j = i + 1; j < page.elements.size(); ++j) {
      const element& a = page.elements[i];
      const element& b = page.elements[j];
      if (a.target && b.target && overlap(a, b)) all.push_back(a.key + " overlaps " + b.key);
    }
  }
  return all;
}

} // namespace qb::test
