#include "core/draft/options/hem.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {
namespace {

constexpr int kSteps = 24;

Polyline hem_picture(int option) {
  Polyline line;
  for (int i = 0; i <= kSteps; ++i) {
    const double t = static_cast<double>(i) / kSteps;
    double y = 0.5;
    if (option == 1) y = 0.5 + 0.28 * std::sin(2.0 * std::numbers::pi * t);
    if (option == 2) y = 0.75 - 0.6 * t * t;
    line.push_back({t, y});
  }
  return line;
}

// The rear corner, seen from the side.
Polyline tail_picture(int option) {
  const double r = option == 0 ? 0.3 : 0.9;
  Polyline line{{0.0, 1.0}};
  for (int i = 0; i <= kSteps; ++i) {
    const double a = 0.5 * std::numbers::pi * i / kSteps;
    line.push_back({1.0 - r + r * std::sin(a), 1.0 - r + r * std::cos(a)});
  }
  line.push_back({1.0, 0.0});
  return line;
}

constexpr const char* kHemLines[] = {"level", "wave", "raised"};
constexpr const char* kTailLines[] = {"square", "rounded"};

}  // namespace

const ChoiceInfo kHemLine = {.id = "hem-line", .options = kHemLines, .picture = hem_picture};
const ChoiceInfo kTailLine = {
    .id = "tail-line", .options = kTailLines, .usual = 1.0, .picture = tail_picture};
const ChoiceInfo kHemDepth = {.id = "hem-depth", .range = [](const Body& b) {
                                return part_of(b.mm(Measure::Drop), -0.12, 0.0, 0.12);
                              }};

std::optional<Point> hem_at(const Draft& draft, double u) {
  const Piece* body = find_piece(draft, "body");
  const Edge* hem = body == nullptr ? nullptr : find_edge(*body, "body.hem");
  if (hem == nullptr) return std::nullopt;
  const Polyline line = flatten(hem->path, 0.002);  // from the rear corner forward
  const auto ahead = std::find_if(line.begin(), line.end(), [&](Point p) { return p.x <= u; });
  if (ahead == line.begin() || ahead == line.end()) return std::nullopt;
  const Point a = *(ahead - 1), b = *ahead;
  return lerp(a, b, (a.x - u) / (a.x - b.x));
}

namespace {

// The hem at the loin: a place that stays where it is along the back, so that the handle goes
// straight up and down with the hem.
std::optional<Point> hem_at_loin(const Draft& draft) { return hem_at(draft, draft.map.loin_u); }

const ChoiceInfo* const kChoices[] = {&kHemLine, &kTailLine, &kHemDepth};
const ChoiceInfo* const kPlainChoices[] = {&kTailLine, &kHemDepth};
const HandleInfo kHandles[] = {{&kHemDepth, "body", hem_at_loin}};

}  // namespace

const OptionInfo kHem = {.id = "hem", .choices = kChoices, .handles = kHandles};
const OptionInfo kPlainHem = {.id = "hem", .choices = kPlainChoices, .handles = kHandles};

}  // namespace coatwright
