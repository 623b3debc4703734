// Where the parts of a standing dog lie in its side view, from its readings.
//
// Millimetres; the dog faces left. x = 0 at the collar's place on the back and grows toward the
// tail; y points down and is 0 on the ground, so that a height h is y = -h.
//
//   head   N . withers          loin   T
//      \  /   '----.-----------.------.-- tail     N: neck top, T: tail base
//       Q          :           :                   Q: neck ring at the throat
//       P          :           :                   P: middle of the breastbone
//         \        C - . _     :                   C: chest floor on the girth line
//          elbow           ' - L - stifle          L: belly at the loin
//          |                        |
#pragma once

#include "core/body/measures.h"
#include "core/geometry/path.h"

namespace coatwright {

// How the neck's ring leans forward from top to throat, radians from the vertical: own rule.
inline constexpr double kNeckRingLean = 0.66;
// Least distance of the breastbone below the neck's ring, of the neck's depth: own rule.
inline constexpr double kBreastBelowRing = 0.22;

struct Landmarks {
  double withers_height = 0.0;  // as drawn: higher than the reading if the chest would touch ground
  double elbow_height = 0.0;
  double chest_depth = 0.0;
  double loin_depth = 0.0;
  double neck_depth = 0.0;  // of the neck ring at the collar's place
  double neck_swell = 0.0;  // how much deeper the neck is than usual for the head
  double leg_width = 0.0;   // of the foreleg at the elbow, as drawn
  double rear_size = 0.0;   // what the hindquarters are scaled by
  double head_length = 0.0;
  double head_depth = 0.0;

  Path topline;      // N to T; its length is the back length
  Point crest_low;   // on the crest, nearly half way up from N: where the topline comes from
  Point under_tail;  // below T: where the topline goes to
  Point neck_top, withers, tail_base;
  Point girth_top, girth_floor;  // on the girth line
  Point rib_top, rib_floor;      // at the last rib
  Point loin_top, loin_floor;
  Point neck_front;  // Q
  Point breastbone;  // P
  Point elbow;       // the point at the back of the foreleg
  Point occiput;     // base of the skull
  Vec crest;         // unit, from the neck top along the crest to the occiput
  Vec across;        // unit, from the crest square to it toward the throat
};

[[nodiscard]] Landmarks make_landmarks(const Body& body);

// The point of height `h` above the ground.
[[nodiscard]] constexpr Point standing(double x, double h) { return {x, -h}; }

}  // namespace coatwright
