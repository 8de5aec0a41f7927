// Hashes the draw data, field by field where a structure has padding.
// The texture's name is left out: it may change when the fonts are built again.
#include "app/glass/draw_hash.hpp"

#include <imgui.h>

#include <cstddef>
#include <cstring>

namespace qb::glass {

namespace {

constexpr std::uint64_t prime = 1099511628211ULL;

// Eight bytes at a time, and what is left over by single ones.
void add(std::uint64_t& hash, const void* data, std::size_t size) {
  const auto* byte = static_cast<const unsigned char*>(data);
  const auto mix = [&hash](std::uint64_t value) {
    hash = (hash ^ value) * prime;
    hash ^= hash >> 32; // a multiplication carries upwards only
  };
  std::size_t at = 0;
  for (; at + sizeof hash <= size; at += sizeof hash) {
    std::uint64_t word = 0;
    std::memcpy(&word, byte + at, sizeof word);
    mix(word);
  }
  for (; at < size; ++at)
    mix(byte[at]);
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

} // namespace qb::glass
