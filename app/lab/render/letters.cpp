// The sentences of both letters and of the slip.
#include "app/lab/render/letters.hpp"

#include "app/lab/context/person_options.hpp"
#include "app/lab/context/printable.hpp"
#include "app/lab/render/report_sheet.hpp"
#include "core/case/concluding.hpp"
#include "core/receiving/specimens.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

using page::letter;
using page::letter_part;
using texts = std::vector<std::string>;

// What all three are made of.
struct told_case {
  const kept_case& kept;
  const lab_profile& profile;
  told_person who;
  std::string doctor; // who asked for it; empty: not known
  texts reasons;
};

told_case told_of(const kept_case& kept, const lab_profile& profile) {
  const test_case& c = kept.what;
  told_case out{kept, profile, told_again(kept.known.asked_for, kept.known.who),
                c.log ? c.log->doctor : "", plain_reasons(c, kept.received)};
  if (!kept.received.arrivals.empty())
    out.who = told_again(kept.received.arrivals.back().who, out.who);
  if (out.reasons.empty()) out.reasons.push_back("The reader wrote: " + c.concluded->words);
  return out;
}

std::string day_of(const test_case& c) {
  return c.zero_at ? long_date(date_of(c.place.civil_at(*c.zero_at))) : "";
}

std::string asker(const told_case& t) {
  return t.doctor.empty() ? "whoever asked for the test" : t.doctor;
}

// "Your breath test of 6 April 2027 (kit FV-2071)"
std::string test_words(const told_case& t) {
  const std::string day = day_of(t.kept.what);
  return (day.empty() ? "" : " of " + day) + " (kit " + t.kept.what.kit + ")";
}

// What somebody should look at before anything is sent; each name once, none that was set aside.
texts at_once(const test_case& c) {
  texts out;
  for (const case_finding& f : c.findings)
    if (f.at_once && f.stands() && std::find(out.begin(), out.end(), f.name) == out.end())
      out.push_back(f.name);
  return out;
}

std::vector<sheet_fact> person_facts(const told_case& t) {
  std::vector<sheet_fact> out;
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) out.push_back({name, printable(value)});
  };
  add("Name", t.who.name);
  add("Born", t.who.birth_date ? long_date(*t.who.birth_date) : "");
  add("Hospital number", t.who.hospital_number);
  add("Order number", t.who.order_number);
  return out;
}

letter patient_letter(const told_case& t) {
  letter out;
  out.to = printable(t.who.name);
  out.title = "Your breath test cannot be reported";
  out.parts.push_back({"",
                       {fmt::format("We cannot report your breath test{}. This says nothing about "
                                    "your health: nothing was found, and nothing was ruled out.",
                                    test_words(t))},
                       {}});
  out.parts.push_back({"Why", {}, t.reasons});
  out.parts.push_back(
      {"What happens next",
       {fmt::format("The test can be done again with a new kit, if it is still wanted. Please ask "
                    "{} whether and when; they get a letter from us too.",
                    asker(t)),
        "Please do not change any medicine because of this letter. Questions about a medicine are "
        "for whoever prescribed it.",
        fmt::format("If you feel unwell, do not wait for a test: ask a doctor. In danger call {}.",
                    t.profile.emergency)},
       {}});
  out.parts.push_back({"Questions about this letter",
                       {fmt::format("{}, telephone {} ({}).", t.profile.name, t.profile.telephone,
                                    t.profile.telephone_hours)},
                       {}});
  return out;
}

letter doctor_letter(const told_case& t) {
  const test_case& c = t.kept.what;
  letter out;
  out.to = printable(t.doctor);
  out.title = "A breath test that cannot be reported";
  out.facts = person_facts(t);
  out.facts.push_back({"Test", printable(c.test.title) + test_words(t)});
  out.facts.push_back({"Report", report_number_words(c)});
  out.parts.push_back({"",
                       {"No answer is given for the gases of this test: it is neither a positive "
                        "nor a negative result, and it supports no diagnosis."},
                       {}});
  out.parts.push_back(
      {"Why, in the words of the reader",
       {fmt::format("{} ({}, {})", c.concluded->words, c.concluded->by,
                    rfc3339_utc(c.concluded->at).substr(0, std::string("2027-04-12").size()))},
       {}});
  letter_part found{"What stands against it", {}, {}};
  for (const page::report_finding& f : listed_findings(c))
    if (f.aside.empty() && f.mark != "Note") found.items.push_back(f.words);
  if (!found.items.empty()) out.parts.push_back(std::move(found));
  if (const texts look = at_once(c); !look.empty())
    out.parts.push_back({"Told during the test, for your attention", {}, look});
  out.parts.push_back({"Doing it again",
                       {"A new kit is sent once you and the patient want the test repeated. Its "
                        "preparation holds anew, and which medicines may be paused for it is for "
                        "whoever prescribed them."},
                       {}});
  return out;
}

std::string supply_words(const kit_supply& s) {
  if (s.lot.empty()) return {};
  return s.lot + (s.expires ? ", last day of use " + long_date(*s.expires) : "");
}

letter repeat_slip(const told_case& t) {
  const test_case& c = t.kept.what;
  letter out;
  out.to = "the bench";
  out.title = "A new kit, if it is wanted";
  out.facts = person_facts(t);
  out.facts.push_back({"Asked for by", t.doctor.empty() ? "not known" : printable(t.doctor)});
  out.facts.push_back({"Test", printable(c.test.title) + " (" + c.test.id + ")"});
  out.facts.push_back({"In place of kit", c.kit});
  if (const std::string lot = supply_words(supply_of(t.kept.received, t.kept.known.supply));
      !lot.empty())
    out.facts.push_back({"Its lot", lot});
  out.parts.push_back({"Why the first cannot be reported", {}, t.reasons});
  letter_part before{"Before it is sent", {}, {}};
  before.items = {"Somebody said that the test is to be done again: who, and when",
                  "Name, birth date and order number are those of the request"};
  for (const std::string& one : at_once(c))
    before.items.push_back("A reader looked at this: " + one);
  out.parts.push_back(std::move(before));
  out.blanks = {"Said by, on", "New kit number", "Its lot", "Last day of use", "Sent on"};
  return out;
}

} // namespace

result<page::letter_set> letters_of(const kept_case& kept, const lab_profile& profile) {
  const test_case& c = kept.what;
  const bool barred =
      c.concluded && c.concluded->kind == conclusion_kind::cannot_be_reported && !is_draft(c);
  if (!barred)
    return tl::unexpected(refusal{refusal_kind::not_now, "", "letters",
                                  !c.concluded  ? "a test that nobody concluded"
                                  : is_draft(c) ? "a conclusion that more came after"
                                                : "a test that was reported",
                                  "one concluded with --kind cannot-be-reported"});
  const told_case t = told_of(kept, profile);
  page::letter_set out;
  out.practice = kept.rehearsal;
  out.mark = kept.mark;
  out.from = profile.address;
  out.from.insert(out.from.begin(), profile.name);
  out.foot = fmt::format("Kit {}. {}, {} ({}).", c.kit, profile.name, profile.telephone,
                         profile.telephone_hours);
  out.letters = {patient_letter(t), doctor_letter(t), repeat_slip(t)};
  return out;
}

std::string letters_text(const page::letter_set& all) {
  constexpr std::size_t width = 76;
  std::string out = std::string(drafted_letters) + "\n";
  const auto put = [&](const std::string& words, const std::string& first = "") {
    const std::string blank(first.size(), ' ');
    bool begun = false;
    for (const std::string& line : wrapped(words, width - first.size())) {
      out += (begun ? blank : first) + line + "\n";
      begun = true;
    }
  };
  for (const letter& one : all.letters) {
    out += "\n" + std::string(width, '=') + "\n";
    if (all.practice) put("PRACTICE - not a test");
    put(all.mark);
    for (const std::string& line : all.from)
      put(line);
    out += fmt::format("\n{}\n\n", page::letter_draft);
    put(one.to.empty() ? std::string("To ______________________________") : "To " + one.to);
    out += "\n" + one.title + "\n\n";
    for (const sheet_fact& f : one.facts)
      put(f.value, f.name + ": ");
    for (const letter_part& part : one.parts) {
      out += part.title.empty() ? "\n" : "\n" + part.title + "\n";
      for (const std::string& line : part.lines)
        put(line);
      for (const std::string& item : part.items)
        put(item, "- ");
    }
    out += "\n";
    for (const std::string& blank : one.blanks)
      out += blank + " ______________________________\n";
    out += "\nName ____________________ Signature ____________________ Date __________\n\n";
    put(all.foot);
  }
  return out;
}

result<std::vector<output_file>> letter_files(const kept_case& kept, const lab_profile& profile,
                                              const std::string& path) {
  const auto all = letters_of(kept, profile);
  if (!all) return tl::unexpected(all.error());
  auto pdf = page::draw_letters_pdf(*all, rfc3339_utc(kept.what.as_of));
  if (!pdf) return tl::unexpected(pdf.error());
  return std::vector<output_file>{{path + ".pdf", std::move(*pdf), found_output::draft},
                                  {path + ".txt", letters_text(*all), found_output::plain}};
}

} // namespace qb::lab
