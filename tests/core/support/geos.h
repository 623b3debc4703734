// GEOS through its C interface: the independent geometry
// library that the reference tests compare with.
#pragma once

#include <geos_c.h>

#include <memory>

#include "core/geometry/point.h"

namespace coatwright::geos {

using Handle = GEOSContextHandle_t;
using Shape = std::unique_ptr<GEOSGeometry, void (*)(GEOSGeometry*)>;

// The one context of the test program; tests run in one thread.
[[nodiscard]] inline Handle context() {
  static const std::unique_ptr<GEOSContextHandle_HS, void (*)(Handle)> instance(GEOS_init_r(),
                                                                                GEOS_finish_r);
  return instance.get();
}

[[nodiscard]] inline Shape own(GEOSGeometry* shape) {
  return {shape, [](GEOSGeometry* s) { GEOSGeom_destroy_r(context(), s); }};
}

[[nodiscard]] inline GEOSCoordSequence* sequence(const Polyline& points, bool closed) {
  const auto n = static_cast<unsigned>(points.size() + (closed ? 1 : 0));
  GEOSCoordSequence* out = GEOSCoordSeq_create_r(context(), n, 2);
  for (unsigned i = 0; i < n; ++i) {
    const Point& p = points[i % points.size()];
    GEOSCoordSeq_setXY_r(context(), out, i, p.x, p.y);
  }
  return out;
}

[[nodiscard]] inline Shape line(const Polyline& points) {
  return own(GEOSGeom_createLineString_r(context(), sequence(points, false)));
}

[[nodiscard]] inline Shape area_of(const Polyline& outline) {
  GEOSGeometry* ring = GEOSGeom_createLinearRing_r(context(), sequence(outline, true));
  return own(GEOSGeom_createPolygon_r(context(), ring, nullptr, 0));
}

[[nodiscard]] inline Shape dot(Point p) {
  return own(GEOSGeom_createPointFromXY_r(context(), p.x, p.y));
}

[[nodiscard]] inline double area(const Shape& shape) {
  double out = 0.0;
  GEOSArea_r(context(), shape.get(), &out);
  return out;
}

[[nodiscard]] inline double length(const Shape& shape) {
  double out = 0.0;
  GEOSLength_r(context(), shape.get(), &out);
  return out;
}

[[nodiscard]] inline double distance(const Shape& a, const Shape& b) {
  double out = 0.0;
  GEOSDistance_r(context(), a.get(), b.get(), &out);
  return out;
}

// Grown outward all round by `distance`.
enum class Corners { Round, Mitred };
[[nodiscard]] inline Shape grown(const Shape& shape, double distance, Corners corners) {
  constexpr int kQuarter = 128;         // segments a quarter turn
  constexpr double kMitreLimit = 10.0;  // never reached by the pieces that are tested
  return own(GEOSBufferWithStyle_r(
      context(), shape.get(), distance, kQuarter, GEOSBUF_CAP_ROUND,
      corners == Corners::Round ? GEOSBUF_JOIN_ROUND : GEOSBUF_JOIN_MITRE, kMitreLimit));
}

[[nodiscard]] inline double common_area(const Shape& a, const Shape& b) {
  return area(own(GEOSIntersection_r(context(), a.get(), b.get())));
}

[[nodiscard]] inline bool is_simple(const Polyline& outline) {
  return GEOSisValid_r(context(), area_of(outline).get()) == 1;
}

[[nodiscard]] inline bool contains(const Shape& shape, Point p) {
  return GEOSContains_r(context(), shape.get(), dot(p).get()) == 1;
}

}  // namespace coatwright::geos
