// Finding room for text inside a piece: text never goes over a line, over another text, or out of
// its piece. Millimetres.
#pragma once

#include <optional>
#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

// A box that text takes; `angle` as in TextItem.
struct LabelBox {
  Point centre;
  double half_width = 0.0;  // along the writing
  double half_height = 0.0;
  double angle = 0.0;
  bool operator==(const LabelBox&) const = default;
};

// The angle of a line's writing, turned so that it is never upside down: in [-90°, 90°).
[[nodiscard]] double readable_angle(Vec along);

class LabelSpace {
 public:
  // Text stays inside the closed outline.
  explicit LabelSpace(const Polyline& outline);
  void avoid(const Polyline& line, bool closed);
  // Better not over this line, but rather so than nowhere.
  void avoid_if_possible(Point from, Point to);
  void take(const LabelBox& box);
  void give_back(const LabelBox& box);  // as it was taken
  [[nodiscard]] bool avoids_softly() const { return !soft_.empty(); }
  // `strictly`: clear of what is to be avoided if possible, too.
  [[nodiscard]] bool is_free(const LabelBox& box, bool strictly) const;

 private:
  struct Segment {
    Point a, b;
  };
  // A box with the clear that it keeps: x along the writing, y down from the centre. A box is tried
  // against hundreds of lines, so its angle is resolved once.
  struct Frame {
    explicit Frame(const LabelBox& box);
    [[nodiscard]] Point of(Point p) const;
    [[nodiscard]] bool contains(Point p) const;
    Point centre;
    Vec along;
    double half_width, half_height;
    Rect bounds;
  };
  struct Taken {
    LabelBox box;
    Frame frame;
  };
  [[nodiscard]] static bool clear_of(const std::vector<Segment>& segments, const Frame& frame);
  [[nodiscard]] static bool overlap(const Taken& taken, const LabelBox& box, const Frame& frame);

  Polyline outline_;
  std::vector<Segment> segments_;
  std::vector<Segment> soft_;
  std::vector<Taken> taken_;
};

// How a place is looked for.
struct Search {
  bool strictly = true;  // as LabelSpace::is_free()
  double reach = 8.0;    // how far in from a line text may stand to be read as belonging to it, mm
  std::optional<double> angle = {};  // at no other
};

// The first place near `wish` where a box of this size has room: level first, then upright, if no
// angle is asked for; nothing if there is none.
[[nodiscard]] std::optional<LabelBox> find_room(const LabelSpace& space, Point wish,
                                                const Rect& within, double half_width,
                                                double half_height, const Search& search);

// The first place along a line's inner side (left of its direction), from its middle outward.
[[nodiscard]] std::optional<LabelBox> find_room_along(const LabelSpace& space, const Polyline& line,
                                                      double half_width, double half_height,
                                                      const Search& search);

}  // namespace coatwright
