// Hashes the draw data, field by field where a structure has padding.
// The texture's name is left out: it may change when the fonts are built again.
#include "app/glass/draw_hash.hpp"

#include <imgui.h>

#include <cstddef>

namespace qb {

namespace {

void add(std::uint64_t& hash, const void* data, std::size_t size) {
  const auto* byte = static_cast<const unsigned char*>(data);
  for (std::size_t i = 0; i < size; ++i) {
    hash ^= byte[i];
    hash *= 1099511628211ULL;
  }
}

} // namespace

std::uint64_t draw_hash() {
  const ImDrawData* data = ImGui::GetDrawData();
  if (data == nullptr) return 0;
  std::uint64_t hash = 14695981039346656037ULL;
  for (int i = 0; i < data->CmdListsCount; ++i) {
    const ImDrawList& list = *data->CmdLists[i];
    const auto vertices = static_cast<std::size_t>(list.VtxBuffer.Size);
    const auto indices = static_cast<std::size_t>(list.IdxBuffer.Size);
    add(hash, list.VtxBuffer.Data, vertices * sizeof(ImDrawVert));
    add(hash, list.IdxBuffer.Data, indices * sizeof(ImDrawIdx));
    for (const ImDrawCmd& command : list.CmdBuffer) {
      add(hash, &command.ClipRect, sizeof command.ClipRect);
      add(hash, &command.ElemCount, sizeof command.ElemCount);
    }
  }
  return hash;
}

} // namespace qb
