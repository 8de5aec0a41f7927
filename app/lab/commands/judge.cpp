// `judge`: published criteria against bare curves, without a store or a person.
#include "app/assets/assets.hpp"
#include "app/lab/commands/commands.hpp"
#include "app/lab/commands/judge_lines.hpp"
#include "app/lab/context/judge_assets.hpp"
#include "app/lab/intake/inputs.hpp"
#include "app/lab/render/judge_json.hpp"
#include "app/lab/render/judge_text.hpp"
#include "app/machine/posix_file.hpp"
#include "core/curve/curve_csv.hpp"
#include "core/curve/curve_line.hpp"

#include <algorithm>
#include <cstdio>
#include <fmt/core.h>
#include <map>
#include <memory>

namespace qb::lab {

namespace {

struct closing {
  void operator()(std::FILE* file) const { std::fclose(file); }
};
using open_file = std::unique_ptr<std::FILE, closing>;

// The named file, or standard input for "-".
class input {
public:
  input(const std::string& path, std::FILE* standard_input) : from_(standard_input) {
    if (path == "-") return;
    auto open = posix::open_regular(path, links::followed);
    if (!open) {
      no_ = open.error();
      return;
    }
    file_.reset(::fdopen(open->release(), "r"));
    from_ = file_.get();
    if (from_ == nullptr) no_ = posix::failed(path, "open");
  }
  [[nodiscard]] const std::optional<refusal>& no() const { return no_; }
  [[nodiscard]] std::FILE* stream() const { return from_; }

private:
  open_file file_;
  std::FILE* from_;
  std::optional<refusal> no_;
};

// What every curve of one call is judged by.
struct judging_house {
  std::shared_ptr<const judging_rules> rules;
  lab_profile profile;
  exact slack;

  // The slack is the one that was typed, not the profile's.
  [[nodiscard]] test_judging ready(const protocol& test) const {
    test_judging out = ready_for(rules, test, profile);
    out.terms.slack = slack;
    return out;
  }
};

// The tests a batch names, each made ready once. A line names ids only: no path of its is followed.
class tests_of_lines {
public:
  tests_of_lines(std::string assets, const judging_house& house)
      : assets_(std::move(assets)), house_(house), ids_(protocol_ids(assets_)) {}

  result<const test_judging*> find(const std::string& id) {
    const auto known = ready_.find(id);
    if (known != ready_.end()) return &known->second;
    if (std::find(ids_.begin(), ids_.end(), id) == ids_.end()) {
      std::string all;
      for (const std::string& one : ids_)
        all += (all.empty() ? "" : ", ") + one;
      return tl::unexpected(refusal{refusal_kind::out_of_range, "", "test", "a test not known here",
                                    "one of: " + all});
    }
    const auto read = load_protocol(assets_, id);
    if (!read) return tl::unexpected(read.error());
    return &ready_.emplace(id, house_.ready(read->value)).first->second;
  }

private:
  std::string assets_;
  const judging_house& house_;
  std::vector<std::string> ids_;
  std::map<std::string, test_judging> ready_;
};

tl::unexpected<refusal> no_option(const char* option, std::string found, std::string expected) {
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", option, std::move(found), std::move(expected)});
}

// The slack as it was typed; what is no number is not shown back.
result<exact> slack_of(const judge_options& o, const curve_limits& limits) {
  if (o.window_slack.empty()) return exact();
  const auto slack = exact::parse(o.window_slack);
  if (slack && *slack >= exact() && *slack <= limits.minute_most) return *slack;
  return no_option("--window-slack", slack ? slack->text() : "no number",
                   fmt::format("minutes from 0 to {}", limits.minute_most.text()));
}

std::optional<refusal> no_of_usage(const judge_options& o) {
  if (o.curve.empty() == o.curves.empty())
    return no_option("--curve", o.curve.empty() ? "nothing to judge" : "--curves as well",
                     "either --curve FILE or --curves FILE")
        .value();
  if (!o.curve.empty() && o.test.empty())
    return no_option("--test", "nothing", "the test the curve is of").value();
  return std::nullopt;
}

int judge_one(const judge_options& o, const test_judging& test, const console& to) {
  const input from(o.curve, o.standard_input);
  if (from.no()) return say_no(*from.no(), to);
  const auto named = [&](refusal no) {
    no.file = o.curve;
    return no;
  };
  const auto bytes = read_stream(from.stream());
  if (!bytes) return say_no(named(bytes.error()), to);
  const auto samples = read_curve_csv(*bytes, test.rules->flags.limits);
  if (!samples) return say_no(named(samples.error()), to);
  const curve c = as_of_grid(*samples, test);
  const judgement j = judge_curve(c, test);
  if (o.format == output_format::text) {
    to.out(judge_text(j, c, test));
    return 0;
  }
  std::string line;
  json::writer out(line, json::style::one_line);
  out.open_object();
  judge_json(j, test.test, true, out);
  out.close_object();
  to.out(line + "\n");
  return 0;
}

// The answers of a batch, handed on in large pieces.
class batch {
public:
  batch(tests_of_lines& tests, const test_judging* usual, const curve_limits& limits,
        const console& to)
      : tests_(tests), usual_(usual), limits_(limits), to_(to) {}

  void take(std::string_view text, std::size_t number, bool too_long) {
    ++lines_;
    json::writer out(out_, json::style::one_line);
    out.open_object();
    out.key("line").integer(static_cast<std::int64_t>(number));
    const auto no = too_long ? refusal{refusal_kind::out_of_range, "", "", "more bytes",
                                       fmt::format("at most {} in a line", most_line_bytes)}
                             : answer_line(text, out);
    if (no) {
      ++refused_;
      out.key("error").text(fmt::format("line {}: {}", number, sentence(*no)));
    }
    out.close_object();
    out_ += '\n';
    constexpr std::size_t piece_bytes = 64UL * 1024UL;
    if (out_.size() >= piece_bytes) flush();
  }

  void flush() {
    to_.out(out_);
    out_.clear();
  }

  [[nodiscard]] std::size_t lines() const { return lines_; }
  [[nodiscard]] std::size_t refused() const { return refused_; }

private:
  std::optional<refusal> answer_line(std::string_view text, json::writer& out) {
    const curve_line line = read_curve_line(text, limits_);
    if (!line.id.is_null()) out.key("id").put(line.id);
    if (!line.samples) return line.samples.error();
    const test_judging* test = usual_;
    if (!line.test.empty()) {
      const auto named = tests_.find(line.test);
      if (!named) return named.error();
      test = *named;
    }
    if (test == nullptr)
      return refusal{refusal_kind::missing, "", "test", "nothing", "a test here, or --test"};
    judge_json(judge_curve(as_of_grid(*line.samples, *test), *test), test->test, false, out);
    return std::nullopt;
  }

  tests_of_lines& tests_;
  const test_judging* usual_;
  const curve_limits& limits_;
  const console& to_;
  std::string out_;
  std::size_t lines_{0};
  std::size_t refused_{0};
};

int judge_many(const judge_options& o, const judging_house& house, const test_judging* usual,
               const console& to) {
  const input from(o.curves, o.standard_input);
  if (from.no()) return say_no(*from.no(), to);
  tests_of_lines tests(o.assets, house);
  batch all(tests, usual, house.rules->flags.limits, to);
  const auto read =
      each_line(from.stream(), [&](std::string_view line, std::size_t number, bool too_long) {
        all.take(line, number, too_long);
      });
  all.flush();
  if (!read) return say_no(in_file(read.error(), o.curves), to);
  if (all.refused() == 0) return 0;
  return say_no({refusal_kind::malformed, o.curves, "",
                 fmt::format("{} of {} lines that could not be judged", all.refused(), all.lines()),
                 "curves; what is wrong stands in their answers"},
                to);
}

} // namespace

int judge_curves(const judge_options& o, const console& to) {
  if (const auto no = no_of_usage(o)) return say_no(*no, to);
  const auto rules = load_judging_rules(o.assets);
  if (!rules) return say_no(rules.error(), to);
  const auto slack = slack_of(o, (*rules)->flags.limits);
  if (!slack) return say_no(slack.error(), to);
  auto profile = load_profile(o.assets, o.profile);
  if (!profile) return say_no(profile.error(), to);
  const judging_house house{*rules, std::move(profile->value), *slack};
  std::optional<test_judging> test;
  if (!o.test.empty()) {
    const auto read = load_protocol(o.assets, o.test);
    if (!read) return say_no(read.error(), to);
    test = house.ready(read->value);
  }
  if (!o.curve.empty()) return judge_one(o, *test, to);
  return judge_many(o, house, test ? &*test : nullptr, to);
}

} // namespace qb::lab
