// `quarterbreath labels` and `quarterbreath sheet`: paper without a window, from a record's log or
// before a test.
#include "app/assets/assets.hpp"
#include "app/assets/zone_files.hpp"
#include "app/handover/export_plan.hpp"
#include "app/machine/clocks.hpp"
#include "app/machine/files.hpp"
#include "app/page/empty_sheet_page.hpp"
#include "app/page/labels_pdf.hpp"
#include "app/page/record_pdf.hpp"
#include "app/patient/command/commands.hpp"
#include "app/patient/command/say.hpp"
#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"
#include "core/protocol/kit_number.hpp"
#include "core/record/log.hpp"
#include "core/session/limits.hpp"

#include <cstdio>
#include <fmt/core.h>

namespace qb::patient {

namespace {

// A record as it was read from its log.
struct read_record {
  state s;
  zone place;
};

result<read_record> record_of(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  const auto log = read_log(*text);
  if (!log) return tl::unexpected(in_file(log.error(), path));
  if (!log->mismatches.empty())
    return tl::unexpected(refusal{refusal_kind::malformed, path, "",
                                  "a log that does not match its own record", "an unedited log"});
  state s = fold_events(log->events);
  if (!s.planned || !s.test || !s.person || !s.last_reading)
    return tl::unexpected(refusal{refusal_kind::not_now, path, "", "a test without a plan",
                                  "a test with a person and a plan"});
  auto place = load_zone(s.planned->what.zone_name);
  if (!place) return tl::unexpected(place.error());
  return read_record{std::move(s), std::move(*place)};
}

refusal without(const char* option, const char* expected) {
  return {refusal_kind::missing, "", option, "nothing", expected};
}

result<std::string> moment_of(const paper_options& o) {
  if (o.made_at.empty()) return rfc3339_utc(from_unix_ms(read_clocks().wall_ms));
  const auto t = parse_rfc3339_utc(o.made_at);
  if (t) return rfc3339_utc(*t);
  refusal no = t.error();
  no.where = "--made-at";
  return tl::unexpected(no);
}

result<paper_person> person_of(const paper_options& o) {
  for (const auto& [option, text] :
       {std::pair{"--name", &o.name}, {"--doctor", &o.doctor}, {"--kit", &o.kit}})
    if (!text->empty() && !json::is_plain_line(*text))
      return tl::unexpected(refusal{refusal_kind::malformed, "", option, "control characters",
                                    "one line of text in UTF-8"});
  paper_person out{composed(o.name), std::nullopt, composed(o.doctor), kit_key(o.kit)};
  if (out.kit_number.size() > most_kit_number)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "--kit",
                                  fmt::format("{} bytes", out.kit_number.size()),
                                  fmt::format("at most {}", most_kit_number)});
  if (o.born.empty()) return out;
  const auto born = parse_date(o.born);
  if (!born)
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "--born", "another text", "YYYY-MM-DD"});
  out.birth_date = *born;
  return out;
}

// Labels, and the moment their file carries.
struct dated_labels {
  std::vector<label_text> labels;
  std::string made_at;
};

result<dated_labels> labels_asked(const shared_options& shared, const paper_options& o) {
  if (!o.log.empty()) {
    const auto record = record_of(o.log);
    if (!record) return tl::unexpected(record.error());
    return dated_labels{labels_of(record->s), rfc3339_utc(record->s.last_reading->wall)};
  }
  if (o.protocol.empty()) return tl::unexpected(without("--protocol", "a test, or --log"));
  const auto test = load_offered_protocol(shared.assets, o.protocol);
  if (!test) return tl::unexpected(test.error());
  const auto who = person_of(o);
  if (!who) return tl::unexpected(who.error());
  const auto made_at = moment_of(o);
  if (!made_at) return tl::unexpected(made_at.error());
  return dated_labels{labels_ahead(test->value, *who), *made_at};
}

result<page::labels_pdf> draw_labels_asked(const shared_options& shared, const labels_options& o) {
  const auto sheet = load_label_sheet(shared.assets, o.labels);
  if (!sheet) return tl::unexpected(sheet.error());
  const label_print print{static_cast<std::size_t>(std::max(o.start_at, 0)), o.offset_x,
                          o.offset_y};
  if (o.test_page) {
    const auto made_at = moment_of(o.paper);
    if (!made_at) return tl::unexpected(made_at.error());
    auto bytes = page::draw_label_test_pdf(sheet->value, print, *made_at);
    if (!bytes) return tl::unexpected(bytes.error());
    return page::labels_pdf{std::move(*bytes), {}, {}};
  }
  auto asked = labels_asked(shared, o.paper);
  if (!asked) return tl::unexpected(asked.error());
  for (label_text& one : asked->labels)
    if (o.nameless) one = without_name(std::move(one));
  return page::draw_labels_pdf(asked->labels, sheet->value, print, asked->made_at);
}

result<std::optional<instant>> start_asked(const sheet_options& o, const zone& place) {
  if (o.start.empty()) return std::optional<instant>();
  const auto civil = parse_civil(o.start);
  auto start = civil ? resolve_start(*civil, place, fold::unasked)
                     : result<instant>(tl::unexpected(civil.error()));
  if (!start) {
    start.error().where = "--start";
    return tl::unexpected(start.error());
  }
  return std::optional<instant>(*start);
}

// The empty sheet of a test that is planned or not even that.
result<std::string> draw_empty(const shared_options& shared, const sheet_options& o) {
  if (o.paper.protocol.empty()) return tl::unexpected(without("--protocol", "a test, or --log"));
  if (o.start.empty() != o.zone.empty())
    return tl::unexpected(without(o.start.empty() ? "--start" : "--zone", "--start and --zone"));
  const auto test = load_offered_protocol(shared.assets, o.paper.protocol);
  if (!test) return tl::unexpected(test.error());
  const auto lab = load_profile(shared.assets, o.paper.profile);
  if (!lab) return tl::unexpected(lab.error());
  const auto who = person_of(o.paper);
  if (!who) return tl::unexpected(who.error());
  const auto place = load_zone(o.zone.empty() ? "Etc/UTC" : o.zone);
  if (!place) return tl::unexpected(place.error());
  const auto start = start_asked(o, *place);
  if (!start) return tl::unexpected(start.error());
  const auto made_at = moment_of(o.paper);
  if (!made_at) return tl::unexpected(made_at.error());
  std::optional<planned_start> planned;
  if (*start) planned.emplace(planned_start{**start, *place});
  return page::draw_empty_sheet_pdf(empty_sheet_of(test->value, lab->value, *who, planned),
                                    *made_at);
}

// A record's sheet, or an empty one for the person and the plan of a record.
result<std::string> draw_of_record(const sheet_options& o) {
  const auto record = record_of(o.paper.log);
  if (!record) return tl::unexpected(record.error());
  const state& s = record->s;
  const std::string made_at = rfc3339_utc(s.last_reading->wall);
  if (!o.empty)
    return page::draw_record_pdf(sheet_of(s, *s.last_reading, record->place), {}, made_at);
  return page::draw_empty_sheet_pdf(empty_sheet_of(s, record->place), made_at);
}

int write_page(const std::string& path, const std::string& bytes) {
  own_disk device;
  const auto written = handover::write_where_free(device, path, bytes);
  if (!written) return say_no(written.error());
  tell("Written {}\n", path);
  return 0;
}

} // namespace

int labels_command(const shared_options& shared, const labels_options& o) {
  const auto drawn = draw_labels_asked(shared, o);
  if (!drawn) return say_no(drawn.error());
  for (const std::string& one : drawn->shortened)
    note("quarterbreath: {}: does not fit in full on this label\n", one);
  for (const std::string& one : drawn->stood_in)
    note("quarterbreath: {}: a square stands for letters that no font here has\n", one);
  return write_page(o.paper.page, drawn->bytes);
}

int sheet_command(const shared_options& shared, const sheet_options& o) {
  if (o.paper.log.empty() && !o.empty)
    return say_no(without("--log", "a record's log, or --empty with --protocol"));
  const auto drawn = o.paper.log.empty() ? draw_empty(shared, o) : draw_of_record(o);
  if (!drawn) return say_no(drawn.error());
  return write_page(o.paper.page, *drawn);
}

} // namespace qb::patient
