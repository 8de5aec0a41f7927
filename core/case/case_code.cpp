// The case of a result that came by code alone: tubes and minutes from the packed result, findings
// from its times and flags. A code is a summary: what it does not hold is said to be not known.
#include "core/case/case_parts.hpp"
#include "core/case/case_substrate.hpp"
#include "core/record/codec.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline cases {

namespace {

using std::chrono::seconds;

constexpr const char* by_code = ", by the code";

std::string length_of(seconds d) {
  return length_in_words(d < seconds{0} ? -d : d);
}

tube_standing standing_of(seconds late, const sample_bounds& bounds) {
  if (late < -seconds{bounds.early}) return tube_standing::early;
  return late <= seconds{bounds.on_time} ? tube_standing::on_time : tube_standing::late;
}

case_tube tube_of(const code::packed_result& r, const test_case& c, const case_clock& clock,
                  std::size_t i, const sample_bounds& bounds) {
  const code::packed_sample& s = r.samples[i];
  case_tube t;
  t.number = static_cast<int>(i) + 1;
  t.scores = s.scores;
  t.scores.resize(c.test.symptoms.size());
  t.due = r.zero + c.test.offsets[i];
  t.standing = tube_standing::missed;
  if (!s.taken) return t;
  t.closed = r.zero + s.closed;
  t.how = words_of(*s.taken);
  t.late = s.elapsed - c.test.offsets[i];
  t.minute = exact::minutes_of(duration{s.elapsed} - clock.offset);
  t.standing = standing_of(s.elapsed - seconds{c.test.offsets[i]}, bounds);
  return t;
}

// What a tube's own bytes show; each rule that was told of a tube is noted in `told`.
class code_findings {
public:
  code_findings(const code::packed_result& r, const test_case& c) : r_(r), c_(c) {}

  std::vector<finding> read() {
    add("code-only", consequence::review, std::nullopt,
        "the times came by code; the log is not here");
    if (r_.rehearsal)
      add("rehearsal", consequence::review, std::nullopt, "this is a rehearsal, by the code");
    for (std::size_t i = 0; i < r_.samples.size(); ++i)
      one_tube(i);
    if (r_.flags.count("slip-told") != 0)
      add("slip-told", consequence::review, std::nullopt,
          "a slip of the preparation was told; only the log says which");
    for (const std::string& flag : r_.flags)
      if (std::find(told_.begin(), told_.end(), flag) == told_.end())
        out_.push_back({flag, consequence::review, {}, {}, {}, "noted in the code, no more of it"});
    return std::move(out_);
  }

private:
  void add(const char* rule, consequence weight, std::optional<int> tube, std::string words) {
    const auto n = tube ? std::optional(sample_number(*tube)) : std::nullopt;
    std::vector<std::int64_t> figures;
    if (tube) figures.push_back(*tube);
    out_.push_back({rule, weight, n, {}, std::move(figures), std::move(words)});
    told_.emplace_back(rule);
  }

  void one_tube(std::size_t i) {
    const code::packed_sample& s = r_.samples[i];
    const case_tube& t = c_.tubes[i];
    const auto say = [&](const char* rule, consequence weight, const std::string& words) {
      add(rule, weight, t.number, fmt::format("tube {} {}{}", t.number, words, by_code));
    };
    if (!s.taken) say("sample-missed", consequence::review, "not taken");
    if (t.standing == tube_standing::late || t.standing == tube_standing::early) {
      const bool late = t.standing == tube_standing::late;
      say(late ? "sample-late" : "sample-early", consequence::review,
          fmt::format("closed {} {} its time", length_of(s.elapsed - seconds{c_.test.offsets[i]}),
                      late ? "after" : "before"));
    }
    if (s.taken && *s.taken != how_known::observed)
      say("sample-told", consequence::note, "has a time that was told afterwards");
    if (s.repeated) say("sample-repeated", consequence::note, "was blown again");
    if (s.corrected) say("corrected", consequence::note, "was put right later");
    const bool scored = !s.scores.empty() && std::all_of(s.scores.begin(), s.scores.end(),
                                                         [](const auto& x) { return x; });
    if (s.taken && !scored) say("symptoms-missing", consequence::note, "has not all scores");
  }

  const code::packed_result& r_;
  const test_case& c_;
  std::vector<finding> out_;
  std::vector<std::string> told_;
};

refusal other_form(const code::packed_result& r, const protocol& test) {
  return {refusal_kind::out_of_range, "", "the code",
          fmt::format("{} tubes and {} symptoms", r.samples.size(), r.symptoms),
          fmt::format("{} and {}, as {} has here", test.samples(), test.symptoms.size(), test.id)};
}

// Whether the laboratory's test is the one in the code, byte for byte; true where it has none to
// compare with.
bool is_own(const code::packed_result& r, const own_files& own) {
  if (own.protocols.empty()) return true;
  constexpr std::size_t digits = 8;
  std::string wanted;
  for (const char c : r.protocol_digest)
    wanted += fmt::format("{:02x}", static_cast<unsigned char>(c));
  return std::any_of(own.protocols.begin(), own.protocols.end(), [&](const std::string& text) {
    return sha256_hex(text).substr(0, digits) == wanted;
  });
}

} // namespace

result<test_case> case_of(const code::packed_result& r, const protocol& test,
                          const received_kit& received, const case_rules& rules,
                          const own_files& own, const std::vector<finding>& receiving_findings) {
  if (r.samples.size() != test.samples() || r.symptoms != test.symptoms.size())
    return tl::unexpected(other_form(r, test));
  test_case c;
  c.kit = r.kit_number;
  c.code = r;
  c.test = test;
  c.place = zone::fixed("the patient's clock", r.offset);
  c.asked = rules.profile.zero;
  c.precision = exact::minutes_of(code_precision);
  const bool drink_first = r.flags.count("drink-first") != 0;
  const case_clock clock = case_clock_of(c.asked, drink_first, r.drink.start, r.drink.end);
  c.zero = clock.zero;
  if (r.drink.start) c.drink_start = r.zero + *r.drink.start;
  if (r.drink.start) c.drink_minute = exact::minutes_of(duration{*r.drink.start} - clock.offset);
  if (r.drink.end) c.drink_end = r.zero + *r.drink.end;
  c.as_of = std::max(r.zero, c.drink_end.value_or(r.zero));
  const sample_bounds& bounds = test.bounds ? *test.bounds : rules.profile.bounds;
  for (std::size_t i = 0; i < test.samples(); ++i) {
    c.tubes.push_back(tube_of(r, c, clock, i, bounds));
    c.as_of = std::max(c.as_of, c.tubes.back().closed.value_or(c.as_of));
  }
  for (const code::packed_after& t : r.after) {
    c.after.push_back({t.what, r.zero + t.elapsed,
                       exact::minutes_of(duration{t.elapsed} - clock.offset), t.scores, ""});
    c.after.back().scores.resize(test.symptoms.size());
    c.as_of = std::max(c.as_of, c.after.back().given);
  }
  c.zero_at = zero_instant(c, drink_first ? std::nullopt : std::optional(r.zero));
  std::vector<finding> found = code_findings(r, c).read();
  if (!is_own(r, own))
    found.push_back({"protocol-other",
                     consequence::review,
                     {},
                     {},
                     {},
                     "the protocol of this code is not this laboratory's own '" + test.id +
                         "' as it stands now"});
  if (!received.papers.empty())
    found.push_back({"paper-beside-log",
                     consequence::note,
                     {},
                     {},
                     {},
                     "a paper sheet was entered too; the times are the code's"});
  add_lost_substrate(lost_substrate(r, rules.profile), found);
  finish_case(received, rules, std::move(found), receiving_findings, c);
  return c;
}

std::vector<finding> beside_findings(const code::packed_result& code,
                                     const std::vector<event>& events) {
  const code::comparison c = code::compare_with_log(code, events);
  if (c.log_is_older)
    return {{"code-newer",
             consequence::review,
             {},
             {},
             {static_cast<std::int64_t>(code.events), static_cast<std::int64_t>(events.size())},
             fmt::format("a code made at event {} came; the log here ends at event {}", code.events,
                         events.size())}};
  if (c.differences.empty()) return {};
  return {{"code-differs",
           consequence::review,
           {},
           {},
           {},
           fmt::format("the code that came says otherwise: {}", c.differences.front())}};
}

} // namespace qb::inline cases
