// A result by code in lines and in JSON.
#include "app/lab/render/show_code.hpp"

#include "app/lab/context/printable.hpp"
#include "app/lab/render/finding_json.hpp"
#include "core/base/hex.hpp"
#include "core/seal/bytes.hpp"
#include "core/time/zone.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

using json::array;
using json::object;
using json::value;
using std::chrono::seconds;

std::string key_text(const code::packed_seal& s) {
  return hex_of(seal::seen(s.key_id));
}

// Local time with its offset. An offset of odd seconds is one RFC 3339 cannot write.
std::string local(instant t, seconds offset) {
  const auto there = rfc3339(t, zone::fixed("", offset));
  return there ? *there : rfc3339_utc(t);
}

value moment(const code::packed_result& r, std::optional<seconds> after_zero) {
  return after_zero ? value(local(r.zero + *after_zero, r.offset)) : value(nullptr);
}

array scores_json(const std::vector<std::optional<int>>& scores) {
  array out;
  for (const auto& one : scores)
    out.push_back(one ? value(std::int64_t{*one}) : value(nullptr));
  return out;
}

value after_json(const code::packed_result& r, const code::packed_after& t) {
  return object{{"when", key_of(t.what)},
                {"given", moment(r, t.elapsed)},
                {"elapsed_s", std::int64_t{t.elapsed.count()}},
                {"corrected", t.corrected},
                {"scores", scores_json(t.scores)}};
}

value tube_json(const code::packed_result& r, std::size_t i) {
  const code::packed_sample& t = r.samples[i];
  return object{{"number", static_cast<std::int64_t>(i + 1)},
                {"closed", t.taken ? value(local(r.zero + t.closed, t.offset)) : value(nullptr)},
                {"how", t.taken ? value(key_of(*t.taken)) : value(nullptr)},
                {"elapsed_s", t.taken ? value(std::int64_t{t.elapsed.count()}) : value(nullptr)},
                {"repeated", t.repeated},
                {"to_be_repeated", t.again},
                {"corrected", t.corrected},
                {"scores", scores_json(t.scores)}};
}

// "08:03:12", the device's clock then.
std::string clock_of(instant t, seconds offset) {
  return local(t, offset).substr(11, 8);
}

// "+15:02" minutes and seconds after time zero.
std::string minutes_text(seconds after) {
  const std::int64_t total = after.count() < 0 ? -after.count() : after.count();
  return fmt::format("{}{}:{:02}", after.count() < 0 ? "-" : "+", total / 60, total % 60);
}

std::string remarks(const code::packed_sample& t) {
  std::string out;
  for (const auto& [is_so, words] :
       {std::pair(t.repeated, "blown again"), std::pair(t.again, "to be blown again, was not"),
        std::pair(t.corrected, "corrected later")}) {
    if (is_so) out += (out.empty() ? "" : ", ") + std::string(words);
  }
  return out;
}

std::string scores_text(const std::vector<std::optional<int>>& scores) {
  std::string out;
  for (const auto& one : scores)
    out += fmt::format("{:>4}", one ? fmt::format("{}", *one) : "-");
  return out;
}

std::string after_line(const code::packed_result& r, const code::packed_after& t) {
  return fmt::format("{:>4}  {:>8}  {:>9}  {:<11}  {:<12}  {}{}\n", "",
                     clock_of(r.zero + t.elapsed, r.offset), minutes_text(t.elapsed), "scored",
                     scores_text(t.scores), words_of(t.what),
                     t.corrected ? ", corrected later" : "");
}

std::string tube_line(const code::packed_result& r, std::size_t i) {
  const code::packed_sample& t = r.samples[i];
  std::string line = fmt::format(
      "{:>4}  {:>8}  {:>9}  {:<11}  {:<12}  {}", i + 1,
      t.taken ? clock_of(r.zero + t.closed, t.offset) : "", t.taken ? minutes_text(t.elapsed) : "",
      t.taken ? words_of(*t.taken) : "not taken", scores_text(t.scores), remarks(t));
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

std::string drink_text(const code::packed_result& r) {
  if (!r.drink.start) return "not recorded";
  std::string out = fmt::format("begun {} ({})", clock_of(r.zero + *r.drink.start, r.offset),
                                words_of(r.drink.start_how));
  out += r.drink.end ? ", ended " + clock_of(r.zero + *r.drink.end, r.offset)
                     : std::string(", end not recorded");
  if (!r.drink.all_of_it) out += ", not all of it";
  if (r.drink.kept != drink_part::all) out += fmt::format(", kept: {}", key_of(r.drink.kept));
  return out;
}

std::string flags_text(const code::packed_result& r) {
  std::string out;
  for (const std::string& one : r.flags)
    out += (out.empty() ? "" : ", ") + one;
  return out.empty() ? "nothing" : out;
}

} // namespace

value show_code_json(const code::packed_result& r, const seal_evidence& seal) {
  array tubes;
  for (std::size_t i = 0; i < r.samples.size(); ++i)
    tubes.push_back(tube_json(r, i));
  array after;
  for (const code::packed_after& t : r.after)
    after.push_back(after_json(r, t));
  return object{
      {"test_id", r.test_id},
      {"kit_number", r.kit_number},
      {"protocol", r.protocol_id},
      {"rehearsal", r.rehearsal},
      {"source", "code"},
      {"events", static_cast<std::int64_t>(r.events)},
      {"head_tail", hex_of(r.head_tail)},
      {"protocol_digest", hex_of(r.protocol_digest)},
      {"time_zero", local(r.zero, r.offset)},
      {"utc_offset_s", std::int64_t{r.offset.count()}},
      {"findings", findings_json(r.flags)},
      {"drink", object{{"start", moment(r, r.drink.start)},
                       {"end", moment(r, r.drink.end)},
                       {"how", r.drink.start ? value(key_of(r.drink.start_how)) : value(nullptr)},
                       {"all_of_it", r.drink.all_of_it},
                       {"kept", key_of(r.drink.kept)}}},
      {"signed_by", r.seal ? value(key_text(*r.seal)) : value(nullptr)},
      {"seal", seal_json(seal)},
      {"tubes", std::move(tubes)},
      {"after", std::move(after)}};
}

std::string show_code_text(const code::packed_result& r, const seal_evidence& seal) {
  std::string out;
  if (r.rehearsal) out += "PRACTICE - not a test\n";
  out += fmt::format("{}\nKit {}\nTest        {}\nProtocol    {}\nTime zero   {}\nDrink       {}\n",
                     code_mark, printable(r.kit_number), printable(r.test_id),
                     printable(r.protocol_id), local(r.zero, r.offset), drink_text(r));
  out += fmt::format("Noted       {}\n", flags_text(r));
  out += fmt::format("Seal        {}\n\n", seal_words(seal));
  out += "Tube    Closed    Elapsed  How known    Scores\n";
  for (std::size_t i = 0; i < r.samples.size(); ++i)
    out += tube_line(r, i);
  for (const code::packed_after& t : r.after)
    out += after_line(r, t);
  out += "\nThis is a record of what happened. It is not a result and not a diagnosis.\n";
  if (r.rehearsal) out += "PRACTICE - not a test\n";
  return out;
}

} // namespace qb::lab
