// Which letters of which faces are rasterised. A face's letters come in blocks: the first at once,
// the others when a text needs one of theirs, because drawing every letter of every alphabet in
// every size takes longer than all else that happens at launch.
#pragma once

#include "app/patient/theme/fonts.hpp"
#include "app/patient/theme/line_pictures.hpp"

#include <imgui.h>

#include <array>
#include <bitset>
#include <cstddef>
#include <string_view>
#include <vector>

namespace qb::inline looks {

// What of each face is made and what is wanted; making the letters is the fonts' business.
class glyph_supply {
public:
  // The characters a font file has letters for; anything else is never lacking.
  void set_letters(bool bold, std::vector<bool> letters);
  [[nodiscard]] bool has_letter(face f, char32_t c) const;

  // Whether the text has a letter that no atlas of these files can have, so that it is a picture.
  [[nodiscard]] bool is_pictured(face f, std::string_view text) const;
  // The pictures of such texts; one that is still to be made is lacking.
  [[nodiscard]] line_pictures& pictures() { return pictures_; }
  void lack_picture() { lacking_ = true; }

  // Blocks with characters of this text are wanted.
  void need(face f, std::string_view text);
  [[nodiscard]] bool lacking() const { return lacking_; }

  // The ranges to rasterise now, ended by 0; what was wanted is no longer lacking. Valid until the
  // next call for that face.
  [[nodiscard]] const ImWchar* ranges(face f);
  void made() { lacking_ = false; }

private:
  static constexpr std::size_t most_blocks = 8;
  struct supplied {
    std::bitset<most_blocks> wanted{1}; // the first block from the beginning
    std::vector<ImWchar> ranges;
  };
  std::array<supplied, face_count> faces_{};
  std::array<std::vector<bool>, 2> letters_; // of the regular and the bold file
  line_pictures pictures_;
  bool lacking_{false};
};

// Whether a face is cut from the bold file.
[[nodiscard]] bool is_bold(face f);

} // namespace qb::inline looks
