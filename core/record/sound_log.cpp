// What read_log asks, asked of places in the text. The order of the questions is of no matter here:
// the first no ends the reading.
#include "core/record/sound_log.hpp"

#include "core/base/canonical_fields.hpp"
#include "core/record/codec.hpp"
#include "core/record/codec_kinds.hpp"
#include "core/session/limits.hpp"

#include <algorithm>

namespace qb::inline records {

namespace {

using json::canonical_fields;
using json::spot;

// An event's text without its hash is in two pieces: the members' order has the hash within.
struct pieces {
  std::string_view before;
  std::string_view after;
};

pieces without_hash(const spot& event, const spot& hash) {
  constexpr std::string_view named = "\"hash\":\"";
  constexpr std::string_view end = "\",";
  const char* begin = hash.bytes.data() - named.size();
  const char* rest = hash.bytes.data() + hash.bytes.size() + end.size();
  const char* last = event.bytes.data() + event.bytes.size();
  return {{event.bytes.data(), static_cast<std::size_t>(begin - event.bytes.data())},
          {rest, static_cast<std::size_t>(last - rest)}};
}

// Whether a value of the text is that one.
bool is_same(const spot& claimed, const json::value& derived) {
  if (const std::string* text = derived.text())
    return claimed.what == spot::kind::text &&
           (claimed.is_plain ? claimed.bytes == *text : claimed.text() == *text);
  if (const std::int64_t* n = derived.integer())
    return claimed.what == spot::kind::whole && claimed.number == *n;
  if (const bool* b = derived.boolean())
    return claimed.what == (*b ? spot::kind::yes : spot::kind::no);
  if (const json::array* items = derived.items()) {
    if (claimed.what != spot::kind::items || claimed.count != items->size()) return false;
    const spot* at = &claimed + 1;
    for (const json::value& one : *items) {
      if (!is_same(*at, one)) return false;
      at = at->after();
    }
    return true;
  }
  if (const json::object* members = derived.members()) {
    if (claimed.what != spot::kind::members || claimed.count != members->size()) return false;
    return std::all_of(members->begin(), members->end(), [&](const json::member& m) {
      const spot* at = claimed.find(m.first);
      return at != nullptr && is_same(*at, m.second);
    });
  }
  return derived.is_null() && claimed.is_null();
}

bool says(const spot* claimed, const json::value& derived) {
  return claimed != nullptr && is_same(*claimed, derived);
}

} // namespace

std::optional<sound_log> sound_log_reader::read(std::string_view text) {
  const spot* log = scan_.scan(text, known_.proved());
  if (log == nullptr || log->what != spot::kind::members) return std::nullopt;
  sound_log out;
  if (!read_head(*log, out.log) || !read_events(*log->find("events"), out.log)) return std::nullopt;
  out.folded = fold_events(out.log.events);
  if (!adds_up(*log, out)) return std::nullopt;
  return out;
}

bool sound_log_reader::read_head(const spot& log, read_log_result& out) const {
  canonical_fields f(log);
  (void)f.choice("format", {log_format});
  out.version = static_cast<int>(f.integer("version", first_version_with_header, log_version));
  out.program = f.text("program", most_program);
  out.rehearsal = f.boolean("rehearsal");
  out.tzdata = f.text("tzdata", most_program, true);
  (void)f.text("zone");
  (void)f.child("rules");
  (void)f.child("answers");
  (void)f.nullable_child("person");
  (void)f.children("events", 1, most_events);
  out.head = f.text("head");
  (void)f.child("summary");
  return !f.finish();
}

bool sound_log_reader::read_events(const spot& events, read_log_result& out) {
  out.events.reserve(events.count);
  data_.clear();
  std::string head = chain_start();
  const spot* at = &events + 1;
  for (std::uint32_t i = 0; i < events.count; ++i, at = at->after()) {
    auto read = decode_event(*at, known_);
    if (!read || read->what.seq != static_cast<std::int64_t>(i) + 1) return false;
    // Its fields were read, so that a hash is among them and others stand after it.
    const pieces body = without_hash(*at, *at->find("hash"));
    head = hash_({head, "\n", body.before, body.after});
    if (head != read->hash) return false;
    out.events.push_back(std::move(read->what));
    data_.push_back(at->find("data"));
  }
  return head == out.head && std::holds_alternative<opened>(out.events.front().what);
}

bool sound_log_reader::adds_up(const spot& log, const sound_log& read) {
  if (read.log.rehearsal != read.folded.rehearsal()) return false;
  if (!says(log.find("summary"), summary_of(read.folded))) return false;
  const header_events in = header_events_of(read.log.events);
  const spot* person = log.find("person");
  return log.find("zone")->text() == header_zone(read.log.events, in) &&
         says(log.find("rules"), header_rules(in, known_)) &&
         (in.person == nullptr ? person->is_null() : has_person(*person, *in.person)) &&
         has_answers(*log.find("answers"), in);
}

const spot& sound_log_reader::data_of(const event& e) const {
  return *data_[static_cast<std::size_t>(e.seq - 1)];
}

// What the header repeats is what the event says, and that is as we write it.
bool sound_log_reader::is(const spot& claimed, const event& told) {
  constexpr std::size_t most_remembered = 4096;
  const spot& data = data_of(told);
  if (claimed.bytes != data.bytes) return false;
  std::string written(kind_name(told.what));
  written += data.bytes;
  if (as_written_.count(written) != 0) return true;
  if (!is_same(data, encode_payload(told.what))) return false;
  if (as_written_.size() == most_remembered) as_written_.clear();
  as_written_.insert(std::move(written));
  return true;
}

bool sound_log_reader::are(const spot* claimed, const std::vector<const event*>& told) {
  if (claimed == nullptr || claimed->what != spot::kind::items || claimed->count != told.size())
    return false;
  const spot* at = claimed + 1;
  for (const event* e : told) {
    if (!is(*at, *e)) return false;
    at = at->after();
  }
  return true;
}

bool sound_log_reader::has_person(const spot& claimed, const event& told) const {
  const spot& data = data_of(told);
  if (claimed.what != spot::kind::members || claimed.count + 1 != data.count) return false;
  const json::value person = encode_payload(told.what);
  return is_same(data, person) &&
         std::all_of(person.members()->begin(), person.members()->end(),
                     [&](const json::member& m) {
                       const spot* at = claimed.find(m.first);
                       return m.first == not_in_header ? at == nullptr
                                                       : at != nullptr && is_same(*at, m.second);
                     });
}

bool sound_log_reader::has_answers(const spot& claimed, const header_events& in) {
  constexpr std::uint32_t answers = 4;
  const spot* ready = claimed.find("ready");
  return claimed.count == answers && are(claimed.find("cautions"), in.cautions) &&
         are(claimed.find("washouts"), in.washouts) && are(claimed.find("slips"), in.slips) &&
         ready != nullptr && (in.ready == nullptr ? ready->is_null() : is(*ready, *in.ready));
}

} // namespace qb::inline records
