// The last tube is behind: what was recorded, what is missing, and what is left to do.
#include "app/patient/screens/shared.hpp"

namespace qb {

namespace {

std::size_t filled(const view& v) {
  std::size_t n = 0;
  for (const sample_state& t : v.s.samples) n += t.taken ? 1U : 0U;
  return n;
}

std::string missing_words(const view& v) {
  std::string all;
  for (sample_number n : v.now.missed) all += (all.empty() ? "" : ", ") + number_text(n);
  return all;
}

} // namespace

maybe_wish draw_finish(kit& k, const view& v, ui_state& u) {
  bool copy = false;
  bool pack = false;
  bool hand = false;
  bool tell = false;
  bool note = false;
  bool leave = false;
  const bool early = v.s.ended.has_value();
  const auto content = [&] {
    headline(k, "title", v.t(early ? "finish.title.early" : "finish.title"));
    rack(k, "rack", v.t("finish.rack"), rack_of(v));
    paragraph(k, "eat", v.t("finish.eat"));
    std::vector<fact> rows{
        {v.t("finish.filled"), v.t("finish.of", {{"n", std::to_string(filled(v))},
                                                 {"all", std::to_string(v.s.samples.size())}})}};
    if (!v.now.missed.empty()) rows.push_back({v.t("finish.empty"), missing_words(v), true});
    rows.push_back({v.t("finish.drink"), v.s.drink_start
                                             ? clock_of(v, v.s.drink_start->at.wall)
                                             : v.t("finish.none"), !v.s.drink_start});
    rows.push_back({v.t("finish.handed"), v.s.exported_at ? v.t("common.yes") : v.t("finish.not-yet")});
    facts(k, "summary", rows);
  };
  const auto actions = [&] {
    copy = primary_button(k, "open-copy", v.t("finish.copy"));
    const int pressed = button_pair(k, "open-hand-over", v.t("finish.hand-over"), "open-pack",
                                    v.t("finish.pack"));
    hand = pressed == 1;
    pack = pressed == 2;
    if (!v.now.missed.empty() && v.s.grid) tell = quiet_button(k, "open-tell", v.t("finish.tell"));
    note = quiet_button(k, "open-comment", v.t("finish.comment"));
    if (v.practice) leave = quiet_button(k, "leave-practice", v.t("practice.leave"));
  };
  auto out = framed_page(k, v, "finish", content, actions);
  u.page = copy || pack || hand || tell || note ? 0 : u.page;
  if (copy) u.open = "copy";
  if (pack) u.open = "pack";
  if (hand) u.open = "hand-over";
  if (note) u.open = "comment";
  if (tell) {
    u.open = "tell";
    u.chosen = v.now.missed.front();
    u.minutes_ago = 1;
  }
  if (leave) return wish{leave_practice{}};
  return out;
}

} // namespace qb
