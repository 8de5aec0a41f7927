// What differs between two frames, held against two lists of triangles made by hand.
#include "app/glass/damage.hpp"

#include <catch2/catch.hpp>

using namespace qb;
using namespace qb::glass;

namespace {

// A frame of boxes, each two triangles of one colour.
class frame_of_boxes {
public:
  frame_of_boxes() : list_(nullptr) {
    ImDrawCmd all;
    all.ClipRect = {0, 0, 360, 640};
    list_.CmdBuffer.push_back(all);
  }
  frame_of_boxes& box(float left, float top, float right, float bottom, ImU32 colour = 1) {
    const auto first = static_cast<ImDrawIdx>(list_.VtxBuffer.Size);
    for (const ImVec2 at :
         {ImVec2{left, top}, ImVec2{right, top}, ImVec2{right, bottom}, ImVec2{left, bottom}})
      list_.VtxBuffer.push_back({at, {0, 0}, colour});
    for (const int corner : {0, 1, 2, 0, 2, 3})
      list_.IdxBuffer.push_back(static_cast<ImDrawIdx>(first + corner));
    list_.CmdBuffer[0].ElemCount = static_cast<unsigned>(list_.IdxBuffer.Size);
    return *this;
  }
  void clip_at(float bottom) { list_.CmdBuffer[0].ClipRect.w = bottom; }
  ImDrawData& data() {
    lists_[0] = &list_;
    data_.CmdLists = lists_;
    data_.CmdListsCount = 1;
    return data_;
  }

private:
  ImDrawList list_;
  ImDrawList* lists_[1]{};
  ImDrawData data_;
};

bool holds(const part& p, float left, float top, float right, float bottom) {
  return p.left <= left && p.top <= top && p.right >= right && p.bottom >= bottom;
}

float area(const part& p) {
  return (p.right - p.left) * (p.bottom - p.top);
}

} // namespace

TEST_CASE("of the first frame nothing is known, of an equal one nothing differs") {
  drawn_shapes kept;
  frame_of_boxes one;
  one.box(0, 0, 360, 640);
  CHECK_FALSE(kept.replace_by(one.data()));
  const auto again = kept.replace_by(one.data());
  REQUIRE(again);
  CHECK(again->empty());
}

TEST_CASE("a box that changed its colour is the part that differs") {
  drawn_shapes kept;
  frame_of_boxes before;
  before.box(0, 0, 360, 640).box(10, 20, 30, 40, 7).box(100, 500, 200, 600);
  frame_of_boxes after;
  after.box(0, 0, 360, 640).box(10, 20, 30, 40, 8).box(100, 500, 200, 600);
  (void)kept.replace_by(before.data());
  const auto parts = kept.replace_by(after.data());
  REQUIRE(parts);
  REQUIRE(parts->size() == 1);
  CHECK(holds(parts->front(), 10, 20, 30, 40));
  CHECK(area(parts->front()) < 600);
}

TEST_CASE("of a box that moved both places differ, and far ones are parts of their own") {
  drawn_shapes kept;
  frame_of_boxes before;
  before.box(0, 0, 360, 640).box(10, 20, 30, 40);
  frame_of_boxes after;
  after.box(0, 0, 360, 640).box(300, 600, 330, 630);
  (void)kept.replace_by(before.data());
  const auto parts = kept.replace_by(after.data());
  REQUIRE(parts);
  REQUIRE(parts->size() == 2);
  CHECK(holds((*parts)[0], 10, 20, 30, 40));
  CHECK(holds((*parts)[1], 300, 600, 330, 630));
}

TEST_CASE("a box more in the middle moves the others' numbers, not their pictures") {
  drawn_shapes kept;
  frame_of_boxes before;
  before.box(0, 0, 360, 640).box(10, 20, 30, 40).box(100, 500, 200, 600);
  frame_of_boxes after;
  after.box(0, 0, 360, 640).box(10, 20, 30, 40).box(50, 60, 70, 80).box(100, 500, 200, 600);
  (void)kept.replace_by(before.data());
  for (frame_of_boxes* next : {&after, &before}) {
    const auto parts = kept.replace_by(next->data());
    REQUIRE(parts);
    REQUIRE(parts->size() == 1);
    CHECK(holds(parts->front(), 50, 60, 70, 80));
    CHECK(area(parts->front()) < 600);
  }
}

TEST_CASE("where the clipping changed nothing is said of parts") {
  drawn_shapes kept;
  frame_of_boxes one;
  one.box(0, 0, 360, 640);
  (void)kept.replace_by(one.data());
  one.clip_at(600);
  CHECK_FALSE(kept.replace_by(one.data()));
}
