// Labels written the evening before: all but date and time, one a page.
#include "app/patient/screens/days/spare_tubes.hpp"
#include "app/patient/screens/plan_words.hpp"
#include "core/sheet/sheet.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

maybe_wish draw_how(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  bool print = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("labels.title", {{"n", std::to_string(v.s.samples.size())}}));
    picture(k, "picture", picture_of::write_label, v.t("labels.picture"), true);
    paragraph(k, "pen", v.t("labels.pen"));
    strong(k, "empty", v.t("labels.empty"));
    paragraph(k, "same", v.t("labels.same"));
    const std::string spare = spare_words(v, "spare.labels");
    if (!spare.empty()) paragraph(k, "spare", spare);
  };
  const auto actions = [&] {
    on = primary_button(k, "next", v.t("labels.begin"));
    const int pair =
        button_pair(k, "back", v.t("common.back"), "open-papers", v.t("papers.instead"));
    back = pair == 1;
    print = pair == 2;
  };
  auto out = framed_page(k, v, "labels", content, actions);
  if (on) u.nav.page = labels_page{sample_number(1)};
  if (back) u.nav.open_side(side_page::evening);
  if (print) u.nav.open_side(side_page::papers);
  return out;
}

// A long name goes over to a second ruled line.
void add_long(std::vector<fact>& rows, const std::string& label, const std::string& value) {
  constexpr std::size_t fits = 22; // characters beside the caption, on the narrowest card
  const bool one_line = value.size() <= fits;
  auto gap = one_line ? std::string::npos : value.find_last_of(' ', fits);
  if (!one_line && gap == std::string::npos) gap = value.find_last_of('-', fits);
  if (gap == std::string::npos) {
    rows.push_back({label, value});
    return;
  }
  rows.push_back({label, value.substr(0, gap + (value[gap] == '-' ? 1U : 0U))});
  rows.push_back({"", value.substr(gap + 1)});
}

std::vector<fact> label_rows(const view& v, const label_text& label) {
  std::vector<fact> rows{{v.t("labels.tube"), number_text(label.number), true}};
  add_long(rows, v.t("labels.name"), label.name);
  rows.push_back({v.t("labels.birth"), label.birth_date});
  add_long(rows, v.t("labels.doctor"), label.doctor);
  rows.push_back({v.t("labels.kit"), label.kit_number});
  rows.push_back({v.t("labels.date-time"), v.t("labels.later")});
  return rows;
}

} // namespace

maybe_wish draw_labels_ahead(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.s.person && v.s.test && !v.s.samples.empty());
  const auto tube = u.nav.page_in<labels_page>().tube;
  if (!tube) return draw_how(k, v, u);
  const auto all = static_cast<int>(v.s.samples.size());
  const int n = std::min(tube->value(), all);
  const label_text label = label_of(v.s, sample_number(n));
  const std::string number = number_text(label.number);
  bool on = false;
  bool back = false;
  const auto content = [&] {
    label_card(k, "label", v.t("labels.card", {{"n", number}, {"all", std::to_string(all)}}),
               label_rows(v, label));
  };
  const auto actions = [&] {
    on = primary_button(k, n < all ? "next" : "done",
                        n < all ? v.t("labels.next", {{"n", number}}) : v.t("labels.done"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "labels-" + number, content, actions);
  if (back) u.nav.page = n > 1 ? labels_page{sample_number(n - 1)} : labels_page{};
  if (on && n < all) u.nav.page = labels_page{sample_number(n + 1)};
  if (on && n == all) {
    if (!is_ticked(u, "labels")) turn_tick(u, "labels");
    u.nav.open_side(side_page::evening);
  }
  return out;
}

} // namespace qb::inline screens
