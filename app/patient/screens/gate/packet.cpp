// The packet of sugar is read out: its name and the amount of one dose, as printed. What it says
// instead is written down, and keeps it closed; nothing is compared here.
#include "app/patient/screens/gate/gate_pages.hpp"
#include "core/base/text.hpp"
#include "core/session/limits.hpp"

namespace qb::inline screens {

namespace {

std::string other_names(const substrate& sugar) {
  std::string out;
  for (const std::string& name : sugar.packet_names) {
    if (name != sugar.name) out += (out.empty() ? "" : ", ") + name;
  }
  return out;
}

std::string amount_words(const view& v, const reported_packet& p) {
  return v.t("gate.packet.amount", {{"n", std::to_string(p.amount)}, {"unit", p.unit}});
}

bool is_measured(const view& v) {
  const sugar_form* form = find_form(*v.s.test, v.s.planned->form);
  return form != nullptr && form->measure;
}

// It is not known which of the two pages' page types the person came by: gate and held share it.
void turn_to(ui_state& u, bool at_gate, gate_page gate, held_page held) {
  if (at_gate) u.nav.page = gate;
  if (!at_gate) u.nav.page = held;
}

maybe_wish draw_other(toolkit& k, const view& v, ui_state& u, bool at_gate) {
  std::string& says = u.drafts.packet_says;
  bool tell = false;
  bool unreadable = false;
  bool back = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.packet.other.title"));
    (void)text_field(k, "packet-says",
                     {v.t("gate.packet.other.label"), v.t("gate.packet.other.hint"), "",
                      text_kind::plain, longest_comment},
                     says);
    strong(k, "closed", v.t("gate.sugar.closed"));
  };
  const auto actions = [&] {
    if (trimmed(says).empty()) {
      waiting_button(k, "tell-packet", v.t("gate.packet.other.wait"));
    } else {
      tell = primary_button(k, "tell-packet", v.t("gate.packet.other.tell"));
    }
    unreadable = secondary_button(k, "cannot-read", v.t("gate.packet.other.cannot-read"));
    back = quiet_button(k, "back", v.t("common.back"));
  };
  auto out = framed_page(k, v, "gate-packet-says", content, actions);
  if (back) turn_to(u, at_gate, gate_page::sugar, held_page::packet);
  if (!tell && !unreadable) return out;
  const std::string words = tell ? trimmed(says) : v.t("gate.packet.other.cannot-read");
  says.clear();
  u.nav.page = {};
  return wish{payload{reported_packet{"", 0, "", words}}};
}

// What the packet must say: the sugar's name and one dose of it, large.
void show_packet(toolkit& k, const view& v, const reported_packet& right) {
  const substrate& sugar = v.s.test->sugar;
  big_figure(k, "packet", v.t("gate.sugar.says"), sugar.name);
  big_figure(k, "amount", v.t(is_measured(v) ? "gate.packet.dose" : "gate.packet.all"),
             amount_words(v, right));
  const std::string others = other_names(sugar);
  if (!others.empty()) paragraph(k, "or", v.t("gate.sugar.or", {{"names", others}}));
}

std::string said_of(const view& v, const reported_packet& told) {
  return told.words.empty() ? told.name + " " + amount_words(v, told) : told.words;
}

// Read once more, with both on the page: only here is another packet taken back.
maybe_wish draw_packet_again(toolkit& k, const view& v, ui_state& u, bool at_gate) {
  const noted_packet& before = *other_packet_standing(v.s);
  reported_packet right = right_packet(v.s);
  const word_args args{{"was", said_of(v, before.what)},
                       {"time", when(v, before.at.wall)},
                       {"sugar", right.name},
                       {"amount", amount_words(v, right)}};
  bool now = false;
  bool earlier = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.packet.again"));
    paragraph(k, "both", v.t("gate.packet.again.both", args)); // on the first leaf
    show_packet(k, v, right);
  };
  const auto actions = [&] {
    earlier = secondary_button(k, "packet-earlier", v.t("gate.packet.again.earlier"));
    now = secondary_button(k, "packet-now", v.t("gate.packet.again.now", args));
  };
  auto out = framed_page(k, v, "packet-again", content, actions, page_kind::asking);
  if (now || earlier) u.drafts.taking_back_packet = false;
  if (earlier) turn_to(u, at_gate, gate_page::wrong_sugar, held_page::what);
  if (!now) return out;
  turn_to(u, at_gate, gate_page::morning, held_page::what);
  right.asked_again = true;
  return wish{payload{right}};
}

} // namespace

maybe_wish draw_packet(toolkit& k, const view& v, ui_state& u) {
  const bool at_gate = v.now.what == step::gate || v.now.what == step::prepare;
  const bool other = u.nav.page_in<gate_page>() == gate_page::wrong_sugar ||
                     u.nav.page_in<held_page>() == held_page::other_packet;
  if (other) return draw_other(k, v, u, at_gate);
  if (u.drafts.taking_back_packet && other_packet_standing(v.s) != nullptr)
    return draw_packet_again(k, v, u, at_gate);
  const reported_packet right = right_packet(v.s);
  bool yes = false;
  bool no = false;
  const auto content = [&] {
    headline(k, "title", v.t("gate.sugar.title"));
    show_packet(k, v, right);
    if (is_measured(v)) paragraph(k, "measure", v.t("gate.packet.measure"));
    strong(k, "closed", v.t("gate.sugar.closed"));
  };
  const auto actions = [&] {
    yes = primary_button(
        k, "sugar-matches",
        v.t("gate.packet.yes", {{"sugar", right.name}, {"amount", amount_words(v, right)}}));
    no = secondary_button(k, "other-packet", v.t("gate.sugar.no"));
  };
  auto out = framed_page(k, v, "gate-sugar", content, actions);
  if (no) turn_to(u, at_gate, gate_page::wrong_sugar, held_page::other_packet);
  if (!yes) return out;
  if (other_packet_standing(v.s) != nullptr) {
    u.drafts.taking_back_packet = true;
    return out;
  }
  turn_to(u, at_gate, gate_page::morning, held_page::what);
  return wish{payload{right}};
}

} // namespace qb::inline screens
