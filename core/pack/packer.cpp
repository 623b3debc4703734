#include "core/pack/packer.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "core/pack/layout.h"
#include "core/pack/separation.h"
#include "core/pack/setting_down.h"
#include "core/pack/stance.h"

namespace coatwright {

namespace {

// How much shorter the next attempt is, as a part of the length: more after each success, less
// after each failure.
constexpr double kFirstCut = 0.02;
constexpr double kMostCut = 0.02;
constexpr double kLeastCut = 0.004;
constexpr double kMoreAfterSuccess = 1.5;
constexpr double kLessAfterFailure = 0.7;
// Bold cuts find new arrangements. After so many failures in a row, each time that many more have
// failed, the best one is only pushed together by this part of its length.
constexpr int kFailuresBeforePush = 4;
constexpr double kPush = 0.0005;
// An attempt has failed after so many passes without a gain of 2 %.
constexpr int kMostIdlePasses = 250;

Problem wrong(Code code, size_t piece, double a = 0.0, double b = 0.0) {
  return {.code = code, .subject = std::to_string(piece), .values = {a, b}};
}

}  // namespace

struct PackSearch::State {
  explicit State(std::uint32_t seed) : random(seed), separation(strip, random) {}

  Strip strip;
  std::vector<Lie> fixed;
  double area = 0.0;          // of all copies
  double least_length = 0.0;  // no packing can be shorter
  Random random;
  std::int64_t steps = 0;

  std::vector<std::vector<size_t>> orders;  // still to be set down, the next one last
  std::optional<SettingDown> setting_down;
  Separation separation;
  double cut = kFirstCut;
  int failures = 0;  // in a row

  std::vector<Lie> start;  // that the first attempt is made from, if not empty
  std::vector<Lie> best_lies;
  Packing best;

  [[nodiscard]] std::optional<Problem> add_fixed(const PackTask& task, std::vector<int>& of_piece);
  [[nodiscard]] Result<std::vector<Lie>> add_loose(const PackTask& task,
                                                   const std::vector<int>& fixed_of_piece);
  void begin_in(const std::vector<Lie>& row);
  void begin_from(std::vector<Lie> lies);
  void keep(const std::vector<Lie>& lies);
  [[nodiscard]] bool is_clear(const std::vector<Lie>& lies);
  void attempt(std::vector<Lie> from, double shorter_by);
  void separate();
  bool prepare();
  void step();
};

void PackSearch::State::keep(const std::vector<Lie>& lies) {
  const double length = length_of(strip, lies);
  if (!best_lies.empty() && length >= best.length) return;
  best_lies = lies;
  best = {.places = {}, .length = length};
  for (size_t i = 0; i < lies.size(); ++i) {
    const Copy& copy = strip.copies[i];
    const Choice& choice = copy.choices[lies[i].choice];
    best.places.push_back({copy.piece, choice.stance, lies[i].at - choice.corner});
  }
}

// Whether every copy lies in the strip where it may, none over another.
bool PackSearch::State::is_clear(const std::vector<Lie>& lies) {
  for (size_t i = 0; i < lies.size(); ++i) {
    const Shape& shape = strip.shape(i, lies[i]);
    const GridPoint at = lies[i].at;
    if (at.x < 0.0 || at.y < 0.0 || at.y + shape.height > strip.width) return false;
    const Copy& copy = strip.copies[i];
    if (!copy.fixed && !copy.choices[lies[i].choice].lattice.hold(at)) return false;
    const int moving = strip.shape_number(i, lies[i]);
    for (size_t j = 0; j < i; ++j) {
      if (forbids(strip.region(j, lies[j], moving), at - lies[j].at)) return false;
    }
  }
  return true;
}

void PackSearch::State::begin_from(std::vector<Lie> lies) {
  if (!is_clear(lies)) {
    start = std::move(lies);
    return;
  }
  best_lies.clear();  // the row that it stood in, whichever is shorter
  keep(lies);
  setting_down.reset();
  orders.clear();
  attempt(best_lies, cut);
}

// Goes on from these places in a strip that is shorter by a part of the best length so far.
void PackSearch::State::attempt(std::vector<Lie> from, double shorter_by) {
  const double length = std::floor(best.length * (1.0 - shorter_by));
  separation.begin(std::move(from), std::max(length, least_length));
}

bool PackSearch::State::prepare() {
  if (best.length <= least_length) return false;
  return setting_down ? setting_down->prepare() : separation.prepare();
}

void PackSearch::State::step() {
  if (best.length <= least_length) return;
  if (setting_down) {
    setting_down->step();
    if (!setting_down->done()) return;
    keep(setting_down->lies());
    setting_down.reset();
    if (orders.empty()) {
      attempt(start.empty() ? best_lies : std::exchange(start, {}), cut);
    } else {
      setting_down.emplace(strip, fixed, std::move(orders.back()));
      orders.pop_back();
    }
    return;
  }
  separate();
}

void PackSearch::State::separate() {
  separation.step();
  if (separation.done()) {
    keep(separation.lies());
    cut = std::min(cut * kMoreAfterSuccess, kMostCut);
    failures = 0;
    attempt(best_lies, cut);
    return;
  }
  if (separation.idle_passes() <= kMostIdlePasses) return;
  ++failures;
  cut = std::max(cut * kLessAfterFailure, kLeastCut);
  if (failures % kFailuresBeforePush == 0) {
    attempt(best_lies, kPush);
    return;
  }
  // From the best or from the closest miss, with two pieces exchanged.
  std::vector<Lie> from = random.below(2) == 0 ? best_lies : separation.closest();
  const size_t loose = from.size() - fixed.size();
  std::swap(from[fixed.size() + random.below(loose)].at,
            from[fixed.size() + random.below(loose)].at);
  attempt(std::move(from), cut);
}

namespace {

// The piece's choices in a strip of this width, or why it has none.
Result<std::vector<Choice>> choices_of(const PackTask& task, size_t p, Strip& strip) {
  const PackPiece& piece = task.pieces[p];
  std::vector<Choice> choices;
  double narrowest = std::numeric_limits<double>::infinity();
  bool off_lattice = false;
  for (size_t s = 0; s < piece.stances.size(); ++s) {
    std::optional<StancedShape> staged = shape_in_stance(piece.outline, piece.stances[s]);
    if (!staged) return wrong(Code::PackOutlineUnsound, p);
    Shape& shape = staged->shape;
    if (std::max(shape.width, shape.height) > kLargestOutline) {
      return wrong(Code::PackPieceTooLarge, p);
    }
    narrowest = std::min(narrowest, shape.height);
    if (shape.height > task.strip_width) continue;
    const double height = shape.height;
    const Choice choice{strip.shapes.add(std::move(shape)), static_cast<int>(s), staged->corner,
                        lattice_in_stance(piece, piece.stances[s], staged->corner)};
    const Lines& across = choice.lattice.y;
    if (across.least_from(0.0) > across.most_to(task.strip_width - height)) {
      off_lattice = true;
      continue;
    }
    const bool known = std::any_of(choices.begin(), choices.end(), [&](const Choice& c) {
      return c.shape == choice.shape && c.lattice == choice.lattice;
    });
    if (!known) choices.push_back(choice);
  }
  if (choices.empty() && off_lattice) return wrong(Code::PackPieceOffLattice, p);
  if (choices.empty()) return wrong(Code::PackPieceTooWide, p, narrowest, task.strip_width);
  return choices;
}

// The places of PackTask::start; nothing if they are not one for each loose copy, in a stance that
// it has.
std::optional<std::vector<Lie>> lies_of(const PackTask& task, Strip& strip,
                                        const std::vector<Lie>& fixed) {
  std::vector<Lie> lies = fixed;
  std::vector<PackPlace> left = task.start;
  for (size_t i = fixed.size(); i < strip.copies.size(); ++i) {
    const Copy& copy = strip.copies[i];
    const auto place = std::find_if(left.begin(), left.end(),
                                    [&](const PackPlace& p) { return p.piece == copy.piece; });
    if (place == left.end()) return std::nullopt;
    const PackPiece& piece = task.pieces[static_cast<size_t>(copy.piece)];
    auto staged = shape_in_stance(piece.outline, piece.stances[static_cast<size_t>(place->stance)]);
    if (!staged) return std::nullopt;
    const int number = strip.shapes.add(std::move(staged->shape));
    const Lattice lattice =
        lattice_in_stance(piece, piece.stances[static_cast<size_t>(place->stance)], staged->corner);
    const auto choice =
        std::find_if(copy.choices.begin(), copy.choices.end(),
                     [&](const Choice& c) { return c.shape == number && c.lattice == lattice; });
    if (choice == copy.choices.end()) return std::nullopt;
    lies.push_back(
        {static_cast<size_t>(choice - copy.choices.begin()), place->at + staged->corner});
    left.erase(place);
  }
  if (!left.empty()) return std::nullopt;
  return lies;
}

// So that rooms and regions have thousands of cells, not millions, whatever the pieces are like.
double least_cell(const Strip& strip) {
  constexpr double kMostAcross = 128.0;
  constexpr double kMostOnPieces = 16384.0;
  constexpr double kMostAlong = 65536.0;
  constexpr double kLeast = 8.0;  // grid units: less is lost in what is rounded
  double boxes = 0.0;
  double row = 0.0;
  for (const Copy& copy : strip.copies) {
    const Shape& shape = strip.shapes[copy.choices.front().shape];
    boxes += shape.width * shape.height;
    row += shape.width;
  }
  return std::max(std::max(strip.width / kMostAcross, std::sqrt(boxes / kMostOnPieces)),
                  std::max(row / kMostAlong, kLeast));
}

std::optional<Problem> too_much(const PackTask& task) {
  double copies = 0.0;
  size_t corners = 0;
  for (size_t p = 0; p < task.pieces.size(); ++p) {
    const PackPiece& piece = task.pieces[p];
    copies += std::max(piece.quantity, 0);
    size_t of_outline = piece.outline.outer.size();
    for (const Ring& hole : piece.outline.holes) of_outline += hole.size();
    corners += of_outline;
    if (of_outline > kMostOutlineCorners || corners > kMostCorners ||
        piece.stances.size() > kMostStances || copies > kMostCopies) {
      return wrong(Code::PackTooMuch, p);
    }
  }
  return std::nullopt;
}

}  // namespace

// What lies where it is. `of_piece`: how many copies of each piece do.
std::optional<Problem> PackSearch::State::add_fixed(const PackTask& task,
                                                    std::vector<int>& of_piece) {
  of_piece.assign(task.pieces.size(), 0);
  for (const PackPlace& place : task.fixed) {
    const auto p = static_cast<size_t>(place.piece);
    const PackPiece& piece = task.pieces[p];
    auto staged = shape_in_stance(piece.outline, piece.stances[static_cast<size_t>(place.stance)]);
    if (!staged) return wrong(Code::PackOutlineUnsound, p);
    const GridPoint at = place.at + staged->corner;
    if (at.x < 0.0 || at.y < 0.0 || at.y + staged->shape.height > strip.width) {
      return wrong(Code::PackFixedMisplaced, p);
    }
    area += staged->shape.area;
    const int number = strip.shapes.add(std::move(staged->shape));
    for (size_t j = 0; j < fixed.size(); ++j) {
      if (forbids(strip.region(j, fixed[j], number), at - fixed[j].at)) {
        return wrong(Code::PackFixedMisplaced, p);
      }
    }
    strip.copies.push_back({place.piece, {{number, place.stance, staged->corner}}, true});
    fixed.push_back({0, at});
    ++of_piece[p];
  }
  least_length = length_of(strip, fixed);
  return std::nullopt;
}

// All that is loose, to begin with in one row behind what is fixed.
Result<std::vector<Lie>> PackSearch::State::add_loose(const PackTask& task,
                                                      const std::vector<int>& fixed_of_piece) {
  std::vector<Lie> row = fixed;
  double end = length_of(strip, fixed);
  const double apart = task.gap + 4.0;
  for (size_t p = 0; p < task.pieces.size(); ++p) {
    const Result<std::vector<Choice>> choices = choices_of(task, p, strip);
    if (!choices) return choices.problem();
    const Lattice& lattice = choices->front().lattice;
    double shortest = std::numeric_limits<double>::infinity();
    for (const Choice& c : *choices) {
      shortest = std::min(shortest, c.lattice.x.least_from(0.0) + strip.shapes[c.shape].width);
    }
    for (int q = fixed_of_piece[p]; q < task.pieces[p].quantity; ++q) {
      area += strip.shapes[choices->front().shape].area;
      least_length = std::max(least_length, shortest);
      strip.copies.push_back({static_cast<int>(p), *choices, false});
      row.push_back(
          {0, {lattice.x.least_from(row.empty() ? 0.0 : end + apart), lattice.y.least_from(0.0)}});
      end = row.back().at.x + strip.shape(row.size() - 1, row.back()).width;
    }
  }
  return row;
}

void PackSearch::State::begin_in(const std::vector<Lie>& row) {
  least_length = std::max(least_length, std::ceil(area / strip.width));
  strip.shapes.set_least_cell(least_cell(strip));
  keep(row);
  if (row.size() == fixed.size()) least_length = best.length;
  orders = orders_of(strip);
  std::reverse(orders.begin(), orders.end());
  setting_down.emplace(strip, fixed, std::move(orders.back()));
  orders.pop_back();
}

Result<PackSearch> PackSearch::begin(const PackTask& task) {
  if (const auto problem = too_much(task)) return *problem;
  auto state = std::make_unique<State>(task.seed);
  state->strip.width = task.strip_width;
  state->strip.shapes.set_gap(task.gap);
  std::vector<int> fixed_of_piece;
  if (const auto problem = state->add_fixed(task, fixed_of_piece)) return *problem;
  const Result<std::vector<Lie>> row = state->add_loose(task, fixed_of_piece);
  if (!row) return row.problem();
  if (state->strip.copies.empty()) return wrong(Code::PackNothing, 0);
  state->begin_in(*row);
  if (!task.start.empty()) {
    std::optional<std::vector<Lie>> lies = lies_of(task, state->strip, state->fixed);
    if (!lies) return wrong(Code::PackFixedMisplaced, 0);
    state->begin_from(std::move(*lies));
  }
  return PackSearch(std::move(state));
}

PackSearch::PackSearch(std::unique_ptr<State> state) : state_(std::move(state)) {}
PackSearch::PackSearch(PackSearch&&) noexcept = default;
PackSearch& PackSearch::operator=(PackSearch&&) noexcept = default;
PackSearch::~PackSearch() = default;

bool PackSearch::prepare() { return state_->prepare(); }

void PackSearch::step(int steps) {
  for (int k = 0; k < steps; ++k) {
    state_->strip.shapes.trim();
    ++state_->steps;
    state_->step();
  }
}

const Packing& PackSearch::best() const { return state_->best; }
bool PackSearch::shortest() const { return state_->best.length <= state_->least_length; }
std::int64_t PackSearch::steps_done() const { return state_->steps; }
std::int64_t PackSearch::regions_made() const { return state_->strip.shapes.made(); }
double PackSearch::density() const {
  return state_->area / (state_->strip.width * state_->best.length);
}

}  // namespace coatwright
