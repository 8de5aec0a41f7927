// Writing and reading timing logs.
#include "core/record/log.hpp"

#include "core/base/json_fields.hpp"
#include "core/record/codec.hpp"
#include "core/record/log_header.hpp"
#include "core/session/limits.hpp"

#include <fmt/core.h>

namespace qb::inline records {

namespace {

using json::array;
using json::fields;
using json::object;
using json::value;

// One event's object without its "hash", and that hash.
struct split_event {
  value body;
  std::string hash;
};

result<split_event> split(const value& v, const std::string& place) {
  if (v.members() == nullptr)
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", place, v.kind_in_words(), "an event"});
  object body;
  std::string hash;
  for (const json::member& m : *v.members()) {
    if (m.first == "hash" && m.second.text() != nullptr) {
      hash = *m.second.text();
    } else {
      body.push_back(m);
    }
  }
  value out(std::move(body));
  out.set_line(v.line());
  if (!is_hash(hash))
    return tl::unexpected(refusal{refusal_kind::missing, "",
                                  fmt::format("line {}: {}.hash", v.line(), place),
                                  "no hash of 64 hexadecimal digits", "one"});
  return split_event{std::move(out), std::move(hash)};
}

std::optional<refusal> read_events(const std::vector<const value*>& items, read_log_result& out) {
  frozen_rules known;
  out.head = chain_start();
  bool edited = false;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string place = fmt::format("events[{}]", i);
    const auto parts = split(*items[i], place);
    if (!parts) return parts.error();
    auto e = decode_event(parts->body, place, known);
    if (!e) return e.error();
    const auto wanted = static_cast<std::int64_t>(i) + 1;
    if (e->seq != wanted)
      return refusal{refusal_kind::out_of_range, "", place + ".seq", fmt::format("{}", e->seq),
                     fmt::format("{}", wanted)};
    const std::string hash = chain_next(out.head, json::canonical(parts->body));
    if (hash != parts->hash && !edited) {
      edited = true; // the first place; everything after it may follow from it
      out.mismatches.push_back({mismatch::kind::event_hash, e->seq});
    }
    // Later links are judged by what the file claims, so that one edit shows as one place.
    out.head = parts->hash;
    out.events.push_back(std::move(*e));
  }
  if (!std::holds_alternative<opened>(out.events.front().what))
    return refusal{refusal_kind::malformed, "", "events[0].kind",
                   fmt::format("\"{}\"", kind_name(out.events.front().what)), "\"opened\""};
  return std::nullopt;
}

// Nothing where the version is one that can be read.
std::optional<refusal> read_version(fields& f, read_log_result& out) {
  constexpr std::int64_t any_version = 1000000;
  f.choice("format", {log_format});
  const std::int64_t version = f.integer("version", 1, any_version);
  if (f.failed()) return f.finish();
  if (version > log_version)
    return refusal{refusal_kind::newer, "", "version", fmt::format("version {}", version),
                   fmt::format("version {} or older", log_version)};
  out.version = static_cast<int>(version);
  return std::nullopt;
}

// The head as the file has it; empty where its version had none.
object read_header(fields& f, read_log_result& out) {
  object claimed;
  if (out.version < first_version_with_header) return claimed;
  out.tzdata = f.text("tzdata", most_program, true);
  claimed.emplace_back("zone", f.text("zone"));
  for (const char* name : {"rules", "answers"}) {
    const value* found = f.child(name);
    claimed.emplace_back(name, found == nullptr ? value(nullptr) : *found);
  }
  const value* person = f.nullable_child("person");
  claimed.emplace_back("person", person == nullptr ? value(nullptr) : *person);
  return claimed;
}

bool header_fits(const object& claimed, const read_log_result& out) {
  return out.version < first_version_with_header ||
         json::canonical(claimed) == json::canonical(header_of(out.events));
}

} // namespace

std::string write_log(const std::vector<event>& events, const std::string& program,
                      const std::string& tzdata) {
  array all;
  std::string head = chain_start();
  for (const event& e : events) {
    value v = encode_event(e);
    head = chain_next(head, json::canonical(v));
    v.members()->emplace_back("hash", head);
    all.push_back(std::move(v));
  }
  const state s = fold_events(events);
  object log{{"format", log_format},
             {"version", std::int64_t{log_version}},
             {"program", program},
             {"tzdata", tzdata},
             {"rehearsal", s.rehearsal()},
             {"events", std::move(all)},
             {"head", head},
             {"summary", summary_of(s)}};
  for (json::member& m : header_of(events))
    log.push_back(std::move(m));
  return json::canonical(log);
}

result<read_log_result> read_log(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  read_log_result out;
  if (const auto no = read_version(f, out)) return tl::unexpected(*no);
  out.program = f.text("program", most_program);
  out.rehearsal = f.boolean("rehearsal");
  const object claimed = read_header(f, out);
  const auto items = f.children("events", 1, most_events);
  const std::string head = f.text("head");
  if (!f.failed() && !is_hash(head))
    f.refuse("head", "another text", "a hash of 64 hexadecimal digits");
  const value* summary = f.child("summary");
  if (const auto no = f.finish()) return tl::unexpected(*no);
  if (const auto no = read_events(items, out)) return tl::unexpected(*no);
  const state s = fold_events(out.events);
  if (head != out.head) out.mismatches.push_back({mismatch::kind::head, 0});
  if (json::canonical(*summary) != json::canonical(summary_of(s)))
    out.mismatches.push_back({mismatch::kind::summary, 0});
  if (!header_fits(claimed, out)) out.mismatches.push_back({mismatch::kind::header, 0});
  if (out.rehearsal != s.rehearsal()) out.mismatches.push_back({mismatch::kind::rehearsal, 0});
  return out;
}

} // namespace qb::inline records
