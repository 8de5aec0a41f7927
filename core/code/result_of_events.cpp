// From events to the packed result; and its comparison, field by field.
#include "core/code/result_of_events.hpp"

#include "core/base/hex.hpp"
#include "core/code/code_text.hpp"
#include "core/code/flags.hpp"
#include "core/findings/findings.hpp"
#include "core/record/codec.hpp"
#include "core/session/scores_after.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::code {

namespace {

using std::chrono::seconds;

std::string chain_tail(const std::vector<event>& events) {
  constexpr std::size_t digits = 16;
  std::string head = chain_start();
  for (const event& e : events)
    head = chain_next(head, json::canonical(encode_event(e)));
  return *bytes_of_hex(std::string_view(head).substr(head.size() - digits));
}

instant whole(instant t) {
  return std::chrono::floor<seconds>(t);
}

seconds after(instant t, instant zero) {
  return std::chrono::duration_cast<seconds>(whole(t) - zero);
}

packed_sample sample_of(const state& s, sample_number n, instant zero) {
  const sample_state& t = s.of(n);
  packed_sample out;
  if (t.symptoms) out.scores = scores_by_symptom(*s.test, t.symptoms->scores);
  out.again = t.repeat_reason.has_value();
  out.corrected = std::any_of(s.corrections.begin(), s.corrections.end(),
                              [&](const noted_correction& c) { return c.sample == n; });
  out.repeated = !t.earlier.empty();
  if (!t.taken) return out;
  out.taken = t.taken->how;
  out.closed = after(t.taken->closed, zero);
  out.elapsed = std::chrono::floor<seconds>(t.taken->since_anchor);
  // Both are cut, so that a second's difference says nothing.
  if (std::chrono::abs(out.elapsed - out.closed) <= seconds{1}) out.elapsed = out.closed;
  out.offset = t.taken->offset;
  return out;
}

std::vector<packed_after> after_of(const state& s) {
  std::vector<packed_after> out;
  for (const score_time t : both_score_times) {
    const auto given = given_since_anchor(s, t);
    // Without symptoms there is nothing that could be carried.
    if (!given || s.test->symptoms.empty()) continue;
    const bool corrected = std::any_of(s.corrections.begin(), s.corrections.end(),
                                       [&](const noted_correction& c) { return c.after == t; });
    out.push_back({t, corrected, std::chrono::floor<seconds>(*given),
                   scores_by_symptom(*s.test, s.of(t).told->scores)});
  }
  return out;
}

packed_drink drink_of(const state& s, instant zero) {
  packed_drink d;
  if (s.drink_start) d.start = after(s.drink_start->at.wall, zero);
  if (s.drink_end) d.end = after(s.drink_end->at.wall, zero);
  d.start_how = s.drink_start_how;
  d.all_of_it = s.drank_all;
  if (!s.drink_troubles.empty()) d.kept = s.drink_troubles.back().what.kept;
  return d;
}

std::set<std::string> flags_in(const state& s) {
  std::set<std::string> out;
  // Only the words of a finding depend on the zone, and they are not carried.
  for (const finding& f : findings_of(s, *s.last_reading, zone::fixed("UTC", seconds{0})))
    out.insert(f.rule);
  if (!s.slips.empty()) out.insert("slip-told");
  return flags_of(flags_number(out));
}

std::string text_of(std::optional<seconds> t) {
  return t ? fmt::format("{} s after time zero", t->count()) : std::string("none");
}

std::string text_of(const std::optional<how_known>& how) {
  return how ? words_of(*how) : "not taken";
}

std::string text_of(const std::vector<std::optional<int>>& scores) {
  std::string out;
  for (const auto& one : scores)
    out += (out.empty() ? "" : " ") + (one ? fmt::format("{}", *one) : std::string("-"));
  return out.empty() ? "none" : out;
}

std::string text_of(std::size_t count) {
  return fmt::format("{}", count);
}

std::string text_of(bool yes) {
  return yes ? "yes" : "no";
}

std::string text_of(const std::set<std::string>& flags) {
  std::string out;
  for (const std::string& one : flags)
    out += (out.empty() ? "" : ", ") + one;
  return out.empty() ? "none" : out;
}

std::string text_of(const std::string& text) {
  return "\"" + text + "\"";
}

// Collects what differs.
class comparer {
public:
  template <typename T>
  void same(const std::string& what, const T& code, const T& log) {
    if (code != log)
      found.push_back(
          fmt::format("{}: {} in the code, {} in the log", what, text_of(code), text_of(log)));
  }
  void same_bytes(const char* what, const std::string& code, const std::string& log) {
    if (code != log) found.push_back(fmt::format("{}: another in the log than in the code", what));
  }

  std::vector<std::string> found;
};

void compare_samples(const packed_sample& a, const packed_sample& b, std::size_t number,
                     comparer& c) {
  const std::string tube = fmt::format("tube {}", number);
  c.same(tube, a.taken, b.taken);
  if (a.taken && b.taken) {
    c.same(tube + " closed", std::optional(a.closed), std::optional(b.closed));
    c.same(tube + " closed in elapsed time", std::optional(a.elapsed), std::optional(b.elapsed));
    c.same_bytes((tube + "'s offset").c_str(), fmt::format("{}", a.offset.count()),
                 fmt::format("{}", b.offset.count()));
  }
  c.same(tube + " closed more than once", a.repeated, b.repeated);
  c.same(tube + " to be blown again", a.again, b.again);
  c.same(tube + " corrected", a.corrected, b.corrected);
  c.same(tube + " scores", a.scores, b.scores);
}

void compare_after(const packed_after& a, const packed_after& b, comparer& c) {
  const std::string what = std::string("scores ") + words_of(a.what);
  c.same(what + ", which", std::string(key_of(a.what)), std::string(key_of(b.what)));
  c.same(what + ", when", std::optional(a.elapsed), std::optional(b.elapsed));
  c.same(what + " corrected", a.corrected, b.corrected);
  c.same(what, a.scores, b.scores);
}

} // namespace

result<packed_result> packed_of(const std::vector<event>& events) {
  const state s = fold_events(events);
  const auto no = [](std::string found, std::string expected) {
    return tl::unexpected(
        refusal{refusal_kind::not_now, "", "code", std::move(found), std::move(expected)});
  };
  if (!s.opening || !s.person || !s.test || !s.planned || !s.grid)
    return no("no first tube yet", "a test that has begun");
  for (const std::string* text : {&s.person->kit_number, &s.test->id, &s.opening->test_id}) {
    if (text->empty() || text->size() > most_code_text)
      return no(fmt::format("a name of {} bytes", text->size()),
                fmt::format("kit number and ids of 1 to {} bytes", most_code_text));
  }
  if (s.test->symptoms.size() > most_code_symptoms)
    return no(fmt::format("{} symptoms", s.test->symptoms.size()),
              fmt::format("at most {}", most_code_symptoms));
  packed_result r;
  r.rehearsal = s.rehearsal();
  r.kit_number = s.person->kit_number;
  r.protocol_id = s.test->id;
  constexpr std::size_t digest_digits = 8;
  r.protocol_digest = *bytes_of_hex(sha256_hex(s.planned->protocol_text).substr(0, digest_digits));
  r.test_id = s.opening->test_id;
  r.events = events.size();
  r.head_tail = chain_tail(events);
  r.zero = whole(s.grid->anchor.wall);
  r.offset = s.grid->anchor.offset;
  r.flags = flags_in(s);
  r.drink = drink_of(s, r.zero);
  r.symptoms = s.test->symptoms.size();
  for (std::size_t i = 0; i < s.samples.size(); ++i)
    r.samples.push_back(sample_of(s, sample_number::from_index(i), r.zero));
  r.after = after_of(s);
  return r;
}

result<std::vector<std::string>> codes_of(const std::vector<event>& events,
                                          const packed_signer& sign) {
  const auto r = packed_of(events);
  if (!r) return tl::unexpected(r.error());
  const std::string packed = pack(*r);
  return code_texts(with_seal(packed, sign ? sign(packed) : std::nullopt));
}

std::vector<std::string> differences(const packed_result& code, const packed_result& log) {
  comparer c;
  c.same_bytes("the record's hash", code.head_tail, log.head_tail);
  c.same("practice", code.rehearsal, log.rehearsal);
  c.same("kit number", code.kit_number, log.kit_number);
  c.same("test", code.test_id, log.test_id);
  c.same("protocol", code.protocol_id, log.protocol_id);
  c.same_bytes("the protocol's text", code.protocol_digest, log.protocol_digest);
  c.same("time zero", rfc3339_utc(code.zero), rfc3339_utc(log.zero));
  c.same_bytes("the offset of local time", fmt::format("{}", code.offset.count()),
               fmt::format("{}", log.offset.count()));
  c.same("flags", code.flags, log.flags);
  c.same("drink begun", code.drink.start, log.drink.start);
  c.same("drink ended", code.drink.end, log.drink.end);
  c.same("drink begun, how known", std::optional(code.drink.start_how),
         std::optional(log.drink.start_how));
  c.same("all of it drunk", code.drink.all_of_it, log.drink.all_of_it);
  c.same("drink kept", std::string(key_of(code.drink.kept)), std::string(key_of(log.drink.kept)));
  c.same_bytes("the number of symptoms", fmt::format("{}", code.symptoms),
               fmt::format("{}", log.symptoms));
  c.same_bytes("the number of tubes", fmt::format("{}", code.samples.size()),
               fmt::format("{}", log.samples.size()));
  for (std::size_t i = 0; i < std::min(code.samples.size(), log.samples.size()); ++i)
    compare_samples(code.samples[i], log.samples[i], i + 1, c);
  c.same("scores after the tubes", code.after.size(), log.after.size());
  for (std::size_t i = 0; i < std::min(code.after.size(), log.after.size()); ++i)
    compare_after(code.after[i], log.after[i], c);
  return c.found;
}

comparison compare_with_log(const packed_result& code, const std::vector<event>& events) {
  if (events.size() < code.events) return {true, {}};
  const auto then = events.begin() + static_cast<std::ptrdiff_t>(code.events);
  const auto log = packed_of({events.begin(), then});
  if (!log) return {false, {"at the event the code was made the log has " + log.error().found}};
  return {false, differences(code, *log)};
}

} // namespace qb::code
