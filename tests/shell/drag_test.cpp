// What a frame costs while things are dragged, in counts that no machine changes: drafts, what is painted more than once,
// vertices and commands of the drawing. How long it takes is for tests/bench/drag.mjs to say.
#include <gtest/gtest.h>
#include <imgui.h>

#include <cmath>
#include <numbers>

#include "shell/kit/handles.h"
#include "shell/kit/painter.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

// ---- drafts ---------------------------------------------------------------------------------------------------------

// A handle on a path, and how often it was asked where it stands.
struct Path {
  std::function<Point(double)> at;
  int asked = 0;
  [[nodiscard]] PointAt point_at() {
    return [this](double value) { return ++asked, std::optional(at(value)); };
  }
};
constexpr ChoiceRange kRange{.lowest = 0.0, .highest = 100.0, .sized = 20.0};

TEST(Drag, AHandleOnAStraightPathAsksForTwoDraftsAndForNoneWhereItStandsAlready) {
  Path path{[](double v) { return Point{3.0 + 0.8 * v, 10.0 - 0.6 * v}; }};
  const double there = value_toward(kRange, 20.0, path.at(20.0), path.point_at(), path.at(47.0));
  EXPECT_NEAR(there, 47.0, 0.1);
  EXPECT_EQ(path.asked, 2);
  EXPECT_EQ(value_toward(kRange, 47.0, path.at(47.0), path.point_at(), path.at(47.0)), 47.0);
  EXPECT_EQ(path.asked, 2);
}

TEST(Drag, AHandleOnABentPathComesThereWithThreeDraftsAndStaysInItsRange) {
  const auto circle = [](double v) {
    const double turn = v / 100.0;
    return Point{100.0 * std::cos(turn), 100.0 * std::sin(turn)};
  };
  Path path{circle};
  EXPECT_NEAR(value_toward(kRange, 20.0, circle(20.0), path.point_at(), circle(32.0)), 32.0, 0.5);
  EXPECT_LE(path.asked, 3);
  EXPECT_EQ(value_toward(kRange, 90.0, circle(90.0), path.point_at(), circle(180.0)), 100.0);
  EXPECT_EQ(value_toward(kRange, 5.0, circle(5.0), path.point_at(), circle(-60.0)), 0.0);
}

TEST(Drag, AHandleThatAnotherLimitHoldsOrThatCannotBeDraftedStaysWhereItIs) {
  Path still{[](double) { return Point{1.0, 2.0}; }};
  EXPECT_EQ(value_toward(kRange, 20.0, {1.0, 2.0}, still.point_at(), {50.0, 50.0}), 20.0);
  const PointAt nowhere = [](double) -> std::optional<Point> { return std::nullopt; };
  EXPECT_EQ(value_toward(kRange, 20.0, {1.0, 2.0}, nowhere, {50.0, 50.0}), 20.0);
}

// ---- paint ----------------------------------------------------------------------------------------------------------

// The host's ground, for as long as it lives.
class Grounds {
 public:
  Grounds() {
    lay_grounds_by([](const ImDrawList*, const ImDrawCmd*) {});
  }
  ~Grounds() { lay_grounds_by(nullptr); }
  Grounds(const Grounds&) = delete;
  Grounds& operator=(const Grounds&) = delete;
};

template <class Each>
void each_triangle(const ImDrawList& list, const ImDrawCmd& command, const Each& each) {
  for (unsigned i = 0; i + 2 < command.ElemCount; i += 3) {
    const auto corner = [&](unsigned k) -> const ImDrawVert& {
      const unsigned at = command.IdxOffset + i + k;
      return list
          .VtxBuffer[static_cast<int>(list.IdxBuffer[static_cast<int>(at)] + command.VtxOffset)];
    };
    each(corner(0), corner(1), corner(2));
  }
}

float cross(ImVec2 a, ImVec2 b, ImVec2 c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// What of the way from the least to the greatest of three lies between `low` and `high`.
float share_within(float low, float high, float a, float b, float c) {
  const float from = std::min({a, b, c}), to = std::max({a, b, c});
  return to <= from ? 0.0F : std::max(0.0F, std::min(to, high) - std::max(from, low)) / (to - from);
}

// The area of all triangles of the last frame, as far as their boxes lie in their clips, over the page's.
double painted_over(const ImDrawData& data) {
  double area = 0.0;
  for (const ImDrawList* list : data.CmdLists) {
    for (const ImDrawCmd& command : list->CmdBuffer) {
      if (command.UserCallback != nullptr) continue;
      const ImVec4 clip = command.ClipRect;
      each_triangle(*list, command, [&](const auto& a, const auto& b, const auto& c) {
        const float seen = share_within(clip.x, clip.z, a.pos.x, b.pos.x, c.pos.x) *
                           share_within(clip.y, clip.w, a.pos.y, b.pos.y, c.pos.y);
        area += static_cast<double>(0.5F * std::abs(cross(a.pos, b.pos, c.pos)) * seen);
      });
    }
  }
  return area / static_cast<double>(data.DisplaySize.x * data.DisplaySize.y);
}

// Triangles of a page's ground, the board's and the sheet's once were painted over one another: 2.3 to 2.6 pages.
TEST(Drag, AFramePaintsLessThanAPageOfTrianglesAndFewVerticesAtEveryStation) {
  const Grounds grounds;
  for (const auto& [width, height] : {std::pair{1180.0F, 820.0F}, {390.0F, 844.0F}}) {
    Driver d(a_ticket(), width, height);
    for (const char* station :
         {"station.measure", "station.draft", "station.lay", "station.print", "station.make"}) {
      d.act(station);
      d.settle(4000);
      if (d.sees("handle.hem-depth")) d.drag_begin("handle.hem-depth", 0.0F, 8.0F, false);
      d.redraw();
      const ImDrawData& data = *ImGui::GetDrawData();
      EXPECT_GT(painted_over(data), 0.02) << station;
      EXPECT_LT(painted_over(data), 0.8) << station << " at " << width;
      EXPECT_LT(data.TotalVtxCount, 25000) << station << " at " << width;
      int commands = 0;
      for (const ImDrawList* list : data.CmdLists) commands += list->CmdBuffer.Size;
      EXPECT_LT(commands, 40) << station << " at " << width;
      if (d.sees("handle.hem-depth")) d.drag_end();
    }
  }
}

// How much of each pixel is covered in a picture of one colour, by its middle.
std::vector<float> covered(int width, int height, float ratio,
                           const std::function<void(Painter&)>& draw) {
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui::GetIO().DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
  ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
  load_type(ratio);
  ImGui::NewFrame();
  Painter painter(ratio);
  draw(painter);
  ImGui::Render();
  std::vector<float> out(static_cast<size_t>(width * height), 0.0F);
  const auto each_pixel = [&](const ImVec4& box, const auto& each) {
    for (int y = std::max(0, static_cast<int>(box.y));
         y < std::min(height, static_cast<int>(std::ceil(box.w))); ++y) {
      for (int x = std::max(0, static_cast<int>(box.x));
           x < std::min(width, static_cast<int>(std::ceil(box.z))); ++x) {
        each(ImVec2{static_cast<float>(x) + 0.5F, static_cast<float>(y) + 0.5F},
             out[static_cast<size_t>(y * width + x)]);
      }
    }
  };
  for (const ImDrawList* list : ImGui::GetDrawData()->CmdLists) {
    for (const ImDrawCmd& command : list->CmdBuffer) {
      if (command.UserCallback != nullptr) {
        each_pixel(command.ClipRect, [](ImVec2, float& pixel) { pixel = 1.0F; });
        continue;
      }
      each_triangle(*list, command,
                    [&](const ImDrawVert& a, const ImDrawVert& b, const ImDrawVert& c) {
                      const float area = cross(a.pos, b.pos, c.pos);
                      if (area == 0.0F) return;
                      each_pixel(command.ClipRect, [&](ImVec2 at, float& pixel) {
                        const float u = cross(b.pos, c.pos, at) / area,
                                    v = cross(c.pos, a.pos, at) / area, w = 1.0F - u - v;
                        if (u < 0.0F || v < 0.0F || w < 0.0F) return;
                        const auto alpha = [](const ImDrawVert& corner) {
                          return static_cast<float>(corner.col >> IM_COL32_A_SHIFT) / 255.0F;
                        };
                        const float ink = u * alpha(a) + v * alpha(b) + w * alpha(c);
                        pixel += (1.0F - pixel) * ink;
                      });
                    });
    }
  }
  ImGui::DestroyContext();
  return out;
}

TEST(Painter, AGroundThatTheHostLaysCoversWhatItsTrianglesWouldAndKeepsToItsClip) {
  const Colour ink = rgb(0x1F2937);
  int laid = 0;
  for (const float ratio : {1.0F, 1.5F}) {
    for (const float radius : {0.0F, 10.0F, 16.5F}) {
      for (const bool clipped : {false, true}) {
        const auto draw = [&](Painter& painter) {
          if (clipped) painter.push_clip({40.0F, 30.0F, 60.0F, 44.0F});
          painter.fill({8.4F, 10.0F, 104.0F, 98.3F}, ink, radius);
          if (clipped) painter.pop_clip();
        };
        const int width = static_cast<int>(121.0F * ratio),
                  height = static_cast<int>(116.0F * ratio);
        const std::vector<float> triangles = covered(width, height, ratio, draw);
        const Grounds grounds;
        const std::vector<float> ground = covered(width, height, ratio, draw);
        for (size_t i = 0; i < ground.size(); ++i) {
          ASSERT_NEAR(ground[i], triangles[i], 0.02F)
              << i % static_cast<size_t>(width) << ',' << i / static_cast<size_t>(width)
              << ", radius " << radius << " at " << ratio;
        }
        ++laid;
      }
    }
  }
  EXPECT_EQ(laid, 12);
}

TEST(Painter, WhatCanBeSeenThroughOrIsSmallIsNoGroundForTheHost) {
  const Grounds grounds;
  const auto callbacks = [](const Box& box, Colour colour) {
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().DisplaySize = {400.0F, 300.0F};
    ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
    load_type(1.0F);
    ImGui::NewFrame();
    Painter(1.0F).fill(box, colour, 8.0F);
    ImGui::Render();
    int n = 0;
    for (const ImDrawCmd& command : ImGui::GetDrawData()->CmdLists[0]->CmdBuffer)
      n += command.UserCallback != nullptr;
    ImGui::DestroyContext();
    return n;
  };
  const Colour ink = rgb(0x1F2937);
  EXPECT_EQ(callbacks({10.0F, 10.0F, 300.0F, 200.0F}, ink), 1);
  EXPECT_EQ(callbacks({10.0F, 10.0F, 300.0F, 200.0F}, faded(ink, 0.5F)), 0);
  EXPECT_EQ(callbacks({10.0F, 10.0F, 60.0F, 48.0F}, ink), 0);
}

}  // namespace
}  // namespace coatwright::studio
