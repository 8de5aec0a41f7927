// One Specimen a tube: when it was closed, how that is known, and what was put right.
// A Specimen has no status for a corrected time, so that stands in its notes and a Provenance.
#include "core/fhir/resources.hpp"

#include "core/session/correct.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::fhir {

namespace {

std::string lateness_words(const making& m, const report_tube& t) {
  const std::string due = "Due at " + moment(m, t.due);
  if (!t.late) return due + ".";
  const char* side = *t.late < duration{0} ? "before" : "after";
  return fmt::format("{}; closed {} {} that.", due, length_in_words(*t.late), side);
}

// Why a closing was not left at that: the first repeat asked for after it, of the same tube.
std::string repeat_reason(const making& m, std::int64_t closing) {
  std::optional<sample_number> tube;
  const payload& what = event_of(m, closing).what;
  if (const auto* closed = std::get_if<tube_closed>(&what)) tube = closed->sample;
  if (const auto* told = std::get_if<reported_breath>(&what)) tube = told->sample;
  for (auto seq = static_cast<std::size_t>(closing); seq < m.log.events.size(); ++seq) {
    const auto* wanted = std::get_if<repeat_wanted>(&m.log.events[seq].what);
    if (wanted != nullptr && tube && wanted->sample == *tube) return wanted->reason;
  }
  return "";
}

// The tube whose time a correction put right, by the number it has now.
std::optional<sample_number> corrected_tube(const making& m, const noted_correction& c) {
  const auto now = sample_closed_by(m.s, c.what.seq);
  return now ? now : c.sample;
}

std::string correction_words(const making& m, const noted_correction& c, sample_number n) {
  if (const auto* time = std::get_if<right_time>(&c.what.to)) {
    if (corrected_tube(m, c) != n || !c.time_was) return "";
    return fmt::format("Corrected: the time was {}, and was put right to {}, {}{}",
                       moment(m, *c.time_was), moment(m, time->time), how_sentence(time->how),
                       because(c.what.reason));
  }
  const auto* tube = std::get_if<right_tube>(&c.what.to);
  if (tube == nullptr || !c.sample || (*c.sample != n && tube->really != n)) return "";
  const std::string pair =
      c.both_blown ? "tubes {} and {} were noted the wrong way round, and were exchanged."
                   : "the breath noted for tube {} went into tube {}.";
  return "Corrected: " + fmt::format(fmt::runtime(pair), c.sample->value(), tube->really.value()) +
         because(c.what.reason);
}

// What was told of the breath of one closing, in the protocol's words and the person's; "" where
// nothing was, or it was taken back.
std::string spoil_words(const making& m, const taken_breath& breath) {
  const noted_spoil* told = spoil_of(m.s, breath);
  if (told == nullptr) return "";
  const breath_spoil* what = find_spoil(*m.s.test, told->what.what);
  std::string out = "Told of this breath: " + (what == nullptr ? told->what.what : what->text);
  if (!clean(told->what.words).empty()) out += " (" + clean(told->what.words) + ")";
  return out + ".";
}

std::vector<std::string> taken_notes(const making& m, const report_tube& t,
                                     const sample_state& tube) {
  std::vector<std::string> out{"Time: " + how_sentence(tube.taken->how), lateness_words(m, t)};
  if (tube.taken->how == how_known::observed && tube.taken->sure == certainty::by_wall && m.s.grid)
    out.push_back(fmt::format("The time since {} rests on the wall clock alone.",
                              m.s.grid->from_drink ? "the start of the drink" : "tube 1"));
  out.push_back(spoil_words(m, *tube.taken));
  for (const taken_breath& before : tube.earlier) {
    const std::string spoiled = spoil_words(m, before);
    out.push_back(fmt::format("Closed before at {}, and blown again.{}{}", moment(m, before.closed),
                              because(repeat_reason(m, before.seq)),
                              spoiled.empty() ? "" : " " + spoiled));
  }
  return out;
}

std::vector<std::string> notes_of(const making& m, const report_tube& t) {
  const sample_state& tube = m.s.of(t.number);
  std::vector<std::string> out;
  if (tube.taken) {
    out = taken_notes(m, t, tube);
  } else {
    out.emplace_back(t.standing == tube_standing::missed ? "Missed: the tube was not blown."
                                                         : "Not blown by the end of this log.");
    out.push_back(lateness_words(m, t));
  }
  if (tube.repeat_reason)
    out.push_back("To be blown again, and was not." + because(*tube.repeat_reason));
  if (tube.again_when_due) out.emplace_back("To be blown when it was due, and was not.");
  for (const noted_correction& c : m.s.corrections)
    out.push_back(correction_words(m, c, t.number));
  if (!clean(t.comment).empty()) out.push_back("Comment: " + clean(t.comment));
  return out;
}

resource specimen_of(const making& m, const report_tube& t) {
  const std::string name = tube_name(m, t.number);
  const sample_state& tube = m.s.of(t.number);
  value out = begin(m, "Specimen", tube_part(t.number));
  out.set("identifier", array{identifier("sample", name)});
  if (!tube.taken) out.set("status", "unavailable");
  out.set("type", concept_of(m, {"specimen.breath", "specimen.breath-v2"}, "Exhaled air"));
  out.set("subject", reference(m, "patient"));
  if (tube.taken)
    out.set("collection", object{{"collectedDateTime", moment(m, tube.taken->closed)}});
  array names{identifier("sample", name)};
  if (!clean(m.told.kit_number).empty()) names.push_back(identifier("kit", m.told.kit_number));
  out.set("container", array{object{{"identifier", std::move(names)},
                                    {"description", fmt::format("Tube {}", t.number.value())}}});
  out.set("note", notes(notes_of(m, t)));
  return {tube_part(t.number), std::move(out)};
}

} // namespace

std::string tube_part(sample_number n) {
  return fmt::format("tube/{}", n.value());
}

std::vector<resource> specimens_of(const making& m) {
  std::vector<resource> out;
  for (const report_tube& t : m.told.tubes)
    out.push_back(specimen_of(m, t));
  return out;
}

} // namespace qb::fhir
