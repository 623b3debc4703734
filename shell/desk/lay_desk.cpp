#include "shell/desk/lay_desk.h"

#include <algorithm>

namespace coatwright::studio {
namespace {

constexpr int kMostLeftovers = 3;
constexpr double kLeastLeftover = 100.0;  // mm: what a small piece may want

// Whether a lay on one is a lay on the other.
bool lies_alike(const Cloth& a, const Cloth& b) {
  return a.use == b.use && a.width_mm == b.width_mm && a.selvage_mm == b.selvage_mm &&
         a.gap_mm == b.gap_mm && a.one_way == b.one_way && a.repeat_mm == b.repeat_mm &&
         a.repeat_across_mm == b.repeat_across_mm && a.first_stripe_mm == b.first_stripe_mm &&
         a.rest_mm == b.rest_mm;
}

std::int64_t first_steps(const LayOrder& order) {
  std::int64_t copies = 0;
  for (const LayPiece& piece : order.pieces) copies += piece.face_up + piece.face_down;
  return kFirstSteps * std::max(copies, kFewPieces) / kFewPieces;
}

}  // namespace

void LayDesk::update(const Ticket& ticket, const Derived& derived, const Rack& rack) {
  if (!derived.pattern || derived.stale) {
    jobs_.clear();
    redraft_ = -1;
    return;
  }
  const bool others = company_.update(ticket, rack);
  LaidCoats coats = {{.key = {}, .ticket = &ticket, .draft = &derived.pattern->draft}};
  for (const Companion& one : company_.all()) {
    if (one.laid()) coats.push_back({one.id, &one.ticket, &one.pattern->draft});
  }
  names_ = coat_names(coats, words_);
  const Cloth laminate = cloth_of(ticket, ClothUse::Laminate);
  const bool new_laminate = laminate != laminate_;
  laminate_ = laminate;
  const bool trial = ticket.of(ClothUse::Trial).has_value();
  if (redraft_ != derived.redrafts || trial != trial_ || others) {
    redraft_ = derived.redrafts;
    trial_ = trial;
    jobs_.clear();
    turn_ = 0;
    for (LayOrder& order : lay_orders(company_.coats(derived.pattern->cut), trial)) {
      LayJob& job = jobs_.emplace_back();
      job.cloth = cloth_of(ticket, order.use);
      job.order = std::move(order);
      begin(job);
      lay_by_hand(job, ticket);
    }
    return;
  }
  for (LayJob& job : jobs_) {
    const Cloth cloth = cloth_of(ticket, job.order.use);
    if (cloth != job.cloth) {
      const bool alike = lies_alike(cloth, job.cloth);
      job.cloth = job.laid.lay.cloth = job.found.cloth = cloth;
      job.revision = ++revisions_;
      if (!alike) begin(job);
    }
    if (new_laminate) fuse(job);
    lay_by_hand(job, ticket);
  }
}

// The maker's own lay as the ticket now has it, or the found one again.
void LayDesk::lay_by_hand(LayJob& job, const Ticket& ticket) {
  const HandLay* hand = hand_lay(ticket.hand_lays, job.order.use, job.order.laminated);
  if (!job.table || (hand == nullptr ? !job.hand : job.hand == *hand)) return;
  job.onward.reset();
  job.onward_wanted = 0;
  job.offer.reset();
  job.faults = {};
  job.hand_refusal.reset();
  job.added = 0;
  if (hand == nullptr) {
    job.hand.reset();
    show(job, job.found);
    return;
  }
  job.hand = *hand;
  auto [lay, added] = job.table->laid(*hand);
  job.added = added;
  job.faults = job.table->faults(lay);
  job.hand_refusal = problem_of(job.faults, job.order.use);
  show(job, std::move(lay));
}

void LayDesk::show(LayJob& job, Lay lay) {
  job.laid.lay = std::move(lay);
  job.laid.left_over.clear();
  job.looked = false;
  job.revision = ++revisions_;
  fuse(job);
  place_on_rests();
}

// Lays on one rest move when one before them does.
void LayDesk::place_on_rests() {
  for (LayJob& job : jobs_) {
    if (job.cloth.rest_mm <= 0.0) continue;
    std::vector<LaidCloth*> laid;
    for (LayJob& other : jobs_) laid.push_back(&other.laid);
    if (coatwright::place_on_rests(laid) == 0) return;
    for (LayJob& other : jobs_) {
      if (other.cloth.rest_mm <= 0.0) continue;
      other.laid.left_over.clear();
      other.looked = false;
      other.revision = ++revisions_;
    }
    return;
  }
}

void LayDesk::begin(LayJob& job) {
  job.wanted = first_steps(job.order);
  job.search.reset();
  job.table.reset();
  job.refusal.reset();
  job.hand.reset();
  job.hand_refusal.reset();
  job.onward.reset();
  job.onward_wanted = 0;
  job.offer.reset();
  job.faults = {};
  job.laid = {};
  job.found = {};
  Result<LaySearch> search = LaySearch::begin(job.order, job.cloth, kLaySeed);
  if (!search) {
    job.refusal = search.problem();
    return;
  }
  job.search.emplace(std::move(search.value()));
  if (Result<LayTable> table = LayTable::begin(job.order, job.cloth)) {
    job.table.emplace(std::move(table.value()));
  }
  take_best(job);
}

void LayDesk::take_best(LayJob& job) {
  Lay best = job.search->best();
  job.laid.steps = job.search->steps_done();
  if (best.length_mm == job.found.length_mm) return;
  job.found = std::move(best);
  if (!job.by_hand()) show(job, job.found);
}

// What a search from the maker's own lay has come to is offered, never taken unasked.
void LayDesk::take_onward(LayJob& job) {
  constexpr double kWorthIt = 0.5;  // mm
  const double length = job.offer ? job.offer->length_mm : job.laid.lay.length_mm;
  Lay best = job.onward->best();
  const bool mends = !job.offer && job.hand_refusal;
  if (!mends && best.length_mm > length - kWorthIt) return;
  job.offer = std::move(best);
}

Point LayDesk::snapped(size_t job, size_t piece, Point wanted, double reach_mm) {
  LayJob& j = jobs_[job];
  return j.table ? j.table->snapped(j.laid.lay, piece, wanted, reach_mm) : wanted;
}

void LayDesk::fuse(LayJob& job) {
  job.laid.lamination.reset();
  job.lamination_refusal.reset();
  if (!job.order.laminated || !job.search) return;
  Result<Lamination> plan = lamination_of(job.laid.lay, laminate_);
  if (plan) {
    job.laid.lamination = std::move(plan.value());
  } else {
    job.lamination_refusal = plan.problem();
  }
  job.revision = ++revisions_;
}

bool LayDesk::work(double most_ms, const std::function<double()>& milliseconds_gone) {
  bool worked = false;
  while (busy() && milliseconds_gone() < most_ms) {
    worked = true;
    turn_ = (turn_ + 1) % jobs_.size();
    LayJob& job = jobs_[turn_];
    if (!job.search) continue;
    if (job.done() < job.wanted) {
      if (job.search->prepare()) continue;
      job.search->step(1);
      if (job.done() % 16 == 0 || job.done() >= job.wanted) take_best(job);
    } else if (job.onward_done() < job.onward_wanted) {
      if (job.onward->prepare()) continue;
      job.onward->step(1);
      if (job.onward_done() >= job.onward_wanted) take_onward(job);
    } else if (!job.looked) {
      job.laid.left_over = leftovers(job.laid.lay, kMostLeftovers, kLeastLeftover);
      job.looked = true;
      job.revision = ++revisions_;
      break;  // it may have taken the rest of the slice
    }
  }
  return worked;
}

bool LayDesk::busy() const {
  return std::any_of(jobs_.begin(), jobs_.end(), [](const LayJob& job) {
    return job.search &&
           (job.done() < job.wanted || job.onward_done() < job.onward_wanted || !job.looked);
  });
}

bool LayJob::improvable() const {
  if (!search) return false;
  if (!by_hand()) return !search->shortest();
  return !onward || !onward->shortest();
}

bool LayDesk::improvable() const {
  return std::any_of(jobs_.begin(), jobs_.end(), [](const LayJob& j) { return j.improvable(); });
}

void LayDesk::improve() {
  for (LayJob& job : jobs_) {
    if (!job.improvable()) continue;
    if (!job.by_hand()) {
      job.wanted = job.done() + kMoreSteps;
      continue;
    }
    if (!job.onward) {
      Result<LaySearch> search = LaySearch::begin(job.order, job.cloth, kLaySeed, &job.laid.lay);
      if (search) job.onward.emplace(std::move(search.value()));
    }
    if (job.onward) job.onward_wanted = job.onward->steps_done() + kMoreSteps;
  }
}

void LayDesk::stop() {
  for (LayJob& job : jobs_) {
    job.wanted = job.done();
    job.onward_wanted = job.onward_done();
    if (job.onward) take_onward(job);
  }
}

bool LayDesk::whole() const {
  return !jobs_.empty() && std::all_of(jobs_.begin(), jobs_.end(), [](const LayJob& job) {
    return job.search && !job.lamination_refusal && !job.hand_refusal;
  });
}

std::vector<LaidCloth> LayDesk::laid() const {
  std::vector<LaidCloth> out;
  for (const LayJob& job : jobs_) {
    if (job.search) out.push_back(job.laid);
  }
  return out;
}

std::vector<LayView> LayDesk::views() const {
  std::vector<LayView> out;
  for (size_t i = 0; i < jobs_.size(); ++i) {
    if (jobs_[i].laid.lamination) out.push_back({i, true});
    out.push_back({i, false});
  }
  return out;
}

double LayDesk::progress() const {
  double done = 0.0, wanted = 0.0;
  for (const LayJob& job : jobs_) {
    done += static_cast<double>(job.done() + (job.onward ? job.onward_done() : 0));
    wanted += static_cast<double>(job.wanted + (job.onward ? job.onward_wanted : 0));
  }
  return wanted > 0.0 ? std::min(1.0, done / wanted) : 1.0;
}

const LayDesk::Picture& LayDesk::picture(const LayView& view, double text_mm, Unit unit) {
  const LayJob& job = jobs_[view.job];
  const Shown now{view, job.revision, text_mm, unit, names_};
  if (shown_ == now) return picture_;
  shown_ = now;
  const LayNotes notes{.lengths = {.unit = unit}, .text_mm = text_mm, .coats = names_};
  picture_.drawing = view.lamination && job.laid.lamination
                         ? draw_lamination(job.laid.lay, *job.laid.lamination, notes, words_)
                         : draw_lay(job.laid.lay, job.laid.left_over, notes, words_);
  picture_.washes = washes_of(picture_.drawing);
  return picture_;
}

}  // namespace coatwright::studio
