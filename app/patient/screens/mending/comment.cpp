// Words for the laboratory, at any time.
#include "app/patient/screens/shared.hpp"
#include "core/session/limits.hpp"

namespace qb::inline screens {

maybe_wish draw_comment(toolkit& k, const view& v, ui_state& u) {
  bool done = false;
  bool back = false;
  std::string& words = u.drafts.comment;
  const auto content = [&] {
    headline(k, "title", v.t("comment.title"));
    field_view field;
    field.label = v.t("comment.label");
    field.hint = v.t("comment.hint");
    field.longest = longest_comment;
    text_field(k, "comment", field, words);
  };
  const auto actions = [&] {
    if (words.empty()) {
      waiting_button(k, "comment-empty", v.t("comment.empty"));
    } else {
      done = primary_button(k, "comment-done", v.t("comment.done"));
    }
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "comment", content, actions);
  if (back) u.nav.close_side();
  if (done) {
    u.nav.close_side();
    reported_comment told{words};
    words.clear();
    return wish{payload{std::move(told)}};
  }
  return out;
}

} // namespace qb::inline screens
