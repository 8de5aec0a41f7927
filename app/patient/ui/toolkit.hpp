// The toolkit's core: one page a frame, a column that elements flow down, and what was touched.
// Elements (text.hpp, buttons.hpp, ...) are free functions on it; a screen only calls those.
//
// A page is laid out before it is drawn: page() runs the screen's two functions once to measure
// (every element then answers "not pressed") and once to draw. So a screen's functions must do
// nothing but call elements and note what was pressed. The toolkit has no clock and moves nothing
// by itself.
#pragma once

#include "app/patient/ui/outline.hpp"
#include "app/patient/ui/panels.hpp"
#include "app/patient/ui/pen.hpp"
#include "app/patient/ui/tube.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace qb::inline ui {

// The few words the toolkit itself shows, in the patient's language.
struct toolkit_words {
  std::string more;     // turns to the next page
  std::string back;     // turns back
  std::string unwell;   // "I feel unwell"
  std::string practice; // "This is practice: leave tubes and sugar closed"
  std::string trying;   // "For trying only: this laboratory is invented"
  std::string done;     // closes the keyboard
  std::string space;
  std::string erase;   // spoken name of the erase key
  std::string shift;   // spoken name of the capitals key
  std::string letters; // "abc"
  std::string accents; // "é à"
  std::string digits;  // "123"
  std::string no_font; // under a line with letters that cannot be printed
};

// What frames a screen's own content.
struct page_options {
  std::string screen;          // stable name, in the outline
  std::string where;           // where in the whole, in words ("Sample 3 of 10"); may be empty
  std::vector<tube_mark> rack; // the tubes in the top strip; empty for none
  bool practice{false};        // the practice banner
  bool trying{false};          // the banner of an invented laboratory, where it is no practice
  bool unwell{true};           // "I feel unwell"; only a screen that already answers it may drop it
  std::string turn;            // when this changes, the page turns back to its first leaf
  bool actions_on_all{false};  // actions stand on every leaf; else only on the last, after the
                               // content has been seen
  bool asks{false};            // the actions answer the headline: where they stand on a later leaf
                               // it is repeated above them
};

// What the page's own frame was asked.
struct page_result {
  bool unwell{false}; // "I feel unwell" was pressed
};

// What a finger or key did to one element in this frame.
struct touch {
  bool pressed{false};
  bool held{false};
  bool focused{false}; // by the keyboard; the toolkit draws the ring
};

// The on-screen keyboard's state; `key` is the text field being typed in, empty for none.
struct keyboard_state {
  enum class panel { letters, accents, digits };
  std::string key;
  panel showing{panel::letters};
  int accent_page{0};
  bool capital{false};
};

// What an element's call is for: its height, its drawing, or the page under an open keyboard.
enum class pass { measure, draw, edit };

// What a deaf toolkit does with an element: ordinary ones wait; the keys of the keyboard and a
// stepper's two buttons are meant to be pressed many times quickly.
enum class hearing { waits, always };

// One for each window; it remembers leaf, keyboard and the press under way from frame to frame.
class toolkit {
public:
  toolkit(const theme& colours, const fonts& set, toolkit_words words);

  // Between ImGui::NewFrame() and ImGui::Render(): one begin, one page, one end. The size is in
  // pixels; the scale comes with the fonts.
  void begin_frame(float width_px, float height_px);
  void end_frame();

  // Lays out and draws the page. `content` flows down from the top and turns pages when it does
  // not fit; `actions` stands at the bottom (in landscape: at the right), within reach of a thumb.
  page_result page(const page_options& options, const std::function<void()>& content,
                   const std::function<void()>& actions);

  // While deaf, nothing that leads on answers a press or shows one: for the moment after a press,
  // in which a trembling hand presses again. A press that began while deaf stays none.
  void set_deaf(bool deaf) { deaf_ = deaf; }
  // True if something that leads on was pressed in this frame: a button, link, choice, check or
  // score, the unwell button, a page turn, or the key that closes the keyboard.
  [[nodiscard]] bool pressed() const { return pressed_; }
  // True while a stepper's button is held: it repeats, and needs frames (60 a second) to do so.
  [[nodiscard]] bool wants_frames() const { return repeating_; }

  [[nodiscard]] const outline& seen() const { return outline_; }
  void set_look(const theme& colours) { theme_ = colours; }
  void set_fonts(const fonts& set) { fonts_ = &set; }

  // ---- for elements ------------------------------------------------------------------------

  // Asks for `height` below what came before, `gap` apart. Answers where to draw, or nothing when
  // measuring or on another leaf. With a `keep` above 0 what follows must
  // stand on the same leaf, with one below 0 what came before.
  std::optional<box> place(float height, float gap, float keep = 0);
  // Room that may be left over is shared among all fills of a page.
  void fill();
  [[nodiscard]] float column() const { return flow_.area.w; }
  // What a drawing may take: `roomy` if the page has space, down to `least` if it has not.
  [[nodiscard]] float stretch(float roomy, float least) const;

  [[nodiscard]] pen ink() const;
  [[nodiscard]] const theme& colours() const { return theme_; }
  [[nodiscard]] const toolkit_words& words() const { return words_; }
  [[nodiscard]] pass running() const { return pass_; }
  [[nodiscard]] keyboard_state& keyboard() { return keyboard_; }
  [[nodiscard]] box edit_area() const { return edit_area_; }

  // Leaves a line in the outline; the box is logical pixels.
  element& note(const std::string& key, const std::string& role, const std::string& name, box b);
  // Says whether the words of the last noted element were too long for their place.
  void mark_cut(bool cut) { outline_.elements.back().cut = cut; }
  // Makes the box pressable and leaves its line. A press counts if it began on this element of this
  // screen, whatever has come to stand under the finger since.
  touch press(const std::string& key, const std::string& role, const std::string& name, box b,
              const std::string& value = "", const std::string& state = "",
              hearing ears = hearing::waits);
  // What has been made pressable next answers again and again while it is held.
  void repeat_next() { repeat_next_ = true; }
  // Counts as a press that leads on, for pressed().
  void leads_on() { pressed_ = true; }

private:
  struct flow {
    box area;
    float y{};
    bool at_top{true};
    int panel{0};
    int shown{0};
    float squeeze{0}; // 0 roomy, 1 least
    int fills{0};
    float fill_height{0};
    std::vector<block> blocks;       // what was placed
    const panel_plan* plan{nullptr}; // what stands on which leaf; null: all on one
    std::size_t repeated{0};         // so many blocks also stand on the last leaf
    float repeated_height{0};        // what they take there above what else it holds
  };
  struct areas {
    box banner;
    box strip;
    box content;
    box actions;
    box unwell;
    bool landscape{false};
    panel_room room;     // for content
    bool repeats{false}; // the last leaf has room for the headline once more
  };

  // Where the press under way began.
  struct beginning {
    std::string screen;
    std::string key;
    bool heard{false};
  };

  areas divide(const page_options& options) const;
  void lay_out(areas& a, const page_options& options, const std::function<void()>& content,
               const std::function<void()>& actions);
  flow run(const std::function<void()>& what, pass how, flow start);
  void choose_squeeze(const areas& a, const std::function<void()>& content);
  void draw_page(const areas& a, bool actions_on_all, const std::function<void()>& content,
                 const std::function<void()>& actions);
  void draw_frame(const page_options& options, const areas& a);
  void draw_turns(box row, bool main);
  bool draw_unwell(const areas& a);

  theme theme_;
  const fonts* fonts_;
  toolkit_words words_;
  outline outline_;
  keyboard_state keyboard_;
  pass pass_{pass::draw};
  flow flow_;
  flow content_;    // as measured, between measuring and drawing
  panel_plan plan_; // and what stands where
  std::string turn_;
  beginning began_;
  bool deaf_{false};
  bool pressed_{false};
  bool repeat_next_{false};
  bool repeating_{false};
  int panel_{0};
  float width_{};
  float height_{};
  box edit_area_;
};

} // namespace qb::inline ui
