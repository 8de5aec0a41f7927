// The loop: sleep until the next change, draw, show only what differs.
// After input it draws until the picture is steady (a press and its release need separate frames);
// after a timer it draws once, and not before the time it was asked for. Sleeps are short, because
// GLFW's clock stands still in suspend; whether the time has come, the boot clock says.
#include "app/glass/draw_hash.hpp"
#include "app/glass/kept_picture.hpp"
#include "app/glass/stop_signal.hpp"
#include "app/glass/window.hpp"
#include "app/glass/window_inside.hpp"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <ctime>

namespace qb::glass {

namespace {

constexpr double longest_sleep = 1.0;
constexpr int least_after_input = 2;
constexpr int most_after_input = 20;
constexpr int most_again = 4;
constexpr float frame_step = 1.0F / 60; // Dear ImGui's own idea of time; nothing is timed by it

// Seconds since the machine started, suspend included.
double boot_seconds() {
  timespec t{};
  (void)clock_gettime(CLOCK_BOOTTIME, &t);
  return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_nsec) / 1e9;
}

void sleep(double seconds) {
  const double wait = std::clamp(seconds, 0.0, longest_sleep);
  if (wait > 0) {
    glfwWaitEventsTimeout(wait);
  } else {
    glfwPollEvents();
  }
}

} // namespace

// One run of the loop. The inside's type is private to the window, hence the parameter.
template <typename Inside>
class looping {
public:
  looping(window& w, Inside& in, const loop_calls& calls) : window_(w), in_(in), calls_(calls) {}

  loop_report run() {
    const stop_signal stop([] { glfwPostEmptyEvent(); });
    in_.input = true;
    double due = 0;
    while (!stop.came() && !in_.leaving && glfwWindowShouldClose(in_.glass) == GLFW_FALSE) {
      ++report_.wakes;
      if (in_.input) {
        due = boot_seconds() + until_steady();
      } else if (boot_seconds() >= due) {
        due = boot_seconds() + one_frame(true);
      }
      if (!in_.leaving) sleep(due - boot_seconds());
    }
    return report_;
  }

private:
  double until_steady() {
    in_.input = false;
    double next = 0;
    for (int drawn = 1; drawn <= most_after_input && !in_.leaving; ++drawn) {
      const std::uint64_t before = last_;
      next = one_frame(false, drawn, before);
      if (drawn >= least_after_input && last_ == before) break;
      // A release that came meanwhile belongs to the next frame.
      glfwPollEvents();
    }
    return next;
  }

  // Draws a frame and shows it if it differs. `settled` is known beforehand for a timer's frame.
  double one_frame(bool settled, int drawn = 0, std::uint64_t before = 0) {
    frame_info info;
    // The display is asked for size and pointer only after it told of something: each question
    // waits for an answer, and a timer's frame finds what the last one found.
    info.size = settled ? size_ : window_.size();
    info.resized = !(info.size == size_);
    size_ = info.size;
    if (info.resized && calls_.resized) calls_.resized(info.size);
    double next = draw(info, !settled);
    for (int again = 0; again < most_again && !in_.leaving; ++again) {
      if (!calls_.draw_again || !calls_.draw_again(info.size)) break;
      next = std::min(next, draw(info, false));
    }
    last_ = draw_hash();
    const bool steady =
        settled || drawn >= most_after_input || (drawn >= least_after_input && last_ == before);
    show(info);
    if (calls_.drawn) calls_.drawn(info, steady);
    return next;
  }

  double draw(frame_info& info, bool ask_display) {
    info.number = ++report_.frames;
    ImGui_ImplOpenGL3_NewFrame();
    if (ask_display) ImGui_ImplGlfw_NewFrame();
    ImGui::GetIO().DeltaTime = frame_step;
    ImGui::NewFrame();
    const double next = calls_.frame(info);
    ImGui::Render();
    return next;
  }

  void show(const frame_info& info) {
    const bool same = in_.anything_shown && last_ == in_.shown && !in_.exposed && !info.resized;
    if (same) return;
    picture_.paint(info.size, !in_.anything_shown || in_.exposed || info.resized);
    glfwSwapBuffers(in_.glass);
    in_.shown = last_;
    in_.anything_shown = true;
    in_.exposed = false;
    ++report_.pictures;
  }

  window& window_;
  Inside& in_;
  const loop_calls& calls_;
  loop_report report_;
  kept_picture picture_;
  frame_size size_;
  std::uint64_t last_{0};
};

loop_report window::run(const loop_calls& calls) {
  inside_->leaving = false;
  return looping<inside>(*this, *inside_, calls).run();
}

} // namespace qb::glass
