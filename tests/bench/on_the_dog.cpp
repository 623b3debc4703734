// Coats tried on the body form of their dogs, as a table to be read by a person; tests hold the
// bounds (tests/core/drape/on_the_dog_test.cpp). Prints one line a dog, style and shape, then how
// each measure lies over all lines, and who is out of its bounds.
//
//   on_the_dog                    the ten named dogs in the styles that close on the breast
//   on_the_dog 300                dogs of the population
//   on_the_dog 10 --vary          each also with other shoulders, necks and elbows than usual
//   on_the_dog 10 --pictures DIR  and an SVG of each: from the side, from ahead, from above
//   on_the_dog 10 --only WORD     only lines with WORD in their name
#include "tests/core/support/on_the_dog.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <map>
#include <numbers>
#include <string>

#include "core/pattern/pattern.h"
#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

void picture(const std::string& file, const Stand& stand, const OnTheDog& seen) {
  std::FILE* out = std::fopen(file.c_str(), "wb");
  if (out == nullptr) return;
  const double g = stand.chest;
  std::fprintf(out,
               "<svg xmlns='http://www.w3.org/2000/svg' viewBox='%.0f %.0f %.0f %.0f' width='1500'>"
               "<rect x='%.0f' y='%.0f' width='100%%' height='100%%' fill='white'/>\n",
               -0.4 * g, -1.2 * g, 2.2 * g, 1.5 * g, -0.4 * g, -1.2 * g);
  struct View {
    Vec3 right, down;
    double x, y;
  };
  const View views[] = {{{1, 0, 0}, {0, 1, 0}, 0.0, 0.0},
                        {{0, 0, 1}, {0, 1, 0}, 1.5 * g, 0.0},
                        {{1, 0, 0}, {0, 0, -1}, 0.0, 0.1 * g}};
  for (const View& v : views) {
    const auto line = [&](const std::vector<Vec3>& points, const char* colour, double width) {
      std::fprintf(out, "<polyline fill='none' stroke='%s' stroke-width='%.2f' points='", colour,
                   width * g / 700.0);
      for (const Vec3& p : points) {
        std::fprintf(out, "%.1f,%.1f ", v.x + dot(v.right, p), v.y + dot(v.down, p));
      }
      std::fprintf(out, "'/>\n");
    };
    const auto rings = [&](const std::vector<FormRing>& list, double at, const char* colour) {
      for (const FormRing& ring : list) {
        std::vector<Vec3> points;
        for (int i = 0; i <= 48; ++i) {
          const double t = 2.0 * std::numbers::pi * i / 48;
          Vec3 p = ring.at(std::min(t, 2.0 * std::numbers::pi - t));
          if (t > std::numbers::pi) p.z = -p.z;
          p.z += at;
          points.push_back(p);
        }
        line(points, colour, 1.0);
      }
    };
    rings(stand.form.torso, 0.0, "#bbb");
    rings(stand.form.neck, 0.0, "#ddc");
    rings(stand.form.foreleg, stand.form.foreleg_out, "#aca");
    for (const auto& t : seen.cloth.flat.triangles) {
      std::vector<Vec3> points;
      for (const size_t i : {0u, 1u, 2u, 0u}) {
        points.push_back(seen.worn.at[static_cast<size_t>(t[i])]);
      }
      line(points, "#36c", 0.5);
    }
    for (const auto& [laid, colour] :
         {std::pair{&seen.free, "#e80"}, std::pair{&seen.worn, "#c00"}}) {
      for (const auto& side : seen.cloth.flat.sides) {
        std::vector<Vec3> points;
        for (const int i : side) points.push_back(laid->at[static_cast<size_t>(i)]);
        line(points, colour, 2.0);
      }
    }
    const Point b = stand.form.breastbone, q = stand.form.throat;
    for (const Point p : {b, q}) {
      const Vec3 c = {p.x, p.y, 0.0};
      std::fprintf(out, "<circle cx='%.1f' cy='%.1f' r='%.1f' fill='black'/>\n",
                   v.x + dot(v.right, c), v.y + dot(v.down, c), 0.008 * g);
    }
  }
  std::fprintf(out, "</svg>\n");
  std::fclose(out);
}

std::map<std::string, std::vector<double>> all;
std::map<std::string, std::vector<std::string>> out_of_bounds;
int refused = 0;

void print_line(const std::string& name, double chest, const OnTheDog& seen) {
  std::printf("%-42s", name.c_str());
  for (const Sight& s : sights()) {
    const double value = seen.*s.value;
    const bool good = s.holds(value, chest);
    std::printf(s.share ? "%7.3f%c" : "%7.1f%c", value, good ? ' ' : '*');
    all[s.name].push_back(value);
    if (!good) out_of_bounds[s.name].push_back(name);
  }
  std::printf("\n");
}

void summary() {
  std::printf("\n%-12s %8s %8s %8s %8s %8s   out of bounds\n", "", "least", "5 %", "half", "95 %",
              "most");
  for (const Sight& s : sights()) {
    std::vector<double>& v = all[s.name];
    if (v.empty()) continue;
    std::sort(v.begin(), v.end());
    const auto at = [&](double share) {
      return v[static_cast<size_t>(share * static_cast<double>(v.size() - 1) + 0.5)];
    };
    std::printf("%-12s %8.3f %8.3f %8.3f %8.3f %8.3f   %zu of %zu\n", s.name, at(0), at(0.05),
                at(0.5), at(0.95), at(1), out_of_bounds[s.name].size(), v.size());
  }
  std::printf("refused: %d\n", refused);
}

}  // namespace
}  // namespace coatwright::test

int main(int argc, char** argv) {
  using namespace coatwright;
  using namespace coatwright::test;
  int count = 10;
  bool vary = false;
  std::string pictures, only;
  for (int i = 1; i < argc; ++i) {
    if (std::strcmp(argv[i], "--vary") == 0) {
      vary = true;
    } else if (std::strcmp(argv[i], "--pictures") == 0 && i + 1 < argc) {
      pictures = argv[++i];
    } else if (std::strcmp(argv[i], "--only") == 0 && i + 1 < argc) {
      only = argv[++i];
    } else {
      count = std::atoi(argv[i]);
    }
  }
  std::vector<NamedDog> dogs = ten_dogs();
  if (count != 10) {
    dogs.clear();
    for (const Tape& tape : population(count, 14)) {
      dogs.push_back({"dog " + std::to_string(dogs.size()), tape});
    }
  }
  std::printf("%-42s", "");
  for (const Sight& s : sights()) std::printf("%7s ", s.name);
  std::printf("\n");
  for (const NamedDog& dog : dogs) {
    for (const StyleInfo* style : {&kWrapCoat, &kStrapCoat}) {
      const auto made = make_pattern(assess(dog.tape), {}, *style);
      for (const auto& [shape_name, shape] :
           made.result ? shapes_to_try(made.result->body, vary) : std::vector<NamedShape>{}) {
        const std::string name = dog.name + ", " + style->id + shape_name;
        if (name.find(only) == std::string::npos) continue;
        const Stand stand = stand_of(make_form(made.result->body, shape));
        const OnTheDog seen = try_on(half_coat(made.result->draft), stand);
        print_line(name, stand.chest, seen);
        if (!pictures.empty()) picture(pictures + "/" + name + ".svg", stand, seen);
      }
      refused += made.result ? 0 : 1;
      if (!made.result) {
        std::printf("%s, %s: refused, %s\n", dog.name.c_str(), style->id,
                    code_name(made.result.problem().code));
      }
    }
  }
  summary();
  return 0;
}
