// Labels to print and the empty sheet for a pen: paper that is enough if this device is not there.
#include "app/patient/screens/places.hpp"
#include "app/patient/screens/plan_words.hpp"

namespace qb::inline screens {

maybe_wish draw_papers(toolkit& k, const view& v, ui_state& u) {
  if (!v.s.planned || !v.s.person) { // nothing to print yet: the page gives way
    u.nav.close_side();
    return std::nullopt;
  }
  if (v.writing_to) return draw_writing(k, v);
  const bool written = v.written.page == side_page::papers;
  std::optional<std::size_t> picked;
  bool leave = false;
  const auto content = [&] {
    headline(k, "title", v.t(written ? "papers.done" : "papers.title"));
    if (written) {
      show_written(k, v, v.written);
      if (v.written.shortened) notice(k, "short", notice_kind::needs_you, v.t("papers.short"));
      heading(k, "print-title", v.t("papers.print-title"));
      paragraph(k, "print", v.t("papers.print", {{"sheet", v.label_sheet}}));
      paragraph(k, "again", v.t("papers.again"));
      return;
    }
    paragraph(k, "what", v.t("papers.what"));
    paragraph(k, "name", v.t("papers.name"));
    picked = place_menu(k, v);
  };
  const auto actions = [&] {
    leave = written ? primary_button(k, "done", v.t("common.done"))
                    : quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, written ? "papers-written" : "papers", content, actions);
  if (picked) return wish{write_papers{v.places.at(*picked)}};
  if (!leave) return out;
  u.nav.close_side();
  return written ? maybe_wish(wish{files_seen{}}) : out;
}

} // namespace qb::inline screens
