// Straight from the tokeniser's events to the curve: by the million, a tree for each line costs.
// Numbers are taken from their text where they have a point, so that nothing is rounded.
#include "core/curve/curve_line.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>
#include <nlohmann/json.hpp>

namespace qb::inline curves {

namespace {

constexpr std::array<std::string_view, 4> columns{"minute", "h2_ppm", "ch4_ppm", "co2_pct"};
constexpr std::size_t least_columns = 3; // without co2_pct

// The cells of one sample; which were named, and which of those have a number.
struct row {
  std::array<std::optional<ranged_reading>, columns.size()> cells;
  std::array<bool, columns.size()> named{};
};

class line_reader final : public nlohmann::json_sax<nlohmann::json> {
public:
  bool null() override { return cell(std::nullopt, "null"); }
  bool boolean(bool) override { return other("true or false"); }
  bool number_integer(number_integer_t n) override {
    return whole(n, n >= -exact::largest && n <= exact::largest);
  }
  bool number_unsigned(number_unsigned_t n) override {
    return whole(static_cast<std::int64_t>(n), n <= static_cast<number_unsigned_t>(exact::largest));
  }
  bool number_float(number_float_t, const string_t& text) override {
    if (in_ == place::top || passing_over()) return other("a number with a fraction");
    const auto n = exact::parse(text);
    return n ? cell(ranged_reading{*n}, "a number")
             : refuse("the number " + shortened(text), readable);
  }
  bool string(string_t& text) override {
    if (in_ == place::top && key_ == "test") return take_test(text);
    if (in_ == place::top && key_ == "id") {
      out_.id = text;
      return true;
    }
    // "<1", ">200" of a gas; any other text, a number in quotes too, is none.
    const bool ranged = !text.empty() && (text[0] == '<' || text[0] == '>');
    const auto reading = ranged && is_gas() ? read_reading(text) : std::nullopt;
    return reading ? cell(reading, "a text") : other("a text");
  }
  bool binary(binary_t&) override { return other("binary data"); }

  bool start_object(std::size_t) override {
    if (in_ == place::outside) return go(place::top);
    if (in_ == place::samples) return begin_row(place::sample_object);
    return pass_over_or("an object");
  }
  bool key(string_t& text) override {
    if (passing_over()) return true;
    if (in_ == place::sample_object) return take_column(text);
    key_ = text;
    if (std::find(seen_.begin(), seen_.end(), key_) != seen_.end())
      return refuse("\"" + shortened(key_) + "\" twice", "each name once");
    seen_.push_back(key_);
    return true;
  }
  bool end_object() override {
    if (depth_over_ > 0) return --depth_over_, true;
    if (in_ == place::sample_object) return end_row();
    return go(place::outside);
  }
  bool start_array(std::size_t) override {
    if (in_ == place::top && (key_ == "curve" || key_ == "samples")) {
      if (has_rows_) return refuse("both \"curve\" and \"samples\"", "one of them");
      has_rows_ = true;
      return go(place::samples);
    }
    if (in_ == place::top && column_of(key_) < columns.size()) {
      column_ = column_of(key_);
      has_column_[column_] = true;
      index_ = 0;
      return go(place::column);
    }
    if (in_ == place::samples) return begin_row(place::sample_list);
    return pass_over_or("a list");
  }
  bool end_array() override {
    if (depth_over_ > 0) return --depth_over_, true;
    if (in_ == place::sample_list) return end_row();
    if (in_ == place::column) lengths_[column_] = index_;
    return go(place::top);
  }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return refuse("text that is not JSON", "one JSON object");
  }

  curve_line finish(const curve_limits& limits) {
    if (!no_) check_shape();
    for (index_ = 0; !no_ && index_ < rows_.size(); ++index_) {
      const row& r = rows_[index_];
      if (!r.cells[0]) {
        refuse("no minute", "a minute in every sample");
        break;
      }
      const curve_sample next = sample_of(r);
      if (const auto no = no_to_sample(*out_.samples, next, limits)) no_ = placed(*no);
      out_.samples->push_back(next);
    }
    if (no_) out_.samples = tl::unexpected(*no_);
    return std::move(out_);
  }

private:
  enum class place { outside, top, samples, sample_list, sample_object, column };
  static constexpr const char* readable =
      "a number of at most 1000000 with at most 18 digits after the point";

  static curve_sample sample_of(const row& r) {
    const auto figure = [&](std::size_t i) {
      return r.cells[i] ? std::optional(r.cells[i]->figure) : std::nullopt;
    };
    const auto range = [&](std::size_t i) {
      return r.cells[i] ? r.cells[i]->is : reading_range::within;
    };
    return {*figure(0),   figure(1),    figure(2), figure(least_columns),
            std::nullopt, std::nullopt, range(1),  range(2)};
  }
  static std::string shortened(const std::string& text) {
    constexpr std::size_t enough = 40;
    const bool plain = std::all_of(text.begin(), text.end(),
                                   [](char c) { return c > ' ' && c <= '~' && c != '"'; });
    if (!plain) return "of other characters";
    return text.size() <= enough ? text : fmt::format("{}...", text.substr(0, enough));
  }
  static std::size_t column_of(const std::string& name) {
    return static_cast<std::size_t>(std::find(columns.begin(), columns.end(), name) -
                                    columns.begin());
  }
  [[nodiscard]] bool passing_over() const { return depth_over_ > 0; }
  [[nodiscard]] bool key_is_ours() const {
    return key_ == "id" || key_ == "test" || key_ == "curve" || key_ == "samples" ||
           column_of(key_) < columns.size();
  }

  // Whether the next cell is one of hydrogen or methane.
  [[nodiscard]] bool is_gas() const {
    const bool cells =
        in_ == place::sample_list || in_ == place::sample_object || in_ == place::column;
    return !passing_over() && cells && (column_ == 1 || column_ == 2);
  }

  bool go(place to) {
    in_ = to;
    return true;
  }
  refusal placed(refusal no) const {
    if (no.where.empty() && in_ != place::top && !rows_.empty())
      no.where = fmt::format("sample {}", index_ + 1);
    return no;
  }
  bool refuse(std::string found, std::string expected) {
    if (!no_)
      no_ = placed({refusal_kind::malformed, "", "", std::move(found), std::move(expected)});
    return false;
  }
  // What stands at the top under a name that is not ours is passed over, all else is refused.
  bool other(const char* found) {
    if (passing_over() || (in_ == place::top && !key_is_ours())) return true;
    if (in_ == place::outside) return refuse(found, "one JSON object");
    if (in_ == place::top) return refuse(found, "for \"" + key_ + "\" " + expected_at_top());
    if (in_ == place::samples) return refuse(found, "a list or an object for each sample");
    return refuse(found, "a number, or null for a missing reading");
  }
  bool pass_over_or(const char* found) {
    const bool over = passing_over() || (in_ == place::top && !key_is_ours());
    if (!over) return other(found);
    ++depth_over_;
    return true;
  }
  [[nodiscard]] const char* expected_at_top() const {
    if (key_ == "id") return "a text or a whole number";
    return key_ == "test" ? "a test's id" : "a list";
  }
  bool take_test(const std::string& text) {
    out_.test = text;
    return !text.empty() || refuse("an empty text", "a test's id");
  }
  bool whole(std::int64_t n, bool fits) {
    if (in_ == place::top && key_ == "id" && !passing_over()) {
      out_.id = n;
      return true;
    }
    if (in_ == place::outside || in_ == place::top || passing_over()) return other("a number");
    return fits ? cell(ranged_reading{exact(n)}, "a number")
                : refuse("a number that large", readable);
  }
  bool cell(const std::optional<ranged_reading>& n, const char* kind) {
    const bool in_row = in_ == place::sample_list || in_ == place::sample_object;
    if (passing_over() || (!in_row && in_ != place::column)) return other(kind);
    if (in_ == place::column) return column_cell(n);
    if (column_ >= columns.size()) return refuse("more numbers", "at most 4 in a sample");
    rows_.back().cells[column_] = n;
    rows_.back().named[column_] = true;
    if (in_ == place::sample_list) ++column_;
    return true;
  }
  bool column_cell(const std::optional<ranged_reading>& n) {
    if (index_ >= longest_curve) return too_many();
    if (rows_.size() <= index_) rows_.emplace_back();
    rows_[index_].cells[column_] = n;
    ++index_;
    return true;
  }
  bool too_many() { return refuse("more samples", fmt::format("at most {}", longest_curve)); }
  bool take_column(const std::string& name) {
    column_ = column_of(name);
    if (column_ >= columns.size())
      return refuse("the name " + shortened(name), "minute, h2_ppm, ch4_ppm, co2_pct");
    if (rows_.back().named[column_]) return refuse(name + " twice", "each name once");
    return true;
  }
  bool begin_row(place kind) {
    if (rows_.size() >= longest_curve) return too_many();
    index_ = rows_.size();
    rows_.emplace_back();
    column_ = 0;
    return go(kind);
  }
  bool end_row() {
    if (in_ == place::sample_list && column_ < least_columns)
      return refuse(fmt::format("{} numbers", column_), "minute, h2_ppm, ch4_ppm");
    return go(place::samples);
  }
  void check_shape() {
    in_ = place::top;
    const bool any_column =
        std::find(has_column_.begin(), has_column_.end(), true) != has_column_.end();
    if (has_rows_ == any_column) {
      refuse(has_rows_ ? "samples and columns" : "no samples", "\"curve\", or the columns' lists");
    } else if (any_column) {
      for (std::size_t i = 0; i < columns.size(); ++i) {
        const bool missing = i < least_columns && !has_column_[i];
        if (missing || (has_column_[i] && lengths_[i] != rows_.size()))
          refuse(fmt::format("{} {} in \"{}\"", missing ? 0 : lengths_[i],
                             lengths_[i] == 1 ? "number" : "numbers", columns[i]),
                 "lists of one length");
      }
    }
    in_ = place::samples;
  }

  place in_{place::outside};
  std::string key_;
  std::vector<std::string> seen_;
  int depth_over_{0};
  bool has_rows_{false};
  std::array<bool, columns.size()> has_column_{};
  std::array<std::size_t, columns.size()> lengths_{};
  std::size_t column_{0};
  std::size_t index_{0};
  std::vector<row> rows_;
  std::optional<refusal> no_;
  curve_line out_;
};

} // namespace

curve_line read_curve_line(std::string_view text, const curve_limits& limits) {
  line_reader reader;
  // The tokeniser would take a zero byte for the end and never see what follows it.
  if (text.find('\0') != std::string_view::npos) {
    curve_line out;
    out.samples =
        tl::unexpected(refusal{refusal_kind::malformed, "", "", "a zero byte", "one JSON object"});
    return out;
  }
  nlohmann::json::sax_parse(text.data(), text.data() + text.size(), &reader);
  return reader.finish(limits);
}

} // namespace qb::inline curves
