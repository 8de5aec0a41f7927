// Words on the page: the headline that says what to do, running text, quiet text, notices.
// Each is set to lines under 60 characters; the outline holds the whole of it under its key.
#pragma once

#include "app/patient/ui/toolkit.hpp"

namespace qb::inline ui {

// What to do, large: the first thing read. It stays on the leaf of what follows.
void headline(toolkit& k, const std::string& key, const std::string& text);
// A quiet line above the headline, which it never leaves.
void over_headline(toolkit& k, const std::string& key, const std::string& text);
// Running text.
void paragraph(toolkit& k, const std::string& key, const std::string& text);
// Bold running text, for the one line that matters in a paragraph's place.
void strong(toolkit& k, const std::string& key, const std::string& text);
// A small bold heading that stays with what follows.
void heading(toolkit& k, const std::string& key, const std::string& text);
void quiet_text(toolkit& k, const std::string& key, const std::string& text);

// Whether a notice is to be known or to be acted on.
enum class notice_kind { note, needs_you };
// Words beside a rule: a quiet remark, or something that wants attention (then with a mark).
void notice(toolkit& k, const std::string& key, notice_kind kind, const std::string& text);

// One large figure (a time, a tube's number) under its caption.
void big_figure(toolkit& k, const std::string& key, const std::string& caption,
                const std::string& figure);
// Whom to call and when: name, telephone as large as the page has room for, hours right under it.
struct contact {
  std::string name;
  std::string telephone;
  std::string hours;
};
// The hours have the key KEY-hours.
void whom_to_call(toolkit& k, const std::string& key, const contact& c);

// Ends a group; it stays on the leaf of what came before.
void hairline(toolkit& k);

} // namespace qb::inline ui
