// Comparing logs event by event, in their canonical form.
#include "core/report/same_test.hpp"

#include "core/record/codec.hpp"

#include <algorithm>
#include <array>
#include <fmt/core.h>

namespace qb::inline reports {

namespace {

using json::value;

// Fields whose texts the program chose or the clock gave; every other text may be a person's.
constexpr std::array own_texts{"answer",  "boot", "change", "closed",  "form",       "from",
                               "how",     "id",   "kept",   "kind",    "kit_number", "outcome",
                               "program", "rule", "start",  "started", "test_id",    "until",
                               "wall",    "what", "when",   "zone"};

bool is_own_text(const std::string& field) {
  return std::find(own_texts.begin(), own_texts.end(), field) != own_texts.end();
}

// A value as it may be shown; nothing for a text that may be a person's.
std::optional<std::string> shown(const value* v, const std::string& name) {
  if (v == nullptr || v->is_null()) return "nothing";
  if (v->text() != nullptr) return is_own_text(name) ? std::optional(*v->text()) : std::nullopt;
  if (v->members() != nullptr || v->items() != nullptr) return v->kind_in_words();
  return json::canonical(*v);
}

// Where two values differ first, as field and both sides.
struct value_walk {
  log_difference out;

  // `name` is the last field's: an item of a list bears its list's.
  void at(const value* kept, const value* next, const std::string& path, const std::string& name) {
    if (kept != nullptr && next != nullptr && below(*kept, *next, path, name)) return;
    const auto before = shown(kept, name);
    const auto after = shown(next, name);
    out.field = path;
    out.kept = before.value_or("words");
    out.next = after ? *after : before ? "words" : "other words";
  }

private:
  bool below(const value& kept, const value& next, const std::string& path,
             const std::string& name) {
    if (kept.members() != nullptr && next.members() != nullptr) {
      for (const auto* side : {kept.members(), next.members()}) {
        for (const auto& [key, unused] : *side) {
          if (step(kept.find(key), next.find(key), path + "." + key, key)) return true;
        }
      }
    }
    if (kept.items() == nullptr || next.items() == nullptr) return false;
    const auto one = [](const json::array& all, std::size_t i) {
      return i < all.size() ? &all[i] : nullptr;
    };
    for (std::size_t i = 0; i < std::max(kept.items()->size(), next.items()->size()); ++i) {
      if (step(one(*kept.items(), i), one(*next.items(), i), fmt::format("{}.{}", path, i + 1),
               name))
        return true;
    }
    return false;
  }
  bool step(const value* kept, const value* next, const std::string& path,
            const std::string& name) {
    if (kept != nullptr && next != nullptr && json::canonical(*kept) == json::canonical(*next))
      return false;
    at(kept, next, path, name);
    return true;
  }
};

// What was told before when it was told: the clocks differ with most other things.
log_difference difference_of(const event& kept, const event& next) {
  const std::string kind(kind_name(kept.what));
  if (kind != kind_name(next.what)) {
    const std::string other(kind_name(next.what));
    return {kept.seq, kind + " or " + other, "kind", kind, other};
  }
  const value before = encode_event(kept);
  const value after = encode_event(next);
  value_walk walk;
  for (const char* part : {"data", "at", "seq"}) {
    const value* one = before.find(part);
    const value* other = after.find(part);
    if (json::canonical(*one) == json::canonical(*other)) continue;
    walk.at(one, other, part, part);
    break;
  }
  walk.out.seq = kept.seq;
  walk.out.kind = kind;
  return walk.out;
}

log_comparison contradiction(log_difference d) {
  const std::int64_t seq = d.seq;
  return {log_relation::contradicts, seq, std::move(d)};
}

} // namespace

log_comparison compare_logs(const read_log_result& kept, const read_log_result& next) {
  const std::size_t both = std::min(kept.events.size(), next.events.size());
  for (std::size_t i = 0; i < both; ++i) {
    if (json::canonical(encode_event(kept.events[i])) !=
        json::canonical(encode_event(next.events[i])))
      return contradiction(difference_of(kept.events[i], next.events[i]));
  }
  if (next.events.size() > both) return {log_relation::grown};
  if (kept.events.size() > both) return {log_relation::older};
  const event& last = kept.events.back();
  if (kept.head != next.head)
    return contradiction(
        {last.seq, std::string(kind_name(last.what)), "hash", kept.head, next.head});
  return {log_relation::same};
}

std::string place_in_log(const log_difference& d) {
  return fmt::format("event {} ({}), {}", d.seq, d.kind, d.field);
}

std::optional<finding> aside_finding(const read_log_result& kept, const read_log_result& aside) {
  const auto first = compare_logs(kept, aside).first;
  if (!first) return std::nullopt;
  return finding{"log-differs",
                 consequence::review,
                 {},
                 {first->seq},
                 {},
                 fmt::format("another log of this test came and was set aside; {}: {} in the log "
                             "that counts, {} in the other",
                             place_in_log(*first), first->kept, first->next)};
}

const std::string& test_id_of(const read_log_result& log) {
  const auto* opening = std::get_if<opened>(&log.events.front().what);
  QB_BELIEVE(opening != nullptr); // read_log refuses a log that does not begin so
  return opening->test_id;
}

bool is_rehearsal(const read_log_result& log) {
  const auto* opening = std::get_if<opened>(&log.events.front().what);
  return log.rehearsal || (opening != nullptr && opening->rehearsal);
}

} // namespace qb::inline reports
