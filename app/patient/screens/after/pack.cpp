// Packing and posting: what goes into the box, and by which day.
#include "app/patient/screens/days/spare_tubes.hpp"

#include "core/sheet/sheet.hpp"

namespace qb::inline screens {

namespace {

// Today where it is a working day of the laboratory, else the next one.
civil_date post_day(const view& v) {
  const auto& days = v.s.profile->working_days;
  civil_date d = date_of(v.z.civil_at(v.at.wall));
  while (days.count(static_cast<int>(weekday_of(d).iso_encoding())) == 0)
    d = plus_days(d, std::chrono::days{1});
  return d;
}

} // namespace

maybe_wish draw_pack(toolkit& k, const view& v, ui_state& u) {
  bool back = false;
  const civil_date day = post_day(v);
  const bool today = day == date_of(v.z.civil_at(v.at.wall));
  const auto content = [&] {
    headline(k, "title", v.t("pack.title"));
    picture(k, "picture", picture_of::pack, v.t("pack.picture"), true);
    paragraph(k, "what", real_words(v, "pack.what"));
    const std::string spare = spare_words(v, "spare.send");
    if (!spare.empty()) paragraph(k, "spare", spare);
    facts(k, "days",
          {{v.t("pack.post"), today ? v.t("pack.today") : long_date(day)},
           {v.t("pack.latest"), long_date(v.s.planned->what.post_on_or_before)}});
    std::string to;
    for (const std::string& line : v.s.profile->address)
      to += (to.empty() ? "" : ", ") + line;
    quiet_text(k, "address", v.t("pack.to", {{"address", to}}));
  };
  const auto actions = [&] { back = primary_button(k, "back", v.t("common.done")); };
  auto out = framed_page(k, v, "pack", content, actions);
  if (back) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
