#include "core/draft/binding.h"

#include <algorithm>
#include <numbers>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// A strip on the bias gives and takes about 0.3 of its length; common practice, no source.
constexpr double kBiasGives = 0.3;

// Binding ends: a diagonal join across the strip takes its width and two allowances of 1/4 in; an
// open end is folded under by 1/2 in. Common practice, no source.
constexpr double kJoinAllowance = 2.0 * 6.35;
constexpr double kEndUnder = 12.7;

constexpr double kTight = 1e-6;  // mm, tolerance of lengths

// An edge where the other half of the coat goes on: a fold, or a seam with the mirror image.
bool goes_on(const Piece& p, const Edge& e) {
  return e.finish == Finish::Fold ||
         (p.mirrored_pair && e.finish == Finish::Seam && e.seam == e.id);
}
bool is_half(const Piece& p) {
  return std::any_of(p.edges.begin(), p.edges.end(), [&](const Edge& e) { return goes_on(p, e); });
}

}  // namespace

// A binding that wraps the edge shows its width on both sides and is folded under by as much: 4
// widths. A French one is folded double first: 6 widths, and 1/4 in to turn. Values from memory
// (reference tables of the trade have the same). The way round the edge is half a circle whose
// diameter is the stack.
double binding_cut_width(int fold, double finished_mm, double stack_mm) {
  const double strip = fold == kFrenchFold ? 6.0 * finished_mm + 6.35 : 4.0 * finished_mm;
  return strip + 0.5 * std::numbers::pi * stack_mm;
}

double slit_binding_cut_width() { return binding_cut_width(kDoubleFold, kSlitBinding, 0.0); }

// At an edge of radius r the strip's inner edge is w/r longer or shorter than its outer, half of it
// to either side.
double tightest_bind(double finished_mm) { return finished_mm / (2.0 * kBiasGives); }

BoundRuns bound_runs(const Piece& p) {
  BoundRuns out;
  const size_t n = p.edges.size();
  const auto bound = [&](size_t i) { return p.edges[i % n].finish == Finish::Bound; };
  const auto fold = [&](size_t i) { return goes_on(p, p.edges[i % n]); };
  for (size_t i = 0; i < n; ++i) {
    if (!bound(i)) continue;
    out.length += arc_length(p.edges[i].path, kTight);
    // At a fold the run goes on in the other half.
    out.ends +=
        (!bound(i + 1) && !fold(i + 1) ? 1 : 0) + (!bound(i + n - 1) && !fold(i + n - 1) ? 1 : 0);
  }
  const int halves = is_half(p) ? 2 : 1;
  return {halves * out.length, halves * out.ends};
}

double binding_length(const BoundRuns& runs, double cut_width) {
  return runs.length + (runs.ends > 0 ? runs.ends * kEndUnder : cut_width + kJoinAllowance);
}

double measured_bound(const Piece& p) {
  double sum = 0.0;
  for (const Edge& e : p.edges) {
    if (e.finish == Finish::Bound) sum += polyline_length(flatten(e.path, 1e-4));
  }
  return is_half(p) ? 2.0 * sum : sum;
}

int bound_copies(const Piece& p) { return p.mirrored_pair && is_half(p) ? p.cut / 2 : p.cut; }

}  // namespace coatwright
