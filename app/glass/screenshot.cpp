// A picture of the window as a PNG file.
// The back buffer is painted again and read: the front one cannot be read everywhere.
#include "app/glass/window.hpp"
#include "app/glass/window_inside.hpp"
#include "app/machine/files.hpp"

#include <GL/gl.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>
#include <stb/stb_image_write.h>

#include <vector>

namespace qb::glass {

namespace {

constexpr int channels = 3;

void append(void* to, void* data, int size) {
  static_cast<std::string*>(to)->append(static_cast<const char*>(data),
                                        static_cast<std::size_t>(size));
}

} // namespace

result<void> window::screenshot(const std::string& path) {
  const frame_size now = size();
  const int width = static_cast<int>(now.width);
  const int height = static_cast<int>(now.height);
  glViewport(0, 0, width, height);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  const std::size_t row = static_cast<std::size_t>(width) * channels;
  std::vector<unsigned char> pixels(row * static_cast<std::size_t>(height));
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadBuffer(GL_BACK);
  glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, pixels.data());
  // OpenGL begins at the bottom.
  std::vector<unsigned char> upright;
  upright.reserve(pixels.size());
  for (int y = height - 1; y >= 0; --y) {
    const auto from = pixels.begin() + static_cast<std::ptrdiff_t>(row) * y;
    upright.insert(upright.end(), from, from + static_cast<std::ptrdiff_t>(row));
  }
  std::string png;
  const int ok = stbi_write_png_to_func(append, &png, width, height, channels, upright.data(),
                                        static_cast<int>(row));
  if (ok == 0) {
    return tl::unexpected(
        refusal{refusal_kind::machine, path, "screenshot", "no picture", "a picture"});
  }
  return replace_file(path, png);
}

} // namespace qb::glass
