// What is asked on the empty sheet, in the order in which it is needed.
#include "core/sheet/empty_sheet.hpp"

#include "core/sheet/prepared_plan.hpp"

#include <fmt/core.h>

namespace qb::inline sheets {

namespace {

pen_field blank(std::string ask, int share = 1) {
  return {std::move(ask), "", share, {}};
}

pen_field printed(std::string ask, std::string value, int share = 1) {
  return {std::move(ask), std::move(value), share, {}};
}

pen_field yes_or_no(std::string ask, const char* if_so, int share = 1) {
  return {std::move(ask), "", share, {"no", if_so}};
}

// The order of the top: what the laboratory needs first, then who it is about.
void add_top(const protocol& p, const lab_profile& lab, const paper_person& who, empty_sheet& out) {
  const std::string sugar = fmt::format("{}, {} g", p.sugar.name, p.sugar.dose_g);
  out.top = {
      {printed("Test", p.title, 3), printed("Sugar", sugar, 2), blank("Date of the test", 2)},
      {blank(fmt::format("Tubes filled, of {}", p.samples()), 2), blank("Drink begun at", 2),
       blank("Drink finished at", 2), yes_or_no("Did anything go wrong?", "yes, told below", 3)},
      {printed("Name", who.name, 3),
       printed("Born", who.birth_date ? long_date(*who.birth_date) : "", 2),
       printed("Doctor", who.doctor, 2)},
      {printed("Laboratory", lab.name, 3), printed("Telephone", lab.telephone, 2),
       printed("Hours", lab.telephone_hours, 3)}};
}

// Scores that belong to no tube; nothing where the protocol asks for none.
std::optional<pen_block> after_block(const protocol& p) {
  pen_block out{"How you feel after the tubes", "", {}};
  const auto add = [&](score_time t, const std::string& when) {
    pen_row row{
        blank(fmt::format("{}. {}, {}; at (hour, minute)", paper_row_of(t), words_of(t), when), 3)};
    for (const symptom& x : p.symptoms)
      row.push_back(blank(x.text));
    out.rows.push_back(std::move(row));
  };
  const symptom_times& times = p.symptom_times;
  if (times.after_last)
    add(score_time::after_last,
        length_in_words(p.offsets.back() + *times.after_last) + " after tube 1");
  if (times.later) add(score_time::later, length_in_words(*times.later) + " after the drink");
  return out.rows.empty() ? std::nullopt : std::optional(std::move(out));
}

pen_block drink_block() {
  return {"The drink",
          "",
          {{{"All of it drunk?", "", 2, {"yes", "no, left over:"}},
            yes_or_no("Slower than asked?", "yes, why:", 2)},
           {yes_or_no("Any of it spilled?", "yes, how much:", 2),
            yes_or_no("Any of it vomited?", "yes, when:", 2)}}};
}

pen_block preparation_block(const protocol& p) {
  pen_block out{"Before the test", "", {}};
  std::string asked;
  for (const washout& w : p.washouts) {
    const std::string& name = w.name.empty() ? w.why.rule : w.name;
    asked += asked.empty() ? name : ", " + within_sentence(name);
  }
  if (!asked.empty()) {
    out.note = "Asked about: " + asked + ".";
    out.rows.push_back({blank("Which of these lately, and the last day of each?")});
    out.rows.push_back({blank("")});
  }
  out.rows.push_back({blank("Last food, what and when:")});
  for (const preparation_window& w : p.windows)
    out.rows.push_back(
        {{w.name.empty() ? w.why.rule : w.name, "", 1, {"kept", "not all of it; what and when:"}}});
  return out;
}

pen_block reported_block() {
  return {
      "What else the laboratory should know",
      "Felt unwell, ate, drank, smoked or slept; a tube blown twice, early or late; a lid open.",
      {{blank("")}, {blank("")}}};
}

} // namespace

empty_sheet empty_sheet_of(const protocol& p, const lab_profile& lab, const paper_person& who,
                           const std::optional<planned_start>& start) {
  empty_sheet out;
  out.title = "Symptom and sample sheet";
  out.kit_number = who.kit_number;
  add_top(p, lab, who, out);
  if (start)
    out.condition = "Only if tube 1 was at " + clock_text(start->place.civil_at(start->start));
  out.scale = fmt::format("{} is none, {} is the worst", p.score_least, p.score_most);
  for (const symptom& x : p.symptoms)
    out.symptoms.push_back(x.text);
  for (std::size_t i = 0; i < p.samples(); ++i) {
    empty_row row;
    row.number = sample_number::from_index(i);
    row.offset = offset_text(p, row.number);
    if (start)
      row.planned = clock_text(start->place.civil_at(start->start + p.offset_of(row.number)));
    out.rows.push_back(std::move(row));
  }
  out.blocks = {drink_block(), preparation_block(p), reported_block()};
  if (auto after = after_block(p)) out.blocks.insert(out.blocks.begin(), std::move(*after));
  const std::string spare = empty_tubes_text(p);
  if (!spare.empty()) out.foot.push_back(spare);
  out.foot.emplace_back("Write the time that the clock shows when you have closed the tube. A tube "
                        "that is late is late: write its true time. Leave a missed one empty.");
  out.foot.push_back("In danger, call " + lab.emergency +
                     ". This sheet records what happened. It is not a diagnosis.");
  if (lab.for_trying) out.foot.back() += fmt::format(" {}", for_trying_words);
  return out;
}

empty_sheet empty_sheet_of(const state& s, const zone& place) {
  QB_BELIEVE(s.person && s.planned && s.test && s.profile);
  const paper_person who{s.person->name, s.person->birth_date, s.person->doctor,
                         s.person->kit_number};
  empty_sheet out =
      empty_sheet_of(*s.test, *s.profile, who, planned_start{s.planned->what.start, place});
  out.rehearsal = s.rehearsal();
  return out;
}

} // namespace qb::inline sheets
