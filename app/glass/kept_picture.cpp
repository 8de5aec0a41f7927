// A texture to paint into and to copy from, and the triangles that a part needs.
// A page begins with its paper, so that parts need no clearing.
#define GL_GLEXT_PROTOTYPES // these are in every OpenGL 3
#include "app/glass/kept_picture.hpp"

#include <GL/gl.h>
#include <GL/glext.h>
#include <backends/imgui_impl_opengl3.h>

#include <limits>
#include <utility>

namespace qb::glass {

namespace {

void turn_clips(const ImDrawData& data) {
  for (int i = 0; i < data.CmdListsCount; ++i) {
    for (ImDrawCmd& command : data.CmdLists[i]->CmdBuffer)
      std::swap(command.ClipRect.y, command.ClipRect.w);
  }
}

// Upside down, as the rows of a window lie: so the shapes come out to the pixel as there, and the
// copy is one of plain rows. The backend is told by the scale; it wants the clips turned with it.
void draw_turned(const ImDrawData& data) {
  ImDrawData turned = data;
  turned.DisplayPos.y = data.DisplayPos.y + data.DisplaySize.y;
  turned.DisplaySize.y = -data.DisplaySize.y;
  turned.FramebufferScale.y = -data.FramebufferScale.y;
  turn_clips(data);
  ImGui_ImplOpenGL3_RenderDrawData(&turned);
  turn_clips(data);
}

// False where all three corners lie beyond one edge, which is so for most.
bool may_meet(const part& p, const ImDrawVert& a, const ImDrawVert& b, const ImDrawVert& c) {
  const auto all = [&](auto beyond) { return beyond(a.pos) && beyond(b.pos) && beyond(c.pos); };
  return !all([&](const ImVec2& v) { return v.y > p.bottom; }) &&
         !all([&](const ImVec2& v) { return v.y < p.top; }) &&
         !all([&](const ImVec2& v) { return v.x > p.right; }) &&
         !all([&](const ImVec2& v) { return v.x < p.left; });
}

// The triangles of one command that meet a part, and the clipping of both.
void take_part(ImDrawList& to, const ImDrawList& from, const ImDrawCmd& command, const part& p) {
  const ImVec4& clip = command.ClipRect;
  const part seen = common(p, {clip.x, clip.y, clip.z, clip.w});
  if (seen.empty()) return;
  ImDrawCmd taken = command;
  taken.ClipRect = {seen.left, seen.top, seen.right, seen.bottom};
  taken.IdxOffset = static_cast<unsigned>(to.IdxBuffer.Size);
  const ImDrawIdx* corner = from.IdxBuffer.Data + command.IdxOffset;
  for (unsigned i = 0; i + 2 < command.ElemCount; i += 3, corner += 3) {
    const ImDrawVert* points[] = {&from.VtxBuffer.Data[corner[0]], &from.VtxBuffer.Data[corner[1]],
                                  &from.VtxBuffer.Data[corner[2]]};
    if (!may_meet(seen, *points[0], *points[1], *points[2])) continue;
    for (const ImDrawVert* point : points) {
      to.IdxBuffer.push_back(static_cast<ImDrawIdx>(to.VtxBuffer.Size));
      to.VtxBuffer.push_back(*point);
    }
  }
  taken.ElemCount = static_cast<unsigned>(to.IdxBuffer.Size) - taken.IdxOffset;
  to.CmdBuffer.push_back(taken);
}

// Only what meets the parts is given to OpenGL: for the software that paints where there is no
// card, each point costs too. False where it has too many points for one list.
bool draw_parts(const ImDrawData& data, const std::vector<part>& parts) {
  ImDrawList some(nullptr);
  for (const part& p : parts) {
    for (int i = 0; i < data.CmdListsCount; ++i) {
      for (const ImDrawCmd& command : data.CmdLists[i]->CmdBuffer)
        take_part(some, *data.CmdLists[i], command, p);
    }
  }
  if (some.VtxBuffer.Size > std::numeric_limits<ImDrawIdx>::max()) return false;
  ImDrawList* lists[] = {&some};
  ImDrawData given = data;
  given.CmdLists = lists;
  given.CmdListsCount = 1;
  given.TotalIdxCount = some.IdxBuffer.Size;
  given.TotalVtxCount = some.VtxBuffer.Size;
  draw_turned(given);
  return true;
}

} // namespace

kept_picture::~kept_picture() {
  let_go();
}

void kept_picture::let_go() {
  if (buffer_ != 0) glDeleteFramebuffers(1, &buffer_);
  if (texture_ != 0) glDeleteTextures(1, &texture_);
  buffer_ = 0;
  texture_ = 0;
}

bool kept_picture::make(frame_size size) {
  let_go();
  size_ = size;
  glGenTextures(1, &texture_);
  glBindTexture(GL_TEXTURE_2D, texture_);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
  // In the order of bytes that windows mostly have: the copy is then no work.
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, static_cast<GLsizei>(size.width),
               static_cast<GLsizei>(size.height), 0, GL_BGRA, GL_UNSIGNED_INT_8_8_8_8_REV, nullptr);
  glGenFramebuffers(1, &buffer_);
  glBindFramebuffer(GL_FRAMEBUFFER, buffer_);
  glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture_, 0);
  const bool made = glCheckFramebufferStatus(GL_FRAMEBUFFER) == GL_FRAMEBUFFER_COMPLETE;
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
  if (!made) let_go();
  return made;
}

void kept_picture::paint(frame_size size, bool all) {
  ImDrawData& data = *ImGui::GetDrawData();
  glViewport(0, 0, static_cast<GLsizei>(size.width), static_cast<GLsizei>(size.height));
  glClearColor(0, 0, 0, 1);
  const bool fresh = texture_ == 0 || !(size == size_);
  if (fresh && !impossible_) impossible_ = !make(size);
  if (impossible_) {
    glClear(GL_COLOR_BUFFER_BIT);
    return ImGui_ImplOpenGL3_RenderDrawData(&data);
  }
  const auto differs = shapes_.replace_by(data);
  glBindFramebuffer(GL_FRAMEBUFFER, buffer_);
  const bool known = !all && !fresh && differs && !differs->empty();
  if (!known || !draw_parts(data, *differs)) {
    glClear(GL_COLOR_BUFFER_BIT);
    draw_turned(data);
  }
  glBindFramebuffer(GL_READ_FRAMEBUFFER, buffer_);
  glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
  const auto width = static_cast<GLint>(size.width);
  const auto height = static_cast<GLint>(size.height);
  glBlitFramebuffer(0, 0, width, height, 0, height, width, 0, GL_COLOR_BUFFER_BIT, GL_NEAREST);
  glBindFramebuffer(GL_FRAMEBUFFER, 0);
}

} // namespace qb::glass
