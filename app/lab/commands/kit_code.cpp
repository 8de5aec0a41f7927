// Making kit codes: so many kits of one test, with serials that follow each other.
// What is printed on a box must be right for years, so anything doubtful is refused.
#include "core/protocol/kit_code.hpp"

#include "app/assets/assets.hpp"
#include "app/lab/commands/commands.hpp"
#include "app/lab/context/lab_context.hpp"
#include "app/machine/files.hpp"
#include "core/base/json_fields.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

tl::unexpected<refusal> no(const char* option, std::string found, std::string expected) {
  return tl::unexpected(
      refusal{refusal_kind::out_of_range, "", option, std::move(found), std::move(expected)});
}

// The letters must lead back to this test alone, or a patient would get another's preparation.
result<std::string> letters_of(const std::string& assets, const protocol& wanted) {
  for (const std::string& id : protocol_ids(assets)) {
    const auto other = load_protocol(assets, id);
    if (!other) return tl::unexpected(other.error());
    if (other->value.id != wanted.id && other->value.kit_letters == wanted.kit_letters)
      return no(
          "--protocol",
          fmt::format("letters {} that are also those of {}", wanted.kit_letters, other->value.id),
          "letters of its own in the protocol's \"kit\"");
  }
  return wanted.kit_letters;
}

result<civil_date> last_day(const std::string& text) {
  const auto day = parse_date(text);
  if (day && *day >= first_kit_day() && *day <= last_kit_day()) return *day;
  return no("--expires", "\"" + text + "\"",
            fmt::format("a date from {} to {}, as YYYY-MM-DD", date_text(first_kit_day()),
                        date_text(last_kit_day())));
}

// The first serial and how many: one with --serial, else as many as asked for.
struct span {
  std::uint32_t first{0};
  std::uint32_t count{1};
};

result<span> serials(const kit_code_options& o) {
  const bool one = !o.serial.empty();
  if (one == !o.first.empty())
    return no("--serial", one ? "--first as well" : "neither --serial nor --first",
              "either --serial XXXX, or --first XXXX with --count N");
  if (one && o.count) return no("--count", "--serial as well", "--first XXXX with --count N");
  if (!one && !o.count) return no("--count", "no count", "how many kits follow --first");
  auto first = read_kit_serial(one ? o.serial : o.first);
  if (!first) {
    first.error().where = one ? "--serial" : "--first";
    return tl::unexpected(first.error());
  }
  const auto most = static_cast<long long>(kit_serials - *first);
  const long long count = one ? 1 : *o.count;
  if (count < 1 || count > most)
    return no("--count", fmt::format("{}", count),
              fmt::format("1 to {}: there are so many serials from {} on", most,
                          kit_serial_text(*first)));
  return span{*first, static_cast<std::uint32_t>(count)};
}

struct order {
  kit_code code; // but for the serial
  std::string protocol_id;
  span which;
};

result<order> order_of(const kit_code_options& o, const own_laboratory& own) {
  const auto profile = load_profile(o.assets, o.profile);
  if (!profile) return tl::unexpected(profile.error());
  const auto standing = stand_of(own, {o.profile, o.assets, o.another_profile}, profile->value);
  if (!standing) return tl::unexpected(standing.error());
  const auto test = load_offered_protocol(o.assets, o.protocol);
  if (!test) return tl::unexpected(test.error());
  const auto letters = letters_of(o.assets, test->value);
  if (!letters) return tl::unexpected(letters.error());
  const auto expires = last_day(o.expires);
  if (!expires) return tl::unexpected(expires.error());
  const auto which = serials(o);
  if (!which) return tl::unexpected(which.error());
  return order{{profile->value.kit_letters, {}, *letters, *expires}, test->value.id, *which};
}

// All of them, each with its serial.
std::vector<kit_code> codes_of(const order& wanted) {
  std::vector<kit_code> out(wanted.which.count, wanted.code);
  for (std::uint32_t i = 0; i < wanted.which.count; ++i)
    out[i].serial = kit_serial_text(wanted.which.first + i);
  return out;
}

// Keeps them as issued before any is printed: a code that nobody knows of is worse than a number
// that is never used.
result<void> keep_issued(const kit_code_options& o, const order& wanted,
                         const own_laboratory& own) {
  if (!own.is_set_up && o.by.empty()) return {};
  const auto who = acting_person(own.list(), o.by, work_act::issue_kits);
  if (!who) return tl::unexpected(who.error());
  if (o.lot.empty() || o.lot.size() > most_lot || !json::is_plain_line(o.lot))
    return no("--lot", o.lot.empty() ? "no lot" : "no plain line",
              fmt::format("the lot of what is in the boxes, in at most {} bytes", most_lot));
  if (const auto made = make_private_file(o.store); !made) return made;
  std::vector<issued_kit_row> rows;
  for (const kit_code& code : codes_of(wanted))
    rows.push_back({kit_number_of(code), kit_code_text(code), wanted.protocol_id, o.lot,
                    date_text(code.expires), who->name, clock_moment()});
  auto db = laboratory_store::open(o.store);
  if (!db) return tl::unexpected(db.error());
  return db->put(rows);
}

} // namespace

int make_kit_codes(const kit_code_options& o, const console& to) {
  const auto own =
      o.store.empty() ? result<own_laboratory>(own_laboratory{}) : load_own_laboratory(o.store);
  if (!own) return say_no(own.error(), to);
  const auto wanted = order_of(o, *own);
  if (!wanted) return say_no(wanted.error(), to);
  if (const auto kept = keep_issued(o, *wanted, *own); !kept) return say_no(kept.error(), to);
  json::array kits;
  const std::string expires = date_text(wanted->code.expires);
  for (const kit_code& code : codes_of(*wanted)) {
    if (o.format == output_format::json) {
      kits.push_back(json::object{{"code", kit_code_text(code)},
                                  {"kit_number", kit_number_of(code)},
                                  {"protocol", wanted->protocol_id},
                                  {"expires", expires}});
    } else {
      to.out(fmt::format("{}  {}  {}  {}\n", kit_code_text(code), kit_number_of(code),
                         wanted->protocol_id, expires));
    }
  }
  if (o.format == output_format::json) to.out(json::pretty(json::object{{"kits", kits}}));
  return 0;
}

} // namespace qb::lab
