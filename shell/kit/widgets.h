// The controls that the panels are made of: drawn on the page, added to the frame's controls.
#pragma once

#include <functional>
#include <string>

#include "shell/kit/frame.h"

namespace coatwright::studio {

enum class Look { Table, Solid, Outline, Quiet, Key, Fraction };

struct ButtonStyle {
  Look look = Look::Outline;
  Type type = kStrong;
  bool enabled = true;
  bool chosen = false;
  ControlRole role = ControlRole::Button;
  std::string group = {};
  std::string name = {};  // when the words on it are not its name
  bool in_set = false;    // Control::in_set
};
// True when it was pressed.
bool button(Frame& f, const std::string& id, const Box& box, std::string_view words,
            const ButtonStyle& style = {});

// How many options stand beside one another: each as wide as a fingertip and as its longest word.
[[nodiscard]] int options_in_a_row(const std::vector<std::string>& names, float width, Type type,
                                   float gap);
// As many rows of options as they need, each a fingertip high; how high that is. Returns the option
// that was chosen now, or -1.
[[nodiscard]] float options_height(const std::vector<std::string>& names, float width);
int options(Frame& f, const std::string& id, const Box& box, const std::string& group,
            const std::vector<std::string>& names, int chosen);

// A box with a tick and its words; true when it was pressed. `written` false: the words are its
// name alone and stand beside it.
bool tick_box(Frame& f, const std::string& id, const Box& box, const std::string& words,
              bool ticked, bool written = true);

// One option over the whole width of its box: its name, and what it is at the right end. True when
// it was chosen now.
struct RowOption {
  std::string id;
  std::string group;
  std::string name;
  std::string value;
  bool chosen = false;
  bool wrong = false;  // the value is something amiss
};
bool row_option(Frame& f, const Box& box, const RowOption& option);

// A line over the whole width that shows or hides what stands under it: its name, and what is told
// of it at the right end. True when it was pressed.
struct FoldLine {
  std::string id;
  std::string name;
  std::string value;
  bool unfolded = false;
  std::string written = {};  // instead of the value
  Type type = kBody;         // of the value
  std::optional<Colour> ink = {};
};
bool fold_line(Frame& f, const Box& box, const FoldLine& line);

struct SliderSpec {
  std::string id;
  std::string name;
  std::string value;  // in words
  std::string note;
  double low = 0.0, high = 1.0, now = 0.0, step = 0.1;
  double mark = 0.0;  // where the default is
};
// A slider's track; returns the new value when it was moved.
std::optional<double> slider_track(Frame& f, const Box& box, const SliderSpec& spec);

// A text field in words (not numbers). Returns the text when it was entered.
std::optional<std::string> text_field(Frame& f, const std::string& id, const Box& box,
                                      const std::string& name, const std::string& text);

// A sentence in a box of its own: wrong (brick) or worth knowing (chalk). Its height.
float sentence_height(std::string_view words, float width);
void sentence(Frame& f, const std::string& id, const Box& box, std::string_view words, bool wrong);

// Words that are written here, for who does not see them: they are read where they stand, and not
// told of themselves.
void words_at(Frame& f, const std::string& id, const Box& box, const std::string& words);

// A heading that screen readers hear too.
void heading(Frame& f, const std::string& id, Spot at, const std::string& words,
             Type type = kTitle);

// The ring round the control that the keyboard is on, drawn over everything.
void focus_ring(Frame& f);

// Runs `draw` with its content inside a scrolled part of the page. `draw` gets the content's box
// (its height is not bounded) and returns how high the content is.
void scrolled(Frame& f, const std::string& id, const Box& box,
              const std::function<float(const Box&)>& draw);

// Scrolls an area (the part of the page `sheet`) so that a box in it is seen, if that is what the
// view is to reveal.
void reveal(Frame& f, const std::string& id, const std::string& area, const Box& box,
            const Box& sheet);

// The side sheet's paper, and its turned corner, which is drawn over the content so that it stays
// turned while that scrolls.
void paper(Frame& f);
void corner(Frame& f);

// The part of a side sheet that content may take: inside its margins, clear of the turned corner.
inline constexpr float kSheetPad = 50.0F;  // above and below together
[[nodiscard]] Box sheet_content(const Frame& f, const Box& sheet);

// Places blocks one below the other, in as many columns as the width holds, each into the shortest.
inline constexpr float kColumnGap = 26.0F;

class Columns {
 public:
  // `gap` lies between blocks of a column.
  Columns(const Box& box, float least_width, float gap);
  [[nodiscard]] Box next(float height);
  // A block over the whole width, below everything so far.
  [[nodiscard]] Box across(float height);
  [[nodiscard]] float height() const;
  [[nodiscard]] float width() const { return box_.w; }
  [[nodiscard]] float column_width() const { return box_.column(0, count(), kColumnGap).w; }
  [[nodiscard]] int count() const { return static_cast<int>(heights_.size()); }

 private:
  Box box_;
  float gap_;
  std::vector<float> heights_;
};

// Quiet words across all columns.
void aside(Frame& f, Columns& flow, const std::string& id, const std::string& words);
// A sentence across all columns.
void sentence(Frame& f, Columns& flow, const std::string& id, std::string_view words, bool wrong);
// Plain text in the next column.
void paragraph(Frame& f, Columns& flow, const std::string& id, const std::string& words,
               bool soft = false);

}  // namespace coatwright::studio
