// Opening and closing the window.
// Our own callbacks are set first; Dear ImGui's backend chains to them.
#include "app/glass/window.hpp"
#include "app/glass/window_inside.hpp"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>

namespace qb::glass {

namespace {

refusal no_window(const char* where) {
  const char* why = nullptr;
  glfwGetError(&why);
  return {refusal_kind::machine, "", where, why != nullptr ? why : "no display",
          "a display with OpenGL 3"};
}

} // namespace

// The window's inside is private, so its type comes in as a parameter.
struct window_callbacks {
  template <typename Inside>
  static void set(GLFWwindow* glass, Inside* in) {
    glfwSetWindowUserPointer(glass, in);
    glfwSetCursorPosCallback(glass, [](GLFWwindow* g, double, double) { touched<Inside>(g); });
    glfwSetMouseButtonCallback(glass, [](GLFWwindow* g, int, int, int) { touched<Inside>(g); });
    glfwSetScrollCallback(glass, [](GLFWwindow* g, double, double) { touched<Inside>(g); });
    glfwSetKeyCallback(glass, [](GLFWwindow* g, int, int, int, int) { touched<Inside>(g); });
    glfwSetCharCallback(glass, [](GLFWwindow* g, unsigned c) {
      touched<Inside>(g);
      queue_in_halves(c);
    });
    glfwSetWindowFocusCallback(glass, [](GLFWwindow* g, int) { touched<Inside>(g); });
    glfwSetFramebufferSizeCallback(glass, [](GLFWwindow* g, int, int) { exposed<Inside>(g); });
    glfwSetWindowRefreshCallback(glass, [](GLFWwindow* g) { exposed<Inside>(g); });
  }

private:
  // Dear ImGui here has characters of 16 bits, and takes a larger one for none: it is queued before
  // it as the two halves of UTF-16.
  static void queue_in_halves(unsigned c) {
    if (c < 0x10000U) return;
    ImVector<ImWchar>& queue = ImGui::GetIO().InputQueueCharacters;
    queue.push_back(static_cast<ImWchar>(0xD800U + ((c - 0x10000U) >> 10U)));
    queue.push_back(static_cast<ImWchar>(0xDC00U + ((c - 0x10000U) & 0x3FFU)));
  }
  template <typename Inside>
  static void touched(GLFWwindow* glass) {
    static_cast<Inside*>(glfwGetWindowUserPointer(glass))->input = true;
  }
  template <typename Inside>
  static void exposed(GLFWwindow* glass) {
    auto* in = static_cast<Inside*>(glfwGetWindowUserPointer(glass));
    in->input = true;
    in->exposed = true;
  }
};

namespace {

constexpr int least_width = 360;
constexpr int least_height = 480;

GLFWwindow* create(const window_options& options) {
  GLFWmonitor* monitor = glfwGetPrimaryMonitor();
  int width = options.width;
  int height = options.height;
  GLFWmonitor* whole = nullptr;
  if (monitor != nullptr) {
    const GLFWvidmode* mode = glfwGetVideoMode(monitor);
    if (mode != nullptr && options.fullscreen) {
      whole = monitor;
      width = mode->width;
      height = mode->height;
    } else if (mode != nullptr) {
      width = std::min(width, mode->width);
      height = std::min(height, mode->height);
    }
  }
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
  glfwWindowHint(GLFW_AUTO_ICONIFY, GLFW_FALSE);
  GLFWwindow* glass = glfwCreateWindow(width, height, options.title.c_str(), whole, nullptr);
  if (glass != nullptr) {
    // Smaller than this the pages are not promised to fit; a smaller monitor has its own say.
    glfwSetWindowSizeLimits(glass, std::min(width, least_width), std::min(height, least_height),
                            GLFW_DONT_CARE, GLFW_DONT_CARE);
  }
  return glass;
}

} // namespace

window::inside::~inside() {
  if (ImGui::GetCurrentContext() != nullptr) {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
  }
  if (glass != nullptr) glfwDestroyWindow(glass);
  glfwTerminate();
}

window::window(std::unique_ptr<inside> opened) : inside_(std::move(opened)) {}
window::window(window&&) noexcept = default;
window& window::operator=(window&&) noexcept = default;
window::~window() = default;

result<window> window::open(const window_options& options) {
  if (glfwInit() != GLFW_TRUE) return tl::unexpected(no_window("open the display"));
  auto made = std::make_unique<inside>();
  made->glass = create(options);
  if (made->glass == nullptr) return tl::unexpected(no_window("open a window"));
  glfwMakeContextCurrent(made->glass);
  glfwSwapInterval(1);
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  window_callbacks::set(made->glass, made.get());
  ImGui_ImplGlfw_InitForOpenGL(made->glass, true);
  ImGui_ImplOpenGL3_Init("#version 130");
  return window(std::move(made));
}

frame_size window::size() const {
  int width = 0;
  int height = 0;
  glfwGetFramebufferSize(inside_->glass, &width, &height);
  return {static_cast<float>(width), static_cast<float>(height)};
}

void window::leave() {
  inside_->leaving = true;
}

void window::fonts_changed() {
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
  inside_->exposed = true; // a place in the texture now holds another letter
}

} // namespace qb::glass
