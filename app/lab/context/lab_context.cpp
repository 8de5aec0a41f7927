// Opening the parts, and asking them for one kit.
#include "app/lab/context/lab_context.hpp"

#include "app/assets/assets.hpp"
#include "app/lab/intake/read_code.hpp"
#include "app/machine/clocks.hpp"
#include "app/machine/files.hpp"
#include "app/machine/surroundings.hpp"
#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/case/worklist.hpp"
#include "core/receiving/dates.hpp"
#include "core/receiving/slips.hpp"
#include "core/receiving/specimens.hpp"
#include "core/receiving/whose.hpp"
#include "core/record/log.hpp"
#include "core/session/limits.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

tl::unexpected<refusal> no_option(const char* option, std::string found, std::string expected) {
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", option, std::move(found), std::move(expected)});
}

std::chrono::minutes in_its_day(civil_time t) {
  constexpr auto day = std::chrono::days{1};
  return ((t.time_since_epoch() % day) + day) % day;
}

recorded_tubes recorded_tubes_of_code(const code::packed_result& r) {
  const auto shown = [](instant t, std::chrono::seconds offset) {
    return civil_time{std::chrono::floor<std::chrono::minutes>(t + offset).time_since_epoch()};
  };
  recorded_tubes out;
  out.protocol = r.protocol_id;
  for (const code::packed_sample& s : r.samples)
    out.labels.push_back(s.taken ? std::optional(in_its_day(shown(r.zero + s.closed, s.offset)))
                                 : std::nullopt);
  out.tested = date_of(shown(r.zero, r.offset));
  return out;
}

} // namespace

result<instant> moment_in(const zone& z, const std::string& text, const char* option) {
  const auto civil = parse_civil(text);
  if (!civil) return no_option(option, "\"" + text + "\"", "a moment (2027-04-09 10:30)");
  const civil_meaning meaning = z.meaning_of(*civil);
  if (const auto* one = std::get_if<unique_time>(&meaning)) return one->at;
  return no_option(option, "a time that the clock change leaves out or has twice", "another time");
}

result<std::string> named_person(const shared_options& shared, const lab_context_options& o,
                                 work_act act) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return tl::unexpected(own.error());
  const auto who = acting_person(own->list(), o.by, act);
  if (!who) return tl::unexpected(who.error());
  return who->name;
}

result<std::string> named_person(const lab_context& at, work_act act) {
  const auto who = acting_person(at.own().list(), at.options().by, act);
  if (!who) return tl::unexpected(who.error());
  return who->name;
}

std::string clock_moment() {
  return rfc3339_utc(std::chrono::floor<std::chrono::seconds>(from_unix_ms(read_clocks().wall_ms)));
}

result<void> reason_given(const std::string& reason) {
  if (reason.empty() || character_count(reason) > most_bench_reason || !json::is_plain_line(reason))
    return no_option("--reason", "no reason",
                     fmt::format("why, in one line of at most {} characters", most_bench_reason));
  return {};
}

lab_context::lab_context(lab_store logs, receiving_store received, laboratory_store laboratory)
    : logs_(std::move(logs)), received_(std::move(received)), laboratory_(std::move(laboratory)) {}

result<lab_context> lab_context::open(const shared_options& shared, const lab_context_options& o,
                                      bool make_store) {
  if (make_store) {
    if (const auto made = make_private_file(shared.store); !made)
      return tl::unexpected(made.error());
  }
  auto logs = lab_store::open(shared.store);
  if (!logs) return tl::unexpected(logs.error());
  auto received = receiving_store::open(shared.store);
  if (!received) return tl::unexpected(received.error());
  auto laboratory = laboratory_store::open(shared.store);
  if (!laboratory) return tl::unexpected(laboratory.error());
  lab_context out(std::move(*logs), std::move(*received), std::move(*laboratory));
  out.shared_ = shared;
  out.options_ = o;
  auto own = load_own_laboratory(shared.store);
  if (!own) return tl::unexpected(own.error());
  out.own_ = std::move(*own);
  if (o.profile.empty())
    out.options_.profile = out.own_.is_set_up ? out.own_.profile : trying_profile;
  if (o.zone.empty()) out.options_.zone = out.own_.zone;
  auto profile = load_profile(o.assets, out.options_.profile);
  if (!profile) return tl::unexpected(profile.error());
  out.profile_ = std::move(profile->value);
  auto standing =
      stand_of(out.own_, {out.options_.profile, o.assets, o.another_profile}, out.profile_);
  if (!standing) return tl::unexpected(standing.error());
  out.standing_ = std::move(*standing);
  for (const std::string& id : protocol_ids(o.assets)) {
    auto test = load_protocol(o.assets, id);
    if (!test) return tl::unexpected(test.error());
    out.tests_.push_back(std::move(test->value));
  }
  const std::string name = out.options_.zone.empty() ? read_clocks().zone : out.options_.zone;
  auto place = shared.zones(name);
  if (!place) return tl::unexpected(place.error());
  out.place_ = std::move(*place);
  if (!o.now.empty()) {
    const auto now = moment_in(out.place_, o.now, "--now");
    if (!now) return tl::unexpected(now.error());
    out.given_now_ = *now;
  }
  return out;
}

instant lab_context::now() const {
  if (given_now_) return *given_now_;
  return std::chrono::floor<std::chrono::seconds>(from_unix_ms(read_clocks().wall_ms));
}

const protocol* lab_context::test(const std::string& id) const {
  const auto at =
      std::find_if(tests_.begin(), tests_.end(), [&](const protocol& p) { return p.id == id; });
  return at == tests_.end() ? nullptr : &*at;
}

const protocol* lab_context::test_of_letters(const std::string& letters) const {
  const auto at = std::find_if(tests_.begin(), tests_.end(),
                               [&](const protocol& p) { return p.kit_letters == letters; });
  return at == tests_.end() ? nullptr : &*at;
}

namespace {

// A code's result tells its test and times, and nobody's name.
result<known_kit> known_of_code(const log_row& row) {
  auto code = kept_code(row);
  if (!code) return tl::unexpected(code.error());
  known_kit out;
  out.told = recorded_tubes_of_code(*code);
  out.code = std::move(*code);
  out.rehearsal = row.rehearsal;
  return out;
}

} // namespace

result<known_kit> lab_context::known_of(const log_row& row) const {
  if (row.by_code) return known_of_code(row);
  auto log = read_log(row.body);
  if (!log)
    return tl::unexpected(refusal{refusal_kind::machine, shared_.store, "a kept log",
                                  "a damaged text (" + sentence(log.error()) + ")",
                                  "the log as it was taken in"});
  known_kit out;
  out.log = report_of(*log, shared_.zones, shared_.own);
  out.events = std::move(*log);
  out.told = recorded_tubes_of(*out.log);
  out.rehearsal = row.rehearsal;
  out.who.name = out.log->name;
  out.who.birth_date = out.log->birth_date;
  const auto codes = logs_.find_codes(which_tests::of_test_id, row.test_id);
  if (!codes) return tl::unexpected(codes.error());
  if (codes->empty()) return out;
  auto code = kept_code(codes->front());
  if (!code) return tl::unexpected(code.error());
  out.beside = std::move(*code);
  return out;
}

namespace {

// Whether the record itself found that: a kit's last day is known to both.
bool by_record(const known_kit& known, const std::string& rule) {
  return known.log && std::any_of(known.log->findings.begin(), known.log->findings.end(),
                                  [&](const finding& f) { return f.rule == rule; });
}

} // namespace

box_terms lab_context::terms_of(const std::string& protocol_id) const {
  const protocol* p = test(protocol_id);
  return {profile_.receiving.label_within,
          p != nullptr ? std::optional(p->post_within) : std::nullopt,
          profile_.receiving.transit_within};
}

std::vector<receiving_finding> lab_context::findings_of(const received_kit& received,
                                                        const known_kit& known) const {
  const std::string id = known.told                  ? known.told->protocol
                         : received.arrivals.empty() ? std::string()
                                                     : received.arrivals.back().protocol;
  auto out = check_box(received, known.told ? &*known.told : nullptr, terms_of(id), place_);
  for (receiving_finding& f : check_readings(received))
    out.push_back(std::move(f));
  for (receiving_finding& f : check_dates(received, known.told ? &*known.told : nullptr,
                                          profile_.receiving.tube_age_within, place_))
    out.push_back(std::move(f));
  for (receiving_finding& f : check_identity(received, known.who, known.asked_for))
    out.push_back(std::move(f));
  for (receiving_finding& f :
       check_specimens(received, known.told ? &*known.told : nullptr, known.supply))
    if (!by_record(known, f.rule)) out.push_back(std::move(f));
  const bool by_paper = !known.log && !known.code;
  for (receiving_finding& f :
       check_slips(received, known.told ? &*known.told : nullptr, by_paper, profile_, place_))
    out.push_back(std::move(f));
  return out;
}

namespace {

// One line: the path of the user's usual store, where it is another than the one beside it.
constexpr const char* place_file = "/store-place";

} // namespace

result<void> set_usual_store(const std::string& path) {
  const auto folder = user_data_folder(program_name);
  if (!folder) return tl::unexpected(folder.error());
  if (const auto made = make_folder(*folder); !made) return made;
  return write_file(*folder + place_file, path + "\n");
}

result<std::string> usual_store(const std::string& data, bool make_folders) {
  auto folder = data.empty() ? user_data_folder(program_name) : result<std::string>(data);
  if (!folder) return folder;
  if (make_folders) {
    if (const auto made = make_folder(*folder); !made) return tl::unexpected(made.error());
  }
  const auto place = data.empty() ? read_file(*folder + place_file) : result<std::string>("");
  if (!place && place.error().kind != refusal_kind::missing) return place;
  if (place && !trimmed(*place).empty()) return trimmed(*place);
  return *folder + "/store.db";
}

} // namespace qb::lab
