// The lays of the open ticket while they are looked for: a search for each cloth, gone on with a
// slice at a time between frames, so that a frame is never held up.
//
// A lay depends on the pieces, the cloth, the seed and the steps alone, never on the clock: the
// slices only say when the steps are done.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/draw/lay_drawing.h"
#include "core/lay/hand_lay.h"
#include "core/make/shopping.h"
#include "core/ticket/ticket.h"
#include "shell/desk/derived.h"
#include "shell/desk/lay_company.h"

namespace coatwright::studio {

// Steps of a first lay of up to kFewPieces, more for more, and of each "improve" after it. A step
// is about a millisecond at most.
inline constexpr std::int64_t kFirstSteps = 1200;
inline constexpr std::int64_t kFewPieces = 20;
inline constexpr std::int64_t kMoreSteps = 12000;
inline constexpr std::uint32_t kLaySeed = 1;

struct LayJob {
  LayOrder order;
  Cloth cloth;
  std::optional<LaySearch> search;  // none: `refusal` says why
  std::optional<Problem> refusal;
  std::optional<Problem> lamination_refusal;
  std::int64_t wanted = kFirstSteps;  // steps
  Lay found;                          // the search's best
  LaidCloth laid;                     // what is shown and bought: the maker's own lay, or `found`
  int revision = 0;                   // of `laid`
  bool looked = false;                // leftovers are those of `laid`

  std::optional<LayTable> table;        // for laying by hand; as the search
  std::optional<HandLay> hand;          // as the ticket has it
  LayFaults faults;                     // of the maker's own lay
  std::optional<Problem> hand_refusal;  // the worst of them
  int added = 0;                        // pieces that it has no places for
  std::optional<LaySearch> onward;      // that goes on from the maker's own lay
  std::int64_t onward_wanted = 0;
  std::optional<Lay> offer;  // shorter than the maker's own, or free of its faults

  [[nodiscard]] bool by_hand() const { return hand.has_value(); }
  [[nodiscard]] std::int64_t done() const {
    return search && !search->shortest() ? search->steps_done() : wanted;
  }
  [[nodiscard]] std::int64_t onward_done() const {
    return onward && !onward->shortest() ? onward->steps_done() : onward_wanted;
  }
  // A search may still find something shorter.
  [[nodiscard]] bool improvable() const;
};

// Draws what is looked at: a job's lay, or how it is laminated.
struct LayView {
  size_t job = 0;
  bool lamination = false;
  bool operator==(const LayView&) const = default;
};

class LayDesk {
 public:
  explicit LayDesk(const Words& words) : words_(words) {}

  // Begins anew what has changed; what has not stays as it is.
  void update(const Ticket& ticket, const Derived& derived, const Rack& rack);
  // Goes on until the time is up or nothing is left to do; true if something was done.
  // `milliseconds_gone`: since the slice began.
  bool work(double most_ms, const std::function<double()>& milliseconds_gone);
  [[nodiscard]] bool busy() const;
  void improve();
  void stop();
  // Some lay may still be shortened.
  [[nodiscard]] bool improvable() const;
  // Where a dragged piece had better lie (LayTable::snapped).
  [[nodiscard]] Point snapped(size_t job, size_t piece, Point wanted, double reach_mm);

  [[nodiscard]] const std::vector<LayJob>& jobs() const { return jobs_; }
  // The coats that the ticket is laid with, also those that are not in the lay.
  [[nodiscard]] const std::vector<Companion>& company() const { return company_.all(); }
  // What stands on the pieces of each coat, if there are several.
  [[nodiscard]] const std::vector<CoatName>& names() const { return names_; }
  // Every cloth has a lay that can be cut.
  [[nodiscard]] bool whole() const;
  [[nodiscard]] std::vector<LaidCloth> laid() const;
  [[nodiscard]] std::vector<LayView> views() const;
  // Of what was asked for, 0 to 1.
  [[nodiscard]] double progress() const;

  struct Picture {
    Drawing drawing;
    std::vector<Wash> washes;
  };
  // Drawn again only if something has changed. `view` is one of views().
  [[nodiscard]] const Picture& picture(const LayView& view, double text_mm, Unit unit);

 private:
  void begin(LayJob& job);
  void lay_by_hand(LayJob& job, const Ticket& ticket);
  void show(LayJob& job, Lay lay);
  void take_best(LayJob& job);
  void take_onward(LayJob& job);
  void fuse(LayJob& job);
  void place_on_rests();

  const Words& words_;
  LayCompany company_;
  std::vector<CoatName> names_;
  std::vector<LayJob> jobs_;
  Cloth laminate_;
  int redraft_ = -1;
  bool trial_ = false;  // a trial coat is laid too
  size_t turn_ = 0;     // the job whose step is next

  struct Shown {
    LayView view;
    int revision = -1;
    double text_mm = 0.0;
    Unit unit = Unit::Inch;
    std::vector<CoatName> names = {};
    bool operator==(const Shown&) const = default;
  };
  std::optional<Shown> shown_;
  Picture picture_;
  int revisions_ = 0;
};

}  // namespace coatwright::studio
