// The record was damaged and was read again: what is lost, whose test it is, and how it goes on.
#include "app/patient/screens/mending/mending.hpp"
#include "app/patient/screens/reach.hpp"

#include <algorithm>

namespace qb::inline screens {

namespace {

std::string lost_words(const view& v) {
  if (v.salvaged->complete) return v.t("salvaged.complete");
  if (v.salvaged->lost == 0) return v.t("salvaged.end");
  return v.t.counted("salvaged.lost", v.salvaged->lost);
}

bool runs_on(const view& v) {
  return v.s.drink_start && !v.s.ended;
}

// The tube that is waited for, whatever else is to be done before it: neither filled nor missed.
std::optional<sample_number> next_tube(const view& v) {
  for (std::size_t i = 0; i < v.s.samples.size(); ++i) {
    const auto n = sample_number::from_index(i);
    const auto& missed = v.now.missed;
    const bool is_missed = std::find(missed.begin(), missed.end(), n) != missed.end();
    if (!v.s.samples[i].taken && !is_missed) return n;
  }
  return std::nullopt;
}

// The next time to keep, and what to do where the record has forgotten a tube.
void say_what_is_next(toolkit& k, const view& v) {
  strong(k, "runs", v.t("salvaged.runs"));
  if (const auto next = next_tube(v); next && v.s.grid)
    facts(k, "next",
          {{v.t("salvaged.tube", {{"n", number_text(*next)}}),
            when(v, due_on_wall(v.s, *next, v.at))}});
  if (!v.salvaged->complete)
    paragraph(k, "forgotten", v.t("salvaged.forgotten", {{"button", v.t("wait.mishap.short")}}));
}

void say_what_is_asked(toolkit& k, const view& v) {
  notice(k, "closed", notice_kind::needs_you, v.t("salvaged.closed"));
  paragraph(k, "again", v.t("salvaged.again"));
}

} // namespace

maybe_wish draw_salvaged(toolkit& k, const view& v, ui_state& u) {
  QB_BELIEVE(v.salvaged.has_value());
  bool on = false;
  bool drunk = false;
  const bool asks = v.s.lost_by != 0 && !v.s.drink_start && !v.s.ended;
  const auto content = [&] {
    headline(k, "title", v.t("salvaged.title"));
    paragraph(k, "lost", lost_words(v));
    if (runs_on(v)) say_what_is_next(k, v);
    if (asks) say_what_is_asked(k, v);
    if (v.s.person)
      facts(k, "who",
            {{v.t("return.name"), v.s.person->name}, {v.t("return.kit"), v.s.person->kit_number}});
    quiet_text(k, "other", v.t("return.other", {{"tel", telephone_words(v)}}));
    outside_line(k, v);
    quiet_text(k, "kept-as", v.t("salvaged.kept-as", {{"file", v.salvaged->kept_as}}));
  };
  const auto actions = [&] {
    on = primary_button(k, "go-on", v.t("salvaged.go-on"));
    if (asks) drunk = quiet_button(k, "drank-first", v.t("drink.first"));
  };
  auto out = framed_page(k, v, "salvaged", content, actions, page_kind::timed);
  if (on) u.nav.close_side();
  if (drunk) open_reported_drink(v, u);
  return out;
}

} // namespace qb::inline screens
