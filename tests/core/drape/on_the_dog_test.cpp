// The coat tried on the dog's form, and first the instrument itself on solids whose answer is known.
#include "tests/core/support/on_the_dog.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

#include "core/draft/belly.h"
#include "core/draft/options/shaping.h"
#include "core/draft/styles/doubt.h"
#include "core/geometry/polygon.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

using std::numbers::pi;

// A circular cone with its axis along x and its tip ahead, as a dog's form: the collar's ring lies
// `r` from the tip along its side, the tail `back` further, the breastbone c. A barrel is a cone
// whose tip is a long way ahead.
struct Cone {
  double r, back, c, angle;
  [[nodiscard]] Point on_side(double s, double sign) const {
    return {(s - r) * std::cos(angle), sign * s * std::sin(angle)};
  }
  [[nodiscard]] double radius(double s) const { return s * std::sin(angle); }
  [[nodiscard]] FormRing ring(double s) const {
    return {s - r,
            on_side(s, -1.0),
            on_side(s, 1.0),
            {{0.0, 0.0, 0.0}, 2.0 * radius(s), 2.0 * radius(s)}};
  }
  [[nodiscard]] BodyForm form() const {
    BodyForm f;
    constexpr int kRings = 40;
    for (int i = 0; i <= kRings; ++i) f.torso.push_back(ring(r + back * i / kRings));
    f.girth_ring = kRings / 3;
    const double neck = std::min(0.4 * r, 0.3 * back);
    for (int i = 0; i <= 6; ++i) f.neck.push_back(ring(r - neck * i / 6));
    f.throat = on_side(r, 1.0);
    f.breastbone = on_side(r + c, 1.0);
    return f;
  }
  // Half the cone laid flat: the angle at its tip.
  [[nodiscard]] double whole() const { return pi * std::sin(angle); }
  [[nodiscard]] Point flat(double s, double a) const {
    return {s * std::cos(a) - r, s * std::sin(a)};
  }
  // The half sheet whose neckline turns by `psi`: an arc, then straight down centre front to e past
  // c, up to the side and back.
  [[nodiscard]] HalfCoat half(double psi, double e) const {
    const double drop = 0.7 * whole();
    HalfCoat coat;
    Polyline neckline, tail;
    constexpr int kSteps = 200;
    for (int i = 0; i <= kSteps; ++i) {
      neckline.push_back(flat(r, psi * (kSteps - i) / kSteps));
      tail.push_back(flat(r + back, drop * i / kSteps));
    }
    const Point low = flat(r + c + e, psi), side = flat(r + 0.35 * back, drop);
    coat.sides = {{{0.0, 0.0}, {back, 0.0}}, tail,    {tail.back(), side}, {side, low},
                  {low, neckline.front()},   neckline};
    coat.breastbone = flat(r + c, psi);
    return coat;
  }
};
constexpr double kDegree = pi / 180.0;
// R = 300, half-angle 25 degrees, B = 600, c = 90: the neckline turns by 76.0713 degrees.
constexpr Cone kCone = {300.0, 600.0, 90.0, 25.0 * kDegree};
constexpr double kEnd = 60.0;  // centre front ends past the breastbone

TEST(OnTheDog, ACoatOfAConeLiesOnTheCone) {
  EXPECT_NEAR(kCone.whole() / kDegree, 76.0713, 1e-4);
  const Stand stand = stand_of(kCone.form());
  const OnTheDog seen = try_on(kCone.half(kCone.whole(), kEnd), stand);
  EXPECT_NEAR(seen.ring, 1.0, 0.002);
  EXPECT_NEAR(seen.gape, 0.0, 1.5);
  EXPECT_NEAR(seen.gape_at_neck, 0.0, 1.5);
  // Worn, its weight moves it by up to 6 thousandths of the girth of 1314 mm.
  EXPECT_LT(seen.breastbone_off, 8.0);
  EXPECT_NEAR(seen.front_below, kEnd, 8.0);
  EXPECT_NEAR(seen.throat_sag, 0.0, 8.0);
  EXPECT_LT(seen.side_sag, 8.0);
  EXPECT_LT(seen.strain95, 0.005);
}

TEST(OnTheDog, ACoatOfABarrelLiesOnTheBarrel) {
  const double tip = 60000.0;
  const Cone barrel = {tip, 500.0, 90.0, std::asin(100.0 / tip)};
  const Stand stand = stand_of(barrel.form());
  const OnTheDog seen = try_on(barrel.half(barrel.whole(), kEnd), stand);
  EXPECT_NEAR(seen.ring, 1.0, 0.002);
  EXPECT_NEAR(seen.gape, 0.0, 1.5);
  EXPECT_LT(seen.breastbone_off, 5.0);
  EXPECT_NEAR(seen.front_below, kEnd, 3.0);
  EXPECT_LT(seen.strain95, 0.005);
}

TEST(OnTheDog, AWrongFrontGapesByWhatGeometrySays) {
  const Stand stand = stand_of(kCone.form());
  for (const double wrong : {-0.25, -0.1, 0.1, 0.2}) {
    const double psi = kCone.whole() + wrong;
    const OnTheDog seen = try_on(kCone.half(psi, kEnd), stand);
    const double missing = pi * (1.0 - psi / kCone.whole());  // round the axis
    const double low = kCone.r + kCone.c + kEnd;
    EXPECT_NEAR(seen.gape, kCone.radius(low) * std::sin(missing), 2.5) << wrong;
    EXPECT_NEAR(seen.gape_at_neck, kCone.radius(kCone.r) * std::sin(missing), 2.5) << wrong;
    // Its ring from N, by the triangle N, tip, end.
    const auto across = [&](double a) {
      return std::sqrt(kCone.r * kCone.r + low * low - 2.0 * kCone.r * low * std::cos(a));
    };
    EXPECT_NEAR(seen.ring, across(psi) / across(kCone.whole()), 0.003) << wrong;
    EXPECT_GT(seen.front_strain95, wrong < -0.2 ? 0.05 : 0.0) << wrong;
  }
}

TEST(OnTheDog, CentreFrontThatRunsAskewGapesAtItsEndAlone) {
  // As the tabs of an earlier front did: right at the neckline, and off by 30 degrees below.
  HalfCoat coat = kCone.half(kCone.whole(), kEnd);
  const Point f = coat.sides[HalfCoat::CentreFront].back();
  const Vec down = coat.sides[HalfCoat::CentreFront].front() - f;
  const double turn = 30.0 * kDegree;
  const Point low = f + Vec{down.x * std::cos(turn) + down.y * std::sin(turn),
                            -down.x * std::sin(turn) + down.y * std::cos(turn)};
  coat.sides[HalfCoat::CentreFront].front() = coat.sides[HalfCoat::FrontEdge].back() = low;
  const Point tip = {-kCone.r, 0.0};
  const Vec from_tip = low - tip;
  const double missing =
      pi - std::atan2(from_tip.y, from_tip.x) / std::sin(kCone.angle);  // round the axis
  const OnTheDog seen = try_on(coat, stand_of(kCone.form()));
  EXPECT_GT(seen.gape, 30.0);
  EXPECT_NEAR(seen.gape, kCone.radius(length(from_tip)) * std::sin(missing), 2.5);
  EXPECT_NEAR(seen.gape_at_neck, 0.0, 2.5);
  EXPECT_LT(seen.ring, 0.95);
}

TEST(OnTheDog, ASheetLongerThanToTheWidestPlaceHangsPlumb) {
  const double tip = 60000.0, radius = 100.0, over = 80.0;
  const Cone barrel = {tip, 500.0, 90.0, std::asin(radius / tip)};
  const Stand stand = stand_of(barrel.form());
  const double drop = 0.5 * pi * radius + over;
  const Cloth cloth = cloth_of(mesh_of({{{50.0, 0.0}, {350.0, 0.0}},
                                        {{350.0, 0.0}, {350.0, drop}},
                                        {{350.0, drop}, {50.0, drop}},
                                        {{50.0, drop}, {50.0, 0.0}}},
                                       18.0));
  const std::vector<const Obstacle*> solids = {&stand.trunk};
  Laying laying{&solids, 0.0, 0.001 / radius, std::vector<Held>(cloth.flat.at.size())};
  for (const int v : cloth.flat.sides[0]) laying.held[static_cast<size_t>(v)].place = true;
  std::vector<Vec3> start;
  for (const Point p : cloth.flat.at) {
    const double a = p.y / radius;
    start.push_back({p.x, -radius * std::cos(a), radius * std::sin(a)});
  }
  const Laid laid = lay(cloth, start, laying);
  for (const int v : cloth.flat.sides[2]) {
    const Vec3 p = laid.at[static_cast<size_t>(v)];
    EXPECT_NEAR(p.y, over, 3.0);
    EXPECT_NEAR(p.z, radius, 5.0);
  }
}

TEST(Obstacle, DistanceToAConeIsThatOfTheCone) {
  const Stand stand = stand_of(kCone.form());
  int n = 0;
  for (double s = 320.0; s < 780.0; s += 32.0) {
    for (double a = 0.1; a < 3.1; a += 0.21) {
      for (const double off : {-30.0, -5.0, 0.0, 5.0, 40.0}) {
        const double across = kCone.radius(s) + off * std::cos(kCone.angle);
        const Vec3 p = {(s - kCone.r) * std::cos(kCone.angle) - off * std::sin(kCone.angle),
                        -across * std::cos(a), across * std::sin(a)};
        const Obstacle::Near near = stand.trunk.near(p);
        EXPECT_NEAR(near.distance, off, 0.6) << s << " " << a;
        EXPECT_NEAR(length(near.outward), 1.0, 0.05);
        ++n;
      }
    }
  }
  EXPECT_GT(n, 1000);
}

TEST(Obstacle, ATautTapeIsTheStraightLineOfTheConeLaidFlat) {
  const Stand stand = stand_of(kCone.form());
  for (const double turn : {0.3, 0.7, 1.0}) {
    const double a = 500.0, b = 700.0;
    const double round = turn / std::sin(kCone.angle);
    const auto at = [&](double s, double angle) {
      return Vec3{(s - kCone.r) * std::cos(kCone.angle), -kCone.radius(s) * std::cos(angle),
                  kCone.radius(s) * std::sin(angle)};
    };
    const double flat = std::sqrt(a * a + b * b - 2.0 * a * b * std::cos(turn));
    EXPECT_NEAR(
        length_of(taut(stand.trunk, at(a, 0.1), at(600.0, 0.1 + 0.5 * round), at(b, 0.1 + round))),
        flat, 0.003 * flat)
        << turn;
  }
}

TEST(Obstacle, ATautTapeBridgesAHollow) {
  // Two cones tip to tip, cut off at the waist.
  BodyForm form;
  for (int i = 0; i <= 40; ++i) {
    const double x = 10.0 * i, r = 60.0 + 0.3 * std::abs(x - 200.0);
    form.torso.push_back({x, {x, -r}, {x, r}, {{0.0, 0.0, 0.0}, 2.0 * r, 2.0 * r}});
  }
  form.girth_ring = 10;
  const Stand stand = stand_of(form);
  const Vec3 a = form.torso[5].at(0.5 * pi), b = form.torso[35].at(0.5 * pi);
  EXPECT_NEAR(length_of(taut(stand.trunk, a, form.torso[20].at(0.5 * pi), b)), distance(a, b), 0.1);
}

TEST(FlatMesh, FillsItsOutlineWithTrianglesOfItsSize) {
  const HalfCoat coat = kCone.half(kCone.whole(), kEnd);
  Polyline outline;
  for (const Polyline& side : coat.sides)
    outline.insert(outline.end(), side.begin(), side.end() - 1);
  for (const double size : {12.0, 20.0, 35.0, 52.0}) {
    const FlatMesh mesh = mesh_of(coat.sides, size);
    double area = 0.0;
    for (const auto& t : mesh.triangles) {
      const auto p = [&](size_t i) { return mesh.at[static_cast<size_t>(t[i])]; };
      const double twice = cross(p(1) - p(0), p(2) - p(0));
      EXPECT_GT(twice, 0.0);
      for (size_t e = 0; e < 3; ++e) EXPECT_LT(distance(p(e), p((e + 1) % 3)), 2.2 * size);
      area += 0.5 * twice;
    }
    EXPECT_NEAR(area, signed_area(outline), 0.01 * signed_area(outline)) << size;
    for (size_t s = 0; s < coat.sides.size(); ++s) {
      EXPECT_LT(
          distance(mesh.at[static_cast<size_t>(mesh.sides[s].front())], coat.sides[s].front()),
          1e-9);
      EXPECT_LT(distance(mesh.at[static_cast<size_t>(mesh.sides[s].back())], coat.sides[s].back()),
                1e-9);
    }
  }
}

TEST(Strain, IsThatOfTheMap) {
  const Cloth cloth = cloth_of(mesh_of(
      {{{0, 0}, {100, 0}}, {{100, 0}, {100, 80}}, {{100, 80}, {0, 80}}, {{0, 80}, {0, 0}}}, 15.0));
  std::vector<Vec3> at;
  for (const Point p : cloth.flat.at) at.push_back({1.1 * p.x, 0.8 * p.y, 0.6 * p.y});
  for (const Strain& s : strains(cloth, at)) {
    EXPECT_NEAR(s.most, 0.1, 1e-9);
    EXPECT_NEAR(s.least, 0.0, 1e-9);
  }
  // A shear by s stretches by s/2 one way and shortens by as much the other, for a small s.
  at.clear();
  for (const Point p : cloth.flat.at) at.push_back({p.x + 0.02 * p.y, p.y, 5.0});
  for (const Strain& s : strains(cloth, at)) {
    EXPECT_NEAR(s.most, 0.01, 1e-4);
    EXPECT_NEAR(s.least, -0.01, 1e-4);
  }
}

OnTheDog tried(const Tape& tape, const Trying& how = {}) {
  const auto made = make_pattern(assess(tape), {});
  const Body& body = made.result->body;
  return try_on(half_coat(made.result->draft),
                stand_of(make_form(body, usual_form_shape(body.build))), how);
}

TEST(OnTheDog, AMeshTwiceAsFineShowsTheSame) {
  const Tape& tape = hard_dog("ordinary");
  const double chest = tape.of(Measure::Chest).front();
  const OnTheDog coarse = tried(tape),
                 fine = tried(tape, {.mesh = 1.0 / (kAllAsked ? 72.0 : 44.0)});
  EXPECT_NEAR(coarse.gape, fine.gape, 0.012 * chest);
  EXPECT_NEAR(coarse.breastbone_off, fine.breastbone_off, 0.01 * chest);
  EXPECT_NEAR(coarse.front_below, fine.front_below, 0.01 * chest);
  EXPECT_NEAR(coarse.throat_sag, fine.throat_sag, 0.01 * chest);
  EXPECT_NEAR(coarse.hem_below, fine.hem_below, 0.02 * chest);
  EXPECT_NEAR(coarse.strain95, fine.strain95, 0.01);
}

// Sights out of their bounds, each with its figure; none: the coat is a good one.
template <class Seen>
std::string faults(const std::vector<Sight<Seen>>& bounds, const Seen& seen, double chest,
                   bool odd_dog) {
  std::string out;
  for (const Sight<Seen>& s : bounds) {
    const double value = seen.*s.value;
    if (!s.holds(value, chest, odd_dog))
      out += std::string(" ") + s.name + " " + std::to_string(value);
  }
  return out;
}
std::string faults(const OnTheDog& seen, double chest, bool odd_dog) {
  return faults(sights(), seen, chest, odd_dog);
}

// The whole lot takes minutes: on demand.
bool tries_all() { return std::getenv("COATWRIGHT_TRY_ALL") != nullptr; }

TEST(OnTheDog, TenDogsWearTheirCoatsWithinEveryBound) {
  for (const NamedDog& dog : asked_of(ten_dogs())) {
    EXPECT_EQ(faults(tried(dog.tape), dog.tape.of(Measure::Chest).front(), false), "") << dog.name;
  }
}

TEST(OnTheDog, DogsOfThePopulationWearTheirCoatsWithinEveryBound) {
  const std::vector<Tape> dogs = population(300, 14);
  for (size_t i = 0; i < dogs.size(); i += tries_all() ? 1 : 25 * kOneIn) {
    EXPECT_EQ(faults(tried(dogs[i]), dogs[i].of(Measure::Chest).front(), true), "") << "dog " << i;
  }
}

// As the form has it: neck, breast tape and the throat that goes with the neck's lean.
OnTheDog tried_with_its_throat(const Tape& tape, double lean) {
  const Body usual = *assess(tape).result;
  FormShape shape = usual_form_shape(usual.build);
  shape.neck_lean = lean * kDegree;
  const BodyForm form = make_form(usual, shape);
  Tape read = tape;
  read.of(Measure::Throat) = {distance(form.throat, form.breastbone)};
  const auto made = make_pattern(assess(read), {});
  return try_on(half_coat(made.result->draft), stand_of(make_form(made.result->body, shape)));
}

TEST(OnTheDog, CoatsLieWellOnDogsOfOtherShouldersAndElbowsToo) {
  for (const NamedDog& dog : ten_dogs()) {
    const bool one_of_few = dog.name == "ordinary" || (kAllAsked && dog.name == "bulldog");
    if (!tries_all() && !one_of_few) continue;
    const auto made = make_pattern(assess(dog.tape), {});
    const HalfCoat coat = half_coat(made.result->draft);
    const double chest = made.result->body.mm(Measure::Chest);
    for (const NamedShape& shape : asked_of(shapes_to_try(made.result->body, true))) {
      const OnTheDog seen = try_on(coat, stand_of(make_form(made.result->body, shape.shape)));
      EXPECT_EQ(faults(seen, chest, true), "") << dog.name << shape.name;
    }
  }
}

TEST(OnTheDog, ASighthoundsNeckHeldUprightIsWithinEveryBoundWhetherItsThroatWasReadOrNot) {
  const NamedDog dog = {"sighthound", hard_dog("sighthound")};
  const auto made = make_pattern(assess(dog.tape), {});
  const double chest = made.result->body.mm(Measure::Chest);
  FormShape shape = usual_form_shape(made.result->body.build);
  shape.neck_lean = 60.0 * kDegree;
  const BodyForm form = make_form(made.result->body, shape);
  EXPECT_EQ(faults(try_on(half_coat(made.result->draft), stand_of(form)), chest, true), "");
  EXPECT_EQ(faults(tried_with_its_throat(dog.tape, 60.0), chest, true), "");
}

TEST(OnTheDog, ASighthoundsStrapIsAsClearOfTheForelegAsABand) {
  const NamedDog dog = {"sighthound", hard_dog("sighthound")};
  const auto made = make_pattern(assess(dog.tape), {}, kStrapCoat);
  const Body& body = made.result->body;
  const Stand stand = stand_of(make_form(body, usual_form_shape(body.build)));
  const OnTheDog seen = try_on(half_coat(made.result->draft), stand);
  EXPECT_EQ(faults(seen, body.mm(Measure::Chest), false), "");
}

TEST(OnTheDog, ADartInABroadShoulderTakesUpStrainWithinEveryBound) {
  Choices darts;
  darts.set(kShaping, 1.0);
  darts.set(kHemDart, 0.0);
  const std::vector<const char*> broad = {"bulldog", "shortest back"};
  for (const char* name : asked_of(broad)) {
    const std::vector<NamedDog> dogs = ten_dogs();
    const NamedDog& dog =
        *std::find_if(dogs.begin(), dogs.end(), [&](const NamedDog& d) { return d.name == name; });
    const auto made = make_pattern(assess(dog.tape), darts);
    const Body& body = made.result->body;
    const HalfCoat coat = half_coat(made.result->draft);
    ASSERT_TRUE(coat.has_dart()) << name;
    const Stand stand = stand_of(make_form(body, usual_form_shape(body.build)));
    const OnTheDog seen = try_on(coat, stand);
    EXPECT_EQ(faults(seen, body.mm(Measure::Chest), false), "") << name;
    EXPECT_LT(seen.front_strain95, 0.9 * tried(dog.tape).front_strain95) << name;
  }
}

// Its legs are one line, with cloth on both sides of it but at the mouth's end.
TEST(OnTheDog, ADartThatIsSewnIsOneLineInTheCloth) {
  Choices darts;
  darts.set(kShaping, 1.0);
  const auto made = make_pattern(assess(hard_dog("bulldog")), darts);
  const HalfCoat coat = half_coat(made.result->draft);
  const double leg = polyline_length(coat.sides[HalfCoat::Leg]);
  EXPECT_NEAR(polyline_length(coat.sides[HalfCoat::OtherLeg]), leg, 1e-6);
  std::vector<int> steps(coat.sides.size(), 0);
  steps[HalfCoat::Leg] = steps[HalfCoat::OtherLeg] = 6;
  const FlatMesh open = mesh_of(coat.sides, leg / 6);
  const Cloth cloth =
      with_dart_sewn(mesh_of(coat.sides, leg / 6, steps), HalfCoat::Leg, HalfCoat::OtherLeg);
  std::vector<int> back = cloth.flat.sides[HalfCoat::OtherLeg];
  std::reverse(back.begin(), back.end());
  EXPECT_EQ(cloth.flat.sides[HalfCoat::Leg], back);
  const auto of = [](const Cloth::Thread& t, int a, int b) {
    return t.a == std::min(a, b) && t.b == std::max(a, b);
  };
  for (size_t i = 1; i < back.size(); ++i) {
    const auto thread = std::find_if(cloth.threads.begin(), cloth.threads.end(),
                                     [&](const auto& t) { return of(t, back[i - 1], back[i]); });
    ASSERT_NE(thread, cloth.threads.end());
    EXPECT_NEAR(thread->length, leg / 6, 1e-6);
  }
  double area = 0.0, flat_area = 0.0;
  for (const double a : cloth.area) area += a;
  for (const double a : cloth_of(open).area) flat_area += a;
  EXPECT_NEAR(area, flat_area, 0.001 * flat_area);
}

TEST(OnTheDog, TheFrontsOfCoatsWhoseThroatWasNotReadCloseAsLongAsTheBody) {
  for (const NamedDog& dog : ten_dogs()) {
    const auto made = make_pattern(assess(dog.tape), {});
    const Body& body = made.result->body;
    const Stand stand = stand_of(make_form(body, usual_form_shape(body.build)));
    const FrontRing round = front_ring(half_coat(made.result->draft), stand);
    EXPECT_NEAR(round.cloth / round.body, 1.0, 0.02) << dog.name;
  }
}

TEST(OnTheDog, ANeckCarriedHigherThanUsualStandsOutOfItsNeckline) {
  // Known: the neckline, drawn for the usual neck, lies that much below the collar's place.
  const auto made = make_pattern(assess(hard_dog("ordinary")), {});
  double before = -100.0;
  for (const double lean : {30.0, 45.0, 60.0}) {
    FormShape shape = usual_form_shape(made.result->body.build);
    shape.neck_lean = lean * kDegree;
    const double sag =
        try_on(half_coat(made.result->draft), stand_of(make_form(made.result->body, shape)))
            .throat_sag;
    EXPECT_GT(sag, before + 10.0);
    before = sag;
  }
  EXPECT_LT(before, 70.0);
}

TEST(OnTheDog, ANeckCarriedHigherWhoseThroatWasReadStandsInItsNeckline) {
  int tried = 0;
  for (const NamedDog& dog : ten_dogs()) {
    const bool one_of_few = dog.name == "ordinary" || (kAllAsked && dog.name == "bulldog");
    if (!tries_all() && !one_of_few) continue;
    const double chest = dog.tape.of(Measure::Chest).front();
    for (const double lean : {45.0, 60.0}) {
      const OnTheDog seen = tried_with_its_throat(dog.tape, lean);
      EXPECT_LT(seen.throat_sag, 0.03 * chest) << dog.name << lean;
      EXPECT_GT(seen.throat_sag, -0.03 * chest) << dog.name << lean;
      EXPECT_LT(std::abs(seen.gape), 40.0) << dog.name << lean;
      EXPECT_GT(seen.ring, 0.95) << dog.name << lean;
      EXPECT_LT(seen.ring, 1.06) << dog.name << lean;
      EXPECT_LT(seen.breastbone_off, 0.05 * chest) << dog.name << lean;
      EXPECT_LT(seen.hem_below, 0.0) << dog.name << lean;
      ++tried;
    }
  }
  EXPECT_GE(tried, kAllAsked ? 4 : 2);
}

TEST(OnTheDog, PanelsEndWhereTheUnderlineDoesAndGirthLinesMeet) {
  int n = 0;
  const std::vector<const char*> names = {"long-low", "giant", "shortest back", "small terrier"};
  for (const char* name : asked_of(names)) {
    const std::vector<NamedDog> dogs = ten_dogs();
    const NamedDog& dog =
        *std::find_if(dogs.begin(), dogs.end(), [&](const NamedDog& d) { return d.name == name; });
    const auto made = make_pattern(assess(dog.tape), {}, kUnderpanelCoat);
    ASSERT_TRUE(made.result.ok()) << name;
    const Body& body = made.result->body;
    const PanelOnTheDog seen =
        try_on(panel_coat(made.result->draft),
               stand_of(make_form(body, usual_form_shape(body.build))), belly_end(body), Trying{});
    EXPECT_EQ(faults(panel_sights(), seen, body.mm(Measure::Chest), false), "") << dog.name;
    ++n;
  }
  EXPECT_EQ(n, asked(4));
}

TEST(OnTheDog, TheBreastTapeOverTheSkinIsTheTautOneToAPartIn200) {
  for (const NamedDog& dog : ten_dogs()) {
    const Body body = *assess(dog.tape).result;
    const Stand stand = stand_of(make_form(body, usual_form_shape(body.build)));
    EXPECT_NEAR(taut_breast_tape(stand) / body.mm(Measure::Breast), 1.0, 0.005) << dog.name;
  }
}

}  // namespace
}  // namespace coatwright::test
