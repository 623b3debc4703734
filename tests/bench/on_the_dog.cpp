// Coats tried on the body form of their dogs, as a table to be read by a person; tests hold the
// bounds (tests/core/drape/on_the_dog_test.cpp). Prints one line a dog, style and shape, then how
// each measure lies over all lines, and who is out of its bounds: first the styles that close on the
// breast, then the underpanel coat, which shows other things.
//
//   on_the_dog                    the ten named dogs
//   on_the_dog 300                dogs of the population
//   on_the_dog 10 --vary          each also with other shoulders, necks and elbows than usual
//   on_the_dog 10 --pictures DIR  and an SVG of each: from the side, from ahead, from above
//   on_the_dog 10 --only WORD     only lines with WORD in their name
//   on_the_dog 10 --dart          with a dart in each shoulder
#include "tests/core/support/on_the_dog.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <map>
#include <numbers>
#include <string>

#include "core/draft/belly.h"
#include "core/draft/options/shaping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

struct Lines {
  const Laid* laid;
  const char* colour;
};

void picture(const std::string& file, const Stand& stand, const Cloth& cloth,
             std::initializer_list<Lines> lines) {
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
    for (const auto& t : cloth.flat.triangles) {
      std::vector<Vec3> points;
      for (const size_t i : {0u, 1u, 2u, 0u}) {
        points.push_back((lines.end() - 1)->laid->at[static_cast<size_t>(t[i])]);
      }
      line(points, "#36c", 0.5);
    }
    for (const auto& [laid, colour] : lines) {
      for (const auto& side : cloth.flat.sides) {
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

// The lines of one kind of coat, and how what is seen lies over all of them.
template <class Seen>
class Table {
 public:
  explicit Table(const std::vector<Sight<Seen>>& sights) : sights_(sights) {
    std::printf("%-42s", "");
    for (const Sight<Seen>& s : sights_) std::printf("%7s ", s.name);
    std::printf("\n");
  }
  void add(const std::string& name, double chest, const Seen& seen) {
    std::printf("%-42s", name.c_str());
    for (const Sight<Seen>& s : sights_) {
      const double value = seen.*s.value;
      const bool good = s.holds(value, chest);
      std::printf(s.share ? "%7.3f%c" : "%7.1f%c", value, good ? ' ' : '*');
      all_[s.name].push_back(value);
      out_of_bounds_[s.name] += good ? 0 : 1;
    }
    std::printf("\n");
  }
  void refuse(const std::string& name, const Problem& why) {
    std::printf("%-42s refused, %s\n", name.c_str(), code_name(why.code));
    ++refused_;
  }
  void sum_up() {
    std::printf("\n%-12s %8s %8s %8s %8s %8s   out of bounds\n", "", "least", "5 %", "half", "95 %",
                "most");
    for (const Sight<Seen>& s : sights_) {
      std::vector<double>& v = all_[s.name];
      if (v.empty()) continue;
      std::sort(v.begin(), v.end());
      const auto at = [&](double share) {
        return v[static_cast<size_t>(share * static_cast<double>(v.size() - 1) + 0.5)];
      };
      std::printf("%-12s %8.3f %8.3f %8.3f %8.3f %8.3f   %d of %zu\n", s.name, at(0), at(0.05),
                  at(0.5), at(0.95), at(1), out_of_bounds_[s.name], v.size());
    }
    std::printf("refused: %d\n\n", refused_);
  }

 private:
  const std::vector<Sight<Seen>>& sights_;
  std::map<std::string, std::vector<double>> all_;
  std::map<std::string, int> out_of_bounds_;
  int refused_ = 0;
};

}  // namespace
}  // namespace coatwright::test

int main(int argc, char** argv) {
  using namespace coatwright;
  using namespace coatwright::test;
  int count = 10;
  bool vary = false;
  Choices choices;
  std::string pictures, only;
  for (int i = 1; i < argc; ++i) {
    if (std::strcmp(argv[i], "--vary") == 0) {
      vary = true;
    } else if (std::strcmp(argv[i], "--dart") == 0) {
      choices.set(kShaping, 1.0);
      choices.set(kHemDart, 0.0);
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
  // Each coat of the style, on each shape that is asked for.
  const auto each = [&](const StyleInfo& style, auto& table, auto&& try_and_draw) {
    for (const NamedDog& dog : dogs) {
      const std::string coat = dog.name + ", " + style.id;
      const auto made = make_pattern(assess(dog.tape), choices, style);
      if (!made.result) {
        table.refuse(coat, made.result.problem());
        continue;
      }
      for (const NamedShape& shape : shapes_to_try(made.result->body, vary)) {
        const std::string name = coat + shape.name;
        if (name.find(only) == std::string::npos) continue;
        const Stand stand = stand_of(make_form(made.result->body, shape.shape));
        const std::string file = pictures.empty() ? "" : pictures + "/" + name + ".svg";
        table.add(name, stand.chest, try_and_draw(*made.result, stand, file));
      }
    }
  };
  Table<OnTheDog> fronts(sights());
  for (const StyleInfo* style : {&kWrapCoat, &kStrapCoat}) {
    each(*style, fronts, [](const Pattern& p, const Stand& stand, const std::string& file) {
      OnTheDog seen = try_on(half_coat(p.draft), stand);
      if (!file.empty()) {
        picture(file, stand, seen.cloth, {{&seen.free, "#e80"}, {&seen.worn, "#c00"}});
      }
      return seen;
    });
  }
  fronts.sum_up();
  Table<PanelOnTheDog> panels(panel_sights());
  each(kUnderpanelCoat, panels, [](const Pattern& p, const Stand& stand, const std::string& file) {
    PanelOnTheDog seen = try_on(panel_coat(p.draft), stand, belly_end(p.body), Trying{});
    if (!file.empty()) picture(file, stand, seen.cloth, {{&seen.worn, "#c00"}});
    return seen;
  });
  panels.sum_up();
  return 0;
}
