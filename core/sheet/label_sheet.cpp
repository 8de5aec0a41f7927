// The strict reader of label sheets, and the arithmetic of a label's place.
#include "core/sheet/label_sheet.hpp"

#include "core/protocol/rule_reader.hpp"

#include <cstdlib>
#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

using json::fields;

constexpr std::int64_t longest = 5000; // half a metre; no page of labels is longer
constexpr paper_size least_label{380, 210};
constexpr paper_size most_label{2100, 2970};
constexpr std::int64_t most_margin = 100;

int length(fields& f, const char* key, std::int64_t least, std::int64_t most) {
  return static_cast<int>(f.integer(key, least, most));
}

// One object of the file, read by `read(fields&)`.
template <typename Read>
void child(fields& up, const char* key, Read read) {
  const json::value* v = up.child(key);
  if (v == nullptr) return;
  fields f(*v, up.place(key));
  read(f);
  up.absorb(f.finish());
}

// What no schema can say: whether the labels fit beside each other and on the page.
void check_grid(fields& f, const label_sheet& s) {
  const auto span = [](std::size_t count, int pitch, int size) {
    return (static_cast<int>(count) - 1) * pitch + size;
  };
  if (s.roll && s.on_a_page() != 1)
    f.refuse("medium", fmt::format("a roll of {} labels a page", s.on_a_page()),
             "a roll of one label a page", refusal_kind::out_of_range);
  if (s.pitch_x < s.label.width || s.pitch_y < s.label.height)
    f.refuse("pitch", fmt::format("{} and {}", s.pitch_x, s.pitch_y),
             fmt::format("no less than a label, {} and {}", s.label.width, s.label.height),
             refusal_kind::out_of_range);
  const int right = s.left + span(s.columns, s.pitch_x, s.label.width);
  const int bottom = s.top + span(s.rows, s.pitch_y, s.label.height);
  if (right > s.page.width || bottom > s.page.height)
    f.refuse("page", fmt::format("labels up to {} and {}", right, bottom),
             fmt::format("labels on the page, {} and {}", s.page.width, s.page.height),
             refusal_kind::out_of_range);
}

} // namespace

result<label_sheet> read_label_sheet(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-labels");
  label_sheet out;
  out.id = read_id(f, "id");
  out.name = f.text("name", 80);
  out.roll = f.choice("medium", {"sheet", "roll"}) == 1;
  static_cast<void>(f.choice("unit", {"0.1 mm"}));
  child(f, "page", [&](fields& p) {
    out.page = {length(p, "width", 1, longest), length(p, "height", 1, longest)};
  });
  out.columns = static_cast<std::size_t>(f.integer("columns", 1, 20));
  out.rows = static_cast<std::size_t>(f.integer("rows", 1, 40));
  child(f, "label", [&](fields& l) {
    out.label = {length(l, "width", least_label.width, most_label.width),
                 length(l, "height", least_label.height, most_label.height)};
  });
  child(f, "first", [&](fields& a) {
    out.left = length(a, "left", 0, longest);
    out.top = length(a, "top", 0, longest);
  });
  child(f, "pitch", [&](fields& p) {
    out.pitch_x = length(p, "x", 1, longest);
    out.pitch_y = length(p, "y", 1, longest);
  });
  child(f, "margin", [&](fields& m) {
    out.margin_x = length(m, "x", 0, most_margin);
    out.margin_y = length(m, "y", 0, most_margin);
  });
  child(f, "source", [&](fields& s) {
    static const std::vector<std::string> bases{"read", "memory", "common-practice", "laboratory"};
    out.citation = s.text("citation", 600);
    out.basis = bases.at(s.choice("basis", bases));
  });
  if (!f.failed()) check_grid(f, out);
  if (auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

result<void> check_print(const label_sheet& sheet, const label_print& print) {
  const auto no = [](const char* option, const std::string& found, const std::string& expected) {
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", option, found, expected});
  };
  if (print.start_at < 1 || print.start_at > sheet.on_a_page())
    return no("--start-at", fmt::format("{}", print.start_at),
              fmt::format("1 to {}", sheet.on_a_page()));
  const std::string range =
      fmt::format("{} to {} tenths of a millimetre", -most_offset, most_offset);
  if (std::abs(print.offset_x) > most_offset)
    return no("--offset-x", fmt::format("{}", print.offset_x), range);
  if (std::abs(print.offset_y) > most_offset)
    return no("--offset-y", fmt::format("{}", print.offset_y), range);
  return {};
}

label_place place_of(const label_sheet& sheet, const label_print& print, std::size_t index) {
  const std::size_t at = index + print.start_at - 1;
  const std::size_t place = at % sheet.on_a_page();
  const auto column = static_cast<int>(place % sheet.columns);
  const auto row = static_cast<int>(place / sheet.columns);
  return {at / sheet.on_a_page(), sheet.left + column * sheet.pitch_x + print.offset_x,
          sheet.top + row * sheet.pitch_y + print.offset_y};
}

const label_sheet& plain_paper() {
  static const label_sheet sheet{"plain-a4",
                                 "Plain A4, 3 by 8 labels of 70 x 37 mm to be cut",
                                 false,
                                 {2100, 2970},
                                 3,
                                 8,
                                 {700, 370},
                                 0,
                                 5,
                                 700,
                                 370,
                                 45,
                                 25,
                                 "",
                                 "common-practice"};
  return sheet;
}

} // namespace qb::inline sheets
