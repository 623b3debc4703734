// The lays of the open ticket while they are looked for: a search for each cloth, gone on with a
// slice at a time between frames, so that a frame is never held up.
//
// A lay depends on the pieces, the cloth, the seed and the steps alone, never on the clock: the
// slices only say when the steps are done.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/make/shopping.h"
#include "core/sheet/lay_drawing.h"
#include "core/ticket/ticket.h"
#include "shell/derived.h"

namespace coatwright::studio {

// Steps of a first lay, and of each "improve" after it. A step is about a millisecond at most.
inline constexpr std::int64_t kFirstSteps = 1200;
inline constexpr std::int64_t kMoreSteps = 12000;
inline constexpr std::uint32_t kLaySeed = 1;

struct LayJob {
  LayOrder order;
  Cloth cloth;
  std::optional<LaySearch> search;  // none: `refusal` says why
  std::optional<Problem> refusal;
  std::optional<Problem> lamination_refusal;
  std::int64_t wanted = kFirstSteps;  // steps
  LaidCloth laid;
  int revision = 0;     // of `laid`
  bool looked = false;  // leftovers are those of `laid`
  [[nodiscard]] std::int64_t done() const { return search ? search->steps_done() : wanted; }
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
  void update(const Ticket& ticket, const Derived& derived);
  // Goes on until the time is up or nothing is left to do; true if something was done.
  // `milliseconds_gone`: since the slice began.
  bool work(double most_ms, const std::function<double()>& milliseconds_gone);
  [[nodiscard]] bool busy() const;
  void improve();
  void stop();

  [[nodiscard]] const std::vector<LayJob>& jobs() const { return jobs_; }
  // Every cloth has a lay.
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
  void take_best(LayJob& job);
  void fuse(LayJob& job);

  const Words& words_;
  std::vector<LayJob> jobs_;
  Cloth laminate_;
  int redraft_ = -1;
  size_t turn_ = 0;  // the job whose step is next

  struct Shown {
    LayView view;
    int revision = -1;
    double text_mm = 0.0;
    Unit unit = Unit::Inch;
    bool operator==(const Shown&) const = default;
  };
  std::optional<Shown> shown_;
  Picture picture_;
  int revisions_ = 0;
};

}  // namespace coatwright::studio
