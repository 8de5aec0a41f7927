// Exactly what to write on the label, as the label will look.
#include "app/patient/screens/shared.hpp"

#include "core/sheet/sheet.hpp"

namespace qb {

maybe_wish draw_label(kit& k, const view& v, ui_state& u) {
  bool done = false;
  bool wrong = false;
  const sample_number n = *v.now.sample;
  const label_text label = label_of(v.s, n);
  const auto content = [&] {
    headline(k, "title", v.t("label.title", {{"n", number_text(n)}}));
    label_card(k, "label", v.t("label.tube", {{"n", number_text(n)}}),
               {{v.t("label.time"), label.time}, {v.t("label.date"), label.date}});
    paragraph(k, "stick", v.t("label.stick", {{"n", number_text(n)}}));
    quiet_text(k, "clock", v.t("label.clock"));
  };
  const auto actions = [&] {
    done = primary_button(k, "label-done", v.t("label.done"));
    wrong = quiet_button(k, "mishap", v.t("label.mishap"));
  };
  auto out = framed_page(k, v, "label", content, actions, page_kind::timed);
  if (wrong) {
    u.open = "mishap";
    u.chosen = n;
  }
  if (done) return wish{payload{label_written{n}}};
  return out;
}

} // namespace qb
