#include "tests/core/support/option_checks.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

constexpr double kTenth = 0.1;      // mm
constexpr double kClothOnly = 8.0;  // mm: what the cloth and not the dog decides, at the most

std::vector<const StyleInfo*> styles_with(const ChoiceInfo& choice) {
  std::vector<const StyleInfo*> out;
  for (const StyleInfo* s : styles()) {
    const auto& all = choices_of(*s);
    if (std::find(all.begin(), all.end(), &choice) != all.end()) out.push_back(s);
  }
  EXPECT_FALSE(out.empty()) << choice.id;
  return out;
}

int options_of(const ChoiceInfo& choice) { return static_cast<int>(choice.options.size()); }

void check_mirrored(const CutPiece& half) {
  if (!half.piece.on_fold) return;
  const CutPiece whole = opened(half);
  EXPECT_TRUE(is_simple(whole.cut)) << half.piece.id;
  EXPECT_NEAR(signed_area(whole.cut), 2 * signed_area(half.cut), 1e-6 * signed_area(half.cut));
  Polyline mirror = mirrored(whole.cut);
  std::reverse(mirror.begin() + 1, mirror.end());
  EXPECT_EQ(mirror, whole.cut) << half.piece.id;
}

}  // namespace

bool advised(const Findings& findings, std::string_view which) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
    return f.what.code == Code::Advice && f.what.other == which;
  });
}

void check_population(const ChoiceInfo& choice, std::initializer_list<const ChoiceInfo*> beside,
                      int of_all) {
  const std::vector<Tape> all = asked_of(population(of_all, 4711));
  const int dogs = static_cast<int>(all.size());
  for (const StyleInfo* style : styles_with(choice)) {
    Dice dice(5);
    int drafted = 0, promises = 0, tight = 0;
    for (size_t i = 0; i < all.size(); ++i) {
      const auto plain = make_pattern(assess(all[i]), {}, *style);
      ASSERT_TRUE(plain.result.ok()) << i;
      Choices choices;
      choices.set(choice, static_cast<int>(i) % options_of(choice));
      if (i % 2 == 1) {
        for (const ChoiceInfo* c : beside) {
          const ChoiceRange r = range_of(*c, plain.result->body);
          choices.set(*c,
                      c->named() ? dice.below(options_of(*c)) : dice.uniform(r.lowest, r.highest));
        }
      }
      const auto made = make_pattern(assess(all[i]), choices, *style);
      ASSERT_TRUE(made.result.ok()) << style->id << " dog " << i << ' '
                                    << told(made.result.problem()) << ' ' << told(*style, choices);
      ++drafted;
      for (const Invariant& v : made.result->draft.invariants) {
        ++promises;
        EXPECT_TRUE(v.holds(kTenth))
            << style->id << " dog " << i << ' ' << v.id << ' ' << v.wanted_mm << ' ' << v.got_mm;
      }
      for (const CutPiece& p : made.result->cut.pieces) {
        EXPECT_TRUE(is_simple(p.net) && is_simple(p.cut)) << p.piece.id;
        EXPECT_GT(signed_area(p.net), 0.0) << p.piece.id;
        check_mirrored(p);
        for (const Edge& e : p.piece.edges) {
          tight += i % 2 == 0 && smallest_radius(e.path, 16) < kTightestTurn;
        }
      }
      if (testing::Test::HasFailure()) FAIL() << style->id << " dog " << i;
    }
    EXPECT_EQ(drafted, dogs);
    EXPECT_GT(promises, 5 * dogs);
    EXPECT_EQ(tight, 0) << "turned edges at the sized choices";
  }
}

void check_scale(const ChoiceInfo& choice, int of_all) {
  const int dogs = asked(of_all);
  for (const StyleInfo* style : styles_with(choice)) {
    Dice dice(4);
    int compared = 0;
    for (int i = 0; i < dogs; ++i) {
      Choices choices;
      choices.set(choice, i % options_of(choice));
      const Tape tape = random_dog(dice);
      const double scale = dice.uniform(1.05, 1.3);
      const auto small = make_pattern(assess(tape), choices, *style);
      const auto large = make_pattern(assess(scaled(tape, scale)), choices, *style);
      if (!large.result.ok()) continue;  // scaled past the entry limits
      ASSERT_TRUE(small.result.ok());
      const auto &a = small.result->draft, &b = large.result->draft;
      ASSERT_EQ(a.pieces.size(), b.pieces.size());
      for (size_t k = 0; k < a.pieces.size(); ++k) {
        const Piece &p = a.pieces[k], &q = b.pieces[k];
        if (p.layer == Layer::Webbing) continue;  // as wide as it is sold
        // Pieces that are larger than their partners by the turn of cloth.
        const bool turned = std::any_of(p.edges.begin(), p.edges.end(),
                                        [](const Edge& e) { return e.ease_mm != 0.0; });
        // A flap has a least room for its seam, and the pocket below it what is left.
        const bool below_flap = find_piece(a, "flap") != nullptr &&
                                (p.id.starts_with("flap") || p.id.starts_with("pocket"));
        const double cloth = below_flap ? 2.0 * kClothOnly : turned || p.single ? kClothOnly : 0.0;
        const double off = cloth > 0.0 ? cloth * (scale - 1.0) : 1e-3;
        ASSERT_EQ(p.edges.size(), q.edges.size());
        for (size_t e = 0; e < p.edges.size(); ++e) {
          const Point from = p.edges[e].path.back(), to = q.edges[e].path.back();
          EXPECT_LT(distance({scale * from.x, scale * from.y}, to), off) << p.edges[e].id;
        }
        // Tape is as wide as it is sold: a larger dog may have room for one that a smaller has not.
        const auto of_size = [](const Piece& piece) {
          return std::count_if(piece.marks.begin(), piece.marks.end(), [](const Mark& m) {
            return !m.label.starts_with("mark.reflective");
          });
        };
        ASSERT_EQ(of_size(p), of_size(q)) << p.id;
      }
      ++compared;
    }
    EXPECT_GT(compared, dogs / 2);
  }
}

namespace {

double moved_by(const Mark& a, const Mark& b) {
  const Rect r = bounds(a.line), s = bounds(b.line);
  return std::max(
      {std::abs(r.x0 - s.x0), std::abs(r.x1 - s.x1), std::abs(r.y0 - s.y0), std::abs(r.y1 - s.y1)});
}

// Of marks that are alike in both.
double farthest_mark(const std::vector<Piece>& a, const std::vector<Piece>& b) {
  double most = 0.0;
  for (size_t k = 0; k < a.size(); ++k) {
    for (size_t m = 0; m < a[k].marks.size(); ++m) {
      most = std::max(most, moved_by(a[k].marks[m], b[k].marks[m]));
    }
  }
  return most;
}

}  // namespace

void check_continuity(const ChoiceInfo& choice, std::initializer_list<Measure> readings, int of_all,
                      double most_mm) {
  const int dogs = asked(of_all);
  for (const StyleInfo* style : styles_with(choice)) {
    Dice dice(9);
    int moved = 0, stepped = 0, jumped = 0;
    double most = 0.0;
    for (int i = 0; i < dogs; ++i) {
      Choices choices;
      choices.set(choice, i % options_of(choice));
      const Tape tape = random_dog(dice);
      Tape other = tape;
      auto& reading = other.of(*(readings.begin() + dice.below(static_cast<int>(readings.size()))));
      if (reading.empty()) continue;
      reading[0] += dice.chance(0.5) ? 1.0 : -1.0;
      const auto before = make_pattern(assess(tape), choices, *style);
      const auto after = make_pattern(assess(other), choices, *style);
      if (!before.result.ok() || !after.result.ok()) continue;  // stepped over an entry limit
      const auto &a = before.result->draft.pieces, &b = after.result->draft.pieces;
      const bool alike = std::equal(
          a.begin(), a.end(), b.begin(), b.end(),
          [](const Piece& p, const Piece& q) { return p.marks.size() == q.marks.size(); });
      const bool told =
          !std::equal(before.findings.begin(), before.findings.end(), after.findings.begin(),
                      after.findings.end(), [](const Finding& f, const Finding& g) {
                        return f.what.code == g.what.code && f.what.other == g.what.other;
                      });
      // One of them has no room for something, or only for less of it, and says so.
      const bool jumps = alike && told && farthest_mark(a, b) >= most_mm;
      if (!alike || jumps) {
        ++(jumps ? jumped : stepped);
        EXPECT_TRUE(told) << style->id << " dog " << i;
        continue;
      }
      for (size_t k = 0; k < a.size(); ++k) {
        ASSERT_EQ(a[k].edges.size(), b[k].edges.size());
        for (size_t e = 0; e < a[k].edges.size(); ++e) {
          const Path &p = a[k].edges[e].path, &q = b[k].edges[e].path;
          const double d = std::max(distance(p.front(), q.front()), distance(p.back(), q.back()));
          most = std::max(most, d);
          EXPECT_LT(d, most_mm) << style->id << " dog " << i << ' ' << a[k].edges[e].id;
        }
        ASSERT_EQ(a[k].marks.size(), b[k].marks.size()) << a[k].id;
        for (size_t m = 0; m < a[k].marks.size(); ++m) {
          EXPECT_LT(moved_by(a[k].marks[m], b[k].marks[m]), most_mm)
              << style->id << " dog " << i << ' ' << a[k].marks[m].label;
        }
      }
      ++moved;
      if (testing::Test::HasFailure()) FAIL() << style->id << " dog " << i;
    }
    EXPECT_GT(moved, dogs / 3);
    EXPECT_LT(stepped, 1 + of_all / 200);
    EXPECT_LE(jumped, of_all / 500);
    EXPECT_GT(most, 0.3) << "readings do move the draft";
  }
}

}  // namespace coatwright::test
