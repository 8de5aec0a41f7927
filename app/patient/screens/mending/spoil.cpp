// What went wrong with a breath, told with one press; of an earlier tube too, and taken back. What
// it leads to is the protocol's: the same tube again while there is time, or a word for the
// laboratory.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/shared.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

constexpr const char* taken_back_row = "taken-back";

// Whether telling it now brings the same tube again, as `decide` has it.
bool leads_to_repeat(const view& v, sample_number n, const breath_spoil& x) {
  return x.leads == spoil_leads_to::repeat && may_repeat(v.s, n) &&
         has_time_to_repeat(v.s, n, v.at);
}

std::vector<sample_number> closed_tubes(const view& v) {
  std::vector<sample_number> out;
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    if (v.s.samples[i].taken) out.push_back(sample_number::from_index(i));
  }
  return out;
}

} // namespace

std::vector<spoil_row> spoil_rows(const view& v, sample_number n) {
  std::vector<spoil_row> out;
  if (!v.s.test || !v.s.of(n).taken) return out;
  for (const breath_spoil& x : v.s.test->spoils) {
    const bool again = leads_to_repeat(v, n, x);
    out.push_back({x.id, {x.id, x.text, again ? "" : v.t("mishap.tell")}, again});
  }
  if (spoil_of(v.s, *v.s.of(n).taken) != nullptr)
    out.push_back({taken_back_row,
                   {taken_back_row, v.t("mishap.taken-back", {{"n", number_text(n)}}), ""},
                   false});
  return out;
}

void say_blown_again(toolkit& k, const view& v, const std::vector<spoil_row>& rows) {
  const auto leads = [](const spoil_row& row) { return row.again; };
  if (std::any_of(rows.begin(), rows.end(), leads)) quiet_text(k, "again", v.t("mishap.again"));
}

wish tell_spoil(const view& v, ui_state& u, sample_number n, const std::string& id) {
  const breath_spoil* what = find_spoil(*v.s.test, id);
  if (what != nullptr && leads_to_repeat(v, n, *what)) {
    u.nav.close_side();
  } else {
    u.nav.open_side(side_page::mishap, mishap_page::told);
  }
  return payload{reported_spoil{n, what == nullptr ? "" : id, ""}};
}

maybe_wish draw_earlier_spoil(toolkit& k, const view& v, ui_state& u) {
  const std::vector<sample_number> tubes = closed_tubes(v);
  auto& tube = u.drafts.later.tube;
  if (tubes.empty()) {
    u.nav.close_side();
    return std::nullopt;
  }
  if (!tube || std::find(tubes.begin(), tubes.end(), *tube) == tubes.end()) tube = tubes.back();
  const sample_number n = *tube;
  const std::vector<spoil_row> rows = spoil_rows(v, n);
  std::vector<choice> choices;
  choices.reserve(rows.size());
  for (const spoil_row& row : rows)
    choices.push_back(row.shown);
  std::optional<std::size_t> picked;
  int by = 0;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("mishap.earlier.title"));
    by = stepper(k, "spoil-tube", v.t("tell.tube"), number_text(n), n == tubes.front(),
                 n == tubes.back());
    say_blown_again(k, v, rows);
    if (auto c = menu_list(k, "spoil", choices)) picked = c;
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "mishap-earlier", content, actions, page_kind::guided);
  const auto at = std::find(tubes.begin(), tubes.end(), n);
  if (by > 0 && at + 1 != tubes.end()) tube = *(at + 1);
  if (by < 0 && at != tubes.begin()) tube = *(at - 1);
  if (back) u.nav.page = mishap_page::what;
  return picked ? maybe_wish(tell_spoil(v, u, n, rows.at(*picked).id)) : std::move(out);
}

maybe_wish draw_spoil_told(toolkit& k, const view& v, ui_state& u) {
  bool on = false;
  const auto content = [&] {
    headline(k, "title", v.t("mishap.told.title"));
    paragraph(k, "what", v.t("mishap.told.what"));
  };
  const auto actions = [&] { on = primary_button(k, "go-on", v.t("drink-part.go-on")); };
  auto out = framed_page(k, v, "mishap-told", content, actions, page_kind::guided);
  if (on) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
