// Exactly what to write on the label, as the label will look.
#include "app/patient/screens/days/spare_tubes.hpp"

#include "core/sheet/sheet.hpp"

namespace qb::inline screens {

namespace {

struct pressed {
  bool done{false};
  bool wrong{false};
  bool all{false};
};

// From time and date to the whole label, and back.
void turn(ui_state& u) {
  const bool whole = u.nav.page_in<label_page>() == label_page::whole;
  u.nav.page = whole ? label_page::time : label_page::whole;
}

maybe_wish draw_label_of(toolkit& k, const view& v, ui_state& u, sample_number n, pressed& p) {
  const label_text label = label_of(v.s, n);
  const bool whole = u.nav.page_in<label_page>() == label_page::whole;
  const auto content = [&] {
    headline(k, "title", v.t("label.title", {{"n", number_text(n)}}));
    std::vector<fact> lines{{v.t("label.time"), label.time}, {v.t("label.date"), label.date}};
    if (whole) {
      lines.push_back({v.t("label.name"), label.name});
      lines.push_back({v.t("label.born"), label.birth_date});
      if (!label.doctor.empty()) lines.push_back({v.t("label.doctor"), label.doctor});
      lines.push_back({v.t("label.kit"), label.kit_number});
    }
    label_card(k, "label", v.t("label.tube", {{"n", number_text(n)}}), lines);
    if (whole) return;
    paragraph(k, "stick", v.t("label.stick", {{"n", number_text(n)}}));
    const bool last = n.index() + 1 == v.s.samples.size();
    const std::string spare = last ? spare_words(v, "spare.last") : "";
    if (!spare.empty()) paragraph(k, "spare", spare);
    quiet_text(k, "clock", v.t("label.clock"));
  };
  const auto actions = [&] {
    p.done = primary_button(k, "label-done", v.t("label.done"));
    const int which = button_pair(k, "label-all", v.t(whole ? "label.less" : "label.all"), "mishap",
                                  v.t("wait.mishap.short"));
    p.all = which == 1;
    p.wrong = which == 2;
  };
  return framed_page(k, v, "label", content, actions, page_kind::timed);
}

} // namespace

maybe_wish draw_label(toolkit& k, const view& v, ui_state& u) {
  pressed p;
  const sample_number n = *v.now.sample;
  auto out = draw_label_of(k, v, u, n, p);
  if (p.all) turn(u);
  if (p.wrong) u.nav.open_side(side_page::mishap);
  if (p.done) return wish{payload{label_written{n}}};
  return out;
}

maybe_wish draw_label_again(toolkit& k, const view& v, ui_state& u) {
  if (!u.drafts.later.tube || !v.s.of(*u.drafts.later.tube).taken) {
    u.nav.close_side();
    return std::nullopt;
  }
  pressed p;
  auto out = draw_label_of(k, v, u, *u.drafts.later.tube, p);
  if (p.all) turn(u);
  if (p.done || p.wrong) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
