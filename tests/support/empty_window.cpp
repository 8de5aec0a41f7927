// An empty window of the size of a telephone, drawn once a second: the floor that the waiting
// program is measured against. Nothing but GLFW, so that what ours adds is ours.
//
// Usage: empty_window SHOWN   writes the file SHOWN when its first picture was shown; ends with
// SIGTERM or SIGINT and then says on standard error how many frames it drew.
#include "app/glass/stop_signal.hpp"

#include <GL/gl.h>
#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

#include <cstdio>
#include <fstream>

int main(int count, char** words) {
  if (count != 2 || glfwInit() != GLFW_TRUE) return 1;
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
  GLFWwindow* glass = glfwCreateWindow(360, 640, "empty", nullptr, nullptr);
  if (glass == nullptr) return 1;
  glfwMakeContextCurrent(glass);
  const qb::glass::stop_signal stop([] { glfwPostEmptyEvent(); });
  long frames = 0;
  while (!stop.came()) {
    glClearColor(0, 0, 0, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    glfwSwapBuffers(glass);
    if (++frames == 1) std::ofstream(words[1]) << "shown\n";
    glfwWaitEventsTimeout(1.0);
  }
  (void)std::fprintf(stderr, "empty: %ld frames drawn\n", frames);
  glfwTerminate();
  return 0;
}
