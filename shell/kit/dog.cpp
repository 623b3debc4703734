#include "shell/kit/dog.h"

namespace coatwright::studio {
namespace {

void draw_shape(Frame& f, const BoardMap& map, const DogShape& shape, float strength) {
  const Line line = map.page(shape.outline);
  const auto filled = [&](Colour colour) {
    f.paint.triangles(map.page(shape.outline), shape.corners, faded(colour, strength));
  };
  const Colour ink = faded(f.colours.ink, strength);
  switch (shape.part) {
    case SidePart::FarLegs:
      filled(mixed(f.colours.dog, f.colours.dog_shade, 0.8F));
      f.paint.polyline(line, faded(f.colours.ink, 0.6F * strength), 1.8F, true);
      break;
    case SidePart::Tail:
    case SidePart::Body:
      filled(f.colours.dog);
      f.paint.polyline(line, ink, 2.6F, shape.closed);
      break;
    case SidePart::Ear:
      filled(f.colours.dog_shade);
      f.paint.polyline(line, ink, 2.2F, shape.closed);
      break;
    case SidePart::Crease:
      f.paint.polyline(line, faded(f.colours.ink, 0.45F * strength), 1.6F);
      break;
    case SidePart::Glint:
      filled(f.view.evening ? f.colours.ink : f.colours.paper);
      break;
    case SidePart::Eye:
    case SidePart::Nose:
      // Dark in the evening too, when ink is light.
      filled(f.view.evening ? f.colours.table : f.colours.ink);
      f.paint.polyline(line, ink, 1.6F, true);
      break;
  }
}

}  // namespace

void draw_dog(Frame& f, const BoardMap& map) {
  const float strength = f.derived.body ? 1.0F : 0.35F;
  for (const DogShape& shape : f.derived.dog) draw_shape(f, map, shape, strength);
}

}  // namespace coatwright::studio
