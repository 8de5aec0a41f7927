// Number, hours, and outside them the laboratory's own words.
#include "app/patient/screens/reach.hpp"

#include "core/protocol/answering.hpp"

namespace qb::inline screens {

std::string telephone_words(const view& v) {
  return v.t("reach.number", {{"tel", v.lab.telephone}, {"hours", v.lab.telephone_hours}});
}

std::string outside_words(const view& v) {
  const answering_at a = answers_telephone(v.lab, v.at.wall, v.z);
  if (a.now != answering::closed) return "";
  const std::string again =
      a.changes ? v.t("reach.again", {{"at", when(v, *a.changes)}}) : v.t("reach.closed");
  return again + " " + v.lab.outside_hours;
}

void outside_line(toolkit& k, const view& v) {
  const std::string words = outside_words(v);
  if (!words.empty()) quiet_text(k, "laboratory-outside", words);
}

void outside_line_of(toolkit& k, const view& v, const std::string& words) {
  if (words.find(telephone_words(v)) != std::string::npos) outside_line(k, v);
}

void calling_paragraph(toolkit& k, const view& v, const std::string& key, const std::string& words,
                       word_args args) {
  args.push_back({"tel", telephone_words(v)});
  paragraph(k, key, v.t(words, args));
  outside_line(k, v);
}

} // namespace qb::inline screens
