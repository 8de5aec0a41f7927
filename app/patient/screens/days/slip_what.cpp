// What was not kept: first what the window that holds now is about, then the rest.
#include "app/patient/screens/days/slip_pages.hpp"
#include "app/patient/screens/mending/mending.hpp"
#include "core/session/slip_meaning.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

struct named_slip {
  std::string rule;
  std::string subject;
  std::string words;
};

// Food told belongs to whichever food window holds at its time; so only one of them is offered, the
// one that began last (before any of them, the first).
const planned_window* food_offered(const view& v) {
  const planned_window* out = nullptr;
  for (const planned_window& w : v.s.planned->what.windows) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    if (rule == nullptr || !rule->eat) continue;
    if (out == nullptr || w.from <= v.at.wall) out = &w;
  }
  return out;
}

void add_subjects(const view& v, const planned_window& w, std::vector<named_slip>& out) {
  const preparation_window& rule = *find_window(*v.s.test, w.rule);
  if (rule.subjects.empty()) out.push_back({w.rule, "", rule_words(v, *v.s.test, w.rule)});
  for (const slip_subject& x : rule.subjects)
    out.push_back({w.rule, x.id, x.text});
}

std::vector<named_slip> slips_offered(const view& v) {
  std::vector<named_slip> out;
  const planned_window* food = food_offered(v);
  if (food != nullptr) add_subjects(v, *food, out);
  for (const planned_window& w : v.s.planned->what.windows) {
    const preparation_window* rule = find_window(*v.s.test, w.rule);
    if (rule == nullptr || rule->eat || w.from > v.at.wall) continue;
    add_subjects(v, w, out);
  }
  out.push_back({slip_medicine, "", v.t("slip.what.medicine")});
  out.push_back({slip_other, "", v.t("slip.what.other")});
  return out;
}

// Medicines the protocol speaks of, then any other.
std::vector<named_slip> medicines_offered(const view& v) {
  std::vector<named_slip> out;
  for (const washout& w : v.s.test->washouts) {
    if (w.kind != washout_kind::happening) out.push_back({w.why.rule, "", w.name});
  }
  out.push_back({slip_medicine, "", v.t("living.slip.other-medicine")});
  return out;
}

std::vector<choice> choices_of(const std::vector<named_slip>& all) {
  std::vector<choice> out;
  for (const named_slip& x : all)
    out.push_back({x.subject.empty() ? x.rule : x.rule + "-" + x.subject, x.words, ""});
  return out;
}

void choose(ui_state& u, const named_slip& x) {
  u.drafts.slip.rule = x.rule;
  u.drafts.slip.subject = x.subject;
  u.nav.page = slip_page::when;
}

maybe_wish draw_medicine(toolkit& k, const view& v, ui_state& u) {
  const auto all = medicines_offered(v);
  std::optional<std::size_t> picked;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("living.slip.which"));
    if (auto c = menu_list(k, "slip", choices_of(all))) picked = c;
    quiet_text(k, "go-on", v.t("living.slip.medicines"));
  };
  const auto actions = [&] { back = quiet_button(k, "back", v.t("common.back")); };
  auto out = framed_page(k, v, "slip-medicine", content, actions);
  if (back) u.nav.page = slip_page::what;
  if (picked) choose(u, all.at(*picked));
  return out;
}

} // namespace

void forget_slip(ui_state& u) {
  u.drafts.slip = {};
}

std::string slip_words(const view& v, const std::string& rule, const std::string& subject) {
  if (rule == slip_medicine) return v.t("slip.what.medicine");
  if (rule == slip_other) return v.t("slip.what.other");
  return slip_in_words(*v.s.test, reported_slip{rule, v.at.wall, how_known::told, "", subject});
}

maybe_wish draw_slip_what(toolkit& k, const view& v, ui_state& u) {
  if (u.nav.page_in<slip_page>() == slip_page::medicine) return draw_medicine(k, v, u);
  const auto all = slips_offered(v);
  std::vector<choice> choices = choices_of(all);
  // Of the kit's sugar it can be told wherever something can be told.
  if (!v.s.drink_start) choices.push_back({"drank-first", v.t("drink.first"), ""});
  std::optional<std::size_t> picked;
  bool low = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("slip.title"));
    if (auto c = menu_list(k, "slip", choices)) picked = c;
  };
  const auto actions = [&] {
    low = secondary_button(k, "open-low-sugar", v.t("living.low.open"));
    back = quiet_button(k, "back", v.t("slip.nothing"));
  };
  auto out = framed_page(k, v, "slip", content, actions);
  if (picked && *picked == all.size()) {
    forget_slip(u);
    open_reported_drink(v, u);
    return out;
  }
  if (picked) {
    const named_slip& x = all.at(*picked);
    if (x.rule == slip_medicine) {
      u.nav.page = slip_page::medicine;
    } else {
      choose(u, x);
    }
  }
  if (low || back) forget_slip(u);
  if (low) u.nav.open_side(side_page::low_sugar);
  if (back) u.nav.close_side();
  return out;
}

} // namespace qb::inline screens
