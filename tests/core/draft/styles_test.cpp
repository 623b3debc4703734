// What holds of every style with every pair of its options: promises, outlines, seams.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

constexpr double kTenth = 0.1;  // mm

using test::told;

// Every style with every pair of options on `dogs` dogs each, as far as they are asked: check(style,
// choices, pattern).
template <class F>
void for_every_combination(int dogs, F&& check) {
  const std::vector<Tape> all = test::population(400, 77);
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      for (int i = 0; i < test::asked(dogs); ++i) {
        const Tape& tape = all[next++ % all.size()];
        const auto made = make_pattern(assess(tape), choices, *style);
        ASSERT_TRUE(made.result.ok())
            << told(*style, choices) << ", dog " << (next - 1) % all.size() << ": "
            << told(made.result.problem());
        check(*style, choices, *made.result);
        if (testing::Test::HasFailure()) FAIL() << told(*style, choices) << ", dog " << next - 1;
      }
    }
  }
}

TEST(Combinations, EveryPairOfOptionsStandsInOneOfTheSets) {
  for (const StyleInfo* style : styles()) {
    const auto factors = test::factors_of(*style);
    const auto sets = test::pairwise(*style);
    int pairs = 0;
    for (size_t a = 0; a < factors.size(); ++a) {
      for (size_t b = a + 1; b < factors.size(); ++b) {
        for (size_t i = 0; i < factors[a]->options.size(); ++i) {
          for (size_t k = 0; k < factors[b]->options.size(); ++k) {
            ++pairs;
            EXPECT_TRUE(std::any_of(sets.begin(), sets.end(),
                                    [&](const Choices& c) {
                                      return c.of(*factors[a]) == static_cast<double>(i) &&
                                             c.of(*factors[b]) == static_cast<double>(k);
                                    }))
                << factors[a]->id << ' ' << i << ", " << factors[b]->id << ' ' << k;
          }
        }
      }
    }
    EXPECT_GT(pairs, 0) << style->id;
    EXPECT_LE(sets.size(), static_cast<size_t>(pairs)) << style->id;
  }
}

TEST(Combinations, EveryPromiseHoldsToATenthOfAMillimetre) {
  int seen = 0;
  for_every_combination(6, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    for (const Invariant& i : p.draft.invariants) {
      ++seen;
      EXPECT_TRUE(i.holds(kTenth)) << i.id << " wanted " << i.wanted_mm << " got " << i.got_mm;
    }
  });
  EXPECT_GT(seen, test::asked(500));
}

TEST(Combinations, HookAndLoopToBuyIsAsLargeAsItsMark) {
  int seen = 0;
  for_every_combination(1, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    for (const Notion& n : p.draft.notions) {
      if (n.kind != NotionKind::HookLoop) continue;
      for (const Piece& piece : p.draft.pieces) {
        for (const Mark& m : piece.marks) {
          if (m.label != n.place || m.kind != MarkKind::HookLoop) continue;
          ++seen;
          const double along = distance(m.line[0], m.line[1]);
          const double across = distance(m.line[1], m.line[2]);
          EXPECT_NEAR(n.length_mm, along, 1e-9) << n.place;
          // In tape of a sold width, side by side or trimmed.
          const double wide = n.count * n.width_mm;
          // Where even the narrowest that is sold is too wide, it is trimmed.
          EXPECT_LE(wide, std::max(across, 16.0) + 1e-9) << n.place;
        }
      }
    }
  });
  EXPECT_GT(seen, 100);
}

TEST(Combinations, EveryOutlineIsSimpleAndCounterClockwiseHalvedAndWhole) {
  int seen = 0;
  for_every_combination(3, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    for (const CutPiece& piece : p.cut.pieces) {
      ++seen;
      const CutPiece whole = opened(piece);
      for (const CutPiece* one : {&piece, &whole}) {
        EXPECT_TRUE(is_simple(one->net)) << one->piece.id;
        EXPECT_TRUE(is_simple(one->cut)) << one->piece.id;
        EXPECT_GT(signed_area(one->net), 0.0) << one->piece.id;
        EXPECT_GE(signed_area(one->cut), signed_area(one->net) - 1e-6) << one->piece.id;
      }
    }
  });
  EXPECT_GT(seen, 100);
}

TEST(Combinations, EveryMarkLiesInsideItsPiece) {
  constexpr double kOff = 0.25;  // mm, what scissors keep to: a mark follows an edge by chords
  int seen = 0;
  for_every_combination(2, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    for (const CutPiece& piece : p.cut.pieces) {
      for (const Mark& m : piece.piece.marks) {
        Polyline line = m.line;
        if (m.closed) line.push_back(m.line.front());
        for (size_t i = 1; i < line.size(); ++i) {
          for (const double along : {0.0, 0.2, 0.4, 0.6, 0.8, 1.0}) {
            ++seen;
            EXPECT_GT(depth_inside(piece.net, lerp(line[i - 1], line[i], along)), -kOff)
                << piece.piece.id << ' ' << m.label;
          }
        }
      }
    }
  });
  EXPECT_GT(seen, 10000);
}

// The pieces and marks of a draft, sides and layers apart: what is made on the one side beside one
// choice may be made on the other beside another.
std::set<std::string> things_of(const Draft& d) {
  std::set<std::string> out;
  for (const Piece& p : d.pieces) {
    out.insert(p.id);
    for (const Mark& m : p.marks) {
      std::string label = m.label;
      for (const std::string end : {"-left", "-right", "-one-side", "-sewn-side", "-upper-side"}) {
        if (label.ends_with(end)) label.resize(label.size() - end.size());
      }
      out.insert(label);
    }
  }
  return out;
}

bool belong_together(const StyleInfo& style, const ChoiceInfo* a, const ChoiceInfo* b) {
  return std::any_of(style.options.begin(), style.options.end(), [&](const OptionInfo* o) {
    const auto has = [&](const ChoiceInfo* c) {
      return std::find(o->choices.begin(), o->choices.end(), c) != o->choices.end();
    };
    return has(a) && has(b);
  });
}

// The checks that a pattern comes with, each by its sentence and what it is about.
std::set<std::string> said_of(const Checked<Pattern>& made) {
  std::set<std::string> out;
  for (const Finding& f : made.findings) {
    if (f.what.code == Code::Advice) out.insert(f.what.other + " " + f.what.subject);
  }
  return out;
}

TEST(Combinations, WhatOneOptionAddsIsThereBesideEveryOtherOrItIsSaidWhyNot) {
  int pairs = 0, said = 0;
  for (const char* dog : test::asked_of<const char*>({"ordinary", "bulldog", "sighthound"})) {
    for (const StyleInfo* style : styles()) {
      struct Alone {
        const ChoiceInfo* choice;
        int value;
        std::set<std::string> adds, says;
      };
      const Tape& tape = test::hard_dog(dog);
      const auto plain = make_pattern(assess(tape), {}, *style);
      const auto usual = things_of(plain.result->draft), usual_says = said_of(plain);
      std::vector<Alone> all;
      for (const ChoiceInfo* c : test::factors_of(*style)) {
        for (int i = 0; i < static_cast<int>(c->options.size()); ++i) {
          Choices choices;
          choices.set(*c, i);
          const auto made = make_pattern(assess(tape), choices, *style);
          Alone one{c, i, {}, said_of(made)};
          for (const std::string& thing : things_of(made.result->draft)) {
            if (!usual.contains(thing)) one.adds.insert(thing);
          }
          all.push_back(std::move(one));
        }
      }
      for (const Alone& a : all) {
        for (const Alone& b : all) {
          if (a.adds.empty() || belong_together(*style, a.choice, b.choice)) continue;
          ++pairs;
          Choices choices;
          choices.set(*a.choice, a.value);
          choices.set(*b.choice, b.value);
          const auto made = make_pattern(assess(tape), choices, *style);
          ASSERT_TRUE(made.result.ok()) << told(*style, choices);
          const auto things = things_of(made.result->draft), says = said_of(made);
          const bool more_is_said = std::any_of(says.begin(), says.end(), [&](const auto& s) {
            return !a.says.contains(s) && !b.says.contains(s);
          });
          said += more_is_said;
          for (const std::string& thing : a.adds) {
            EXPECT_TRUE(things.contains(thing) || more_is_said)
                << dog << ' ' << told(*style, choices) << " without " << thing;
          }
        }
      }
    }
  }
  EXPECT_GT(pairs, test::asked(2000));
  EXPECT_GT(said, test::asked(20));
}

TEST(Combinations, PiecesEdgesAndNotchesHaveNamesOfTheirOwn) {
  for_every_combination(1, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    std::set<std::string> pieces;
    for (const Piece& piece : p.draft.pieces) {
      EXPECT_TRUE(pieces.insert(piece.id).second) << piece.id;
      std::set<std::string> edges;
      for (const Edge& e : piece.edges) EXPECT_TRUE(edges.insert(e.id).second) << e.id;
      for (const Notch& n : piece.notches) {
        const Edge* on = find_edge(piece, n.edge);
        ASSERT_NE(on, nullptr) << n.edge;
        EXPECT_GE(n.at_mm, -1e-9);
        EXPECT_LE(n.at_mm, arc_length(on->path, 1e-4) + 1e-3) << n.edge << ' ' << n.name;
      }
    }
  });
}

// How far a place `at` mm along an edge is from its beginning as it lies, its darts closed; measured
// along chords.
double lying_up_to(const Piece& piece, const Edge& edge, double at) {
  constexpr int kChords = 400;
  Polyline line;
  for (const Cubic& c : edge.path.cubics) {
    for (int i = 0; i <= kChords; ++i) line.push_back(c.at(static_cast<double>(i) / kChords));
  }
  at = std::min(at, polyline_length(line));
  double closed = 0.0;
  for (const Mark& m : piece.marks) {
    const Point a = m.line.front(), b = m.line.back();
    if (m.kind != MarkKind::Dart || distance_to_polyline(line, a) > kTenth) continue;
    const auto [from, to] = std::minmax({length_to_nearest(line, a), length_to_nearest(line, b)});
    closed += std::clamp(at - from, 0.0, to - from);
  }
  return at - closed;
}
// The whole of it on the whole coat: a fold's half counts twice over.
double lying_length(const Piece& piece, const Edge& edge) {
  return lying_up_to(piece, edge, 1e9) * sides(piece);
}

// Two edges that are sewn together, or an edge below and the shell's that it is turned with.
struct SewnEdges {
  const Piece *piece, *other;
  const Edge *edge, *partner;
};
std::vector<SewnEdges> sewn_edges(const Draft& d) {
  std::vector<SewnEdges> out;
  for (const Piece& p : d.pieces) {
    for (size_t i = 0; i < p.edges.size(); ++i) {
      const Edge& e = p.edges[i];
      if (e.seam.empty()) continue;
      // A seam that a lining has with itself is none that it has with the shell.
      bool own = p.mirrored_pair && e.seam == e.id && e.finish == Finish::Seam;
      for (const Piece& q : d.pieces) {
        for (const Edge& f : q.edges) {
          if (p.id == q.id || p.layer != q.layer || e.seam != f.seam) continue;
          own = own || !q.made_up;
          if (&f < &e) out.push_back({&p, &q, &e, &f});
        }
      }
      const bool below = p.layer == Layer::Lining || p.layer == Layer::Insulation;
      if (!below || own) continue;
      const Piece& shell = *find_piece(d, p.id.substr(0, p.id.rfind('.')));
      out.push_back({&p, &shell, &e, &shell.edges[i]});
    }
  }
  return out;
}

TEST(Combinations, BothSidesOfEverySeamAreAsLongAsTheyLieButForTheEaseThatOneOfThemStates) {
  int seams = 0, eased = 0, between_linings = 0;
  for_every_combination(4, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    for (const SewnEdges& s : sewn_edges(p.draft)) {
      const double one = s.edge->ease_mm, other = s.partner->ease_mm;
      EXPECT_TRUE(one == 0.0 || other == 0.0) << s.edge->id << ": ease stated on both sides";
      EXPECT_NEAR(lying_length(*s.piece, *s.edge) - lying_length(*s.other, *s.partner),
                  one * sides(*s.piece) - other * sides(*s.other), kTenth)
          << s.edge->seam << ": " << s.piece->id << " and " << s.other->id;
      const bool layer_alone = s.piece->layer == s.other->layer && s.piece->layer != Layer::Shell;
      if (layer_alone) {
        EXPECT_EQ(one + other, 0.0) << s.edge->seam;
      }
      between_linings += layer_alone;
      eased += one + other > 0.5;
      ++seams;
    }
  });
  EXPECT_GT(seams, test::asked(2000));
  EXPECT_GT(eased, test::asked(200));
  EXPECT_GT(between_linings, test::asked(200));
}

// With numbers at the ends of their ranges, where curves do get tight.
TEST(Combinations, ACurveIsToldToBeTooTightIfAndOnlyIfItsRadiusIsLessThanClothTurns) {
  test::Dice dice(5);
  int tight = 0, wide = 0;
  for (const Tape& tape : test::population(300, 77)) {
    for (const StyleInfo* style : styles()) {
      const auto plain = make_pattern(assess(tape), {}, *style);
      ASSERT_TRUE(plain.result.ok());
      Choices choices;
      for (const ChoiceInfo* c : choices_of(*style)) {
        if (!dice.chance(0.5)) continue;
        const ChoiceRange r = range_of(*c, plain.result->body);
        choices.set(*c, c->named()         ? dice.below(static_cast<int>(c->options.size()))
                        : dice.chance(0.5) ? r.lowest
                                           : r.highest);
      }
      const auto made = make_pattern(assess(tape), choices, *style);
      if (!made.result.ok()) continue;
      for (const Piece& piece : made.result->draft.pieces) {
        if (piece.layer != Layer::Shell) continue;
        for (const Edge& e : piece.edges) {
          if (e.finish == Finish::Bound) continue;
          const bool is_tight = smallest_radius(e.path, 8) < kTightestTurn;
          const bool told =
              std::any_of(made.findings.begin(), made.findings.end(), [&](const Finding& f) {
                return f.what.code == Code::CurveTooTight && f.what.subject == e.id;
              });
          EXPECT_EQ(told, is_tight) << e.id;
          (is_tight ? tight : wide)++;
        }
      }
    }
  }
  EXPECT_GT(tight, 20);
  EXPECT_GT(wide, 1000);
}

TEST(Combinations, NotchesOfOneNameLieAtTheSamePlaceOfTheirSeam) {
  int met = 0;
  for_every_combination(4, [&](const StyleInfo&, const Choices&, const Pattern& p) {
    // Layer, seam and notch name -> distances from one end of the seam and from the other, as it
    // lies: the two notches of a dart come together when it is closed.
    std::map<std::array<std::string, 3>, std::vector<std::pair<double, double>>> places;
    for (const Piece& piece : p.draft.pieces) {
      for (const Notch& n : piece.notches) {
        const Edge* e = find_edge(piece, n.edge);
        if (e->seam.empty() || e->ease_mm != 0.0) continue;
        // A layer that lies as the shell does is notched as the shell is.
        const Piece* const shell = find_piece(p.draft, piece.id.substr(0, piece.id.rfind('.')));
        const Edge* const above = shell != nullptr ? find_edge(*shell, n.edge) : nullptr;
        const bool alike = above != nullptr && above->path == e->path;
        const double from = lying_up_to(piece, *e, n.at_mm);
        places[{alike ? "" : layer_id(piece.layer), e->seam, n.name}].push_back(
            {from, lying_up_to(piece, *e, 1e9) - from});
      }
    }
    for (const auto& [key, all] : places) {
      for (const auto& [from, to] : all) {
        // Sewn edges run the same way or against each other.
        const double off = std::min(std::abs(from - all[0].first), std::abs(from - all[0].second));
        EXPECT_LT(off, kTenth) << key[0] << ' ' << key[1] << ' ' << key[2] << ' ' << from << ' '
                               << to;
        met += all.size() > 1 ? 1 : 0;
      }
    }
  });
  EXPECT_GT(met, 100);
}

}  // namespace
}  // namespace coatwright
