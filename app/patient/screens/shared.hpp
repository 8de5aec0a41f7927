// What several screens say in the same way: the page's frame, times, the rack.
#pragma once

#include "app/patient/screens/screens.hpp"

#include <functional>

namespace qb::inline screens {

// How urgent a page is.
enum class page_kind {
  calm,   // actions come after all of the content has been seen
  asking, // as calm, and the headline is repeated above the actions that answer it
  timed,  // during the test: the rack on top, the action on every leaf
  guided, // nothing but the page and its action on every leaf
  whole,  // as guided, and nothing takes room from what is shown: no notice of a shared device
};

// Draws a page with the usual frame for this view: practice banner, where in the whole, rack, and
// what troubles there are at the top of the content. Answers the wish of "I feel unwell", and of
// keeping a test that a shared device is about to erase. `about`: which of several pages of this
// name it is, such as a question's rule; each of them begins on its first leaf.
[[nodiscard]] maybe_wish framed_page(toolkit& k, const view& v, const std::string& screen,
                                     const std::function<void()>& content,
                                     const std::function<void()>& actions,
                                     page_kind kind = page_kind::calm,
                                     const std::string& about = "");

// "Tuesday 07:30", with the date beyond six days.
[[nodiscard]] std::string when(const view& v, instant t);
// "07:30"
[[nodiscard]] std::string clock_of(const view& v, instant t);
// "12:04" left of a span, "1 h 20" from an hour on.
[[nodiscard]] std::string count_down(duration left);
// How many tubes were filled.
[[nodiscard]] std::size_t filled_tubes(const view& v);
// The tubes as the rack shows them, `next` marked.
[[nodiscard]] std::vector<tube_mark> rack_of(const view& v);
// The sentence of that key; in practice KEY.practice where there is one, since nothing is to be
// opened, blown or drunk then.
[[nodiscard]] std::string real_words(const view& v, const std::string& key,
                                     const word_args& args = {});
// The warning signs of the test as rows to tick, with the question above them.
void sign_rows(toolkit& k, const view& v, ui_state& u);
// Opens the page on which a breath taken unseen is told.
void open_tell(const view& v, ui_state& u, sample_number n, std::chrono::minutes ago);
// "1" as text.
[[nodiscard]] std::string number_text(sample_number n);

} // namespace qb::inline screens
