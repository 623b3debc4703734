#include "core/sheet/page_blocks.h"

#include <algorithm>
#include <optional>

#include "core/draw/text.h"
#include "core/sheet/scale_check.h"

namespace coatwright {
namespace {

constexpr double kLine = 1.35;    // from one line to the next, parts of the size
constexpr double kIndent = 7.0;   // of what stands behind a number
constexpr double kSample = 16.0;  // of a line in the key
constexpr double kEntry = 43.0;   // the narrowest entry of the cut list
constexpr double kBesideGap = 4.0;

// "A1 A2 B1"
std::string sheets_with(const SheetPlan& plan, size_t piece) {
  std::string labels;
  for (const Sheet& s : plan.sheets) {
    if (std::find(s.pieces.begin(), s.pieces.end(), piece) == s.pieces.end()) continue;
    if (!labels.empty()) labels += ' ';
    labels += sheet_label(s.row, s.column);
  }
  return labels;
}

struct KeyLine {
  Role role;
  const char* words;
};

// Room on the one sheet, looked for row by row.
class FreeRoom {
 public:
  explicit FreeRoom(const SheetPlan& plan) : window_(inset(plan.sheets.front().window, kClear)) {
    for (const PlacedPiece& piece : plan.layout.placed) {
      pieces_.push_back({Role::CutLine, thinned(piece.cut, kThin), true});
    }
    const Sheet& sheet = plan.sheets.front();
    const CheckPlace check{sheet.check_at, sheet.check_left, sheet.check_up};
    taken_ = check_boxes(check);
    taken_.push_back(notes_box(check));
  }

  [[nodiscard]] std::optional<Rect> find(double width, double height) const {
    for (double y = window_.y0; y + height <= window_.y1; y += kStep) {
      for (double x = window_.x0; x + width <= window_.x1; x += kStep) {
        const Rect area{x, y, x + width, y + height};
        if (is_free(inset(area, -kClear))) return area;
      }
    }
    return std::nullopt;
  }
  void take(const Rect& area) { taken_.push_back(area); }

 private:
  static constexpr double kClear = 6.0;  // notches stand out of the cut line by 4 mm
  static constexpr double kThin = 0.5, kStep = 4.0;

  [[nodiscard]] bool is_free(const Rect& area) const {
    const Point middle = lerp({area.x0, area.y0}, {area.x1, area.y1}, 0.5);
    return std::none_of(taken_.begin(), taken_.end(),
                        [&](const Rect& r) { return meet(r, area); }) &&
           std::none_of(pieces_.begin(), pieces_.end(), [&](const StrokeItem& piece) {
             return contains(piece.points, middle) || !clipped(piece, area).empty();
           });
  }

  Rect window_;
  std::vector<StrokeItem> pieces_;
  std::vector<Rect> taken_;
};

}  // namespace

void Column::go_on(const Rect& area, DrawItems& out) {
  area_ = area;
  y_ = area.y0;
  out_ = &out;
}

void Column::write(Role role, const std::string& text, double size, double indent) {
  for (const std::string& line : wrapped(text, width() - indent, size, is_bold(role))) {
    if (when_full_ && y_ + kLine * size > area_.y1) when_full_(*this);
    y_ += kLine * size;
    out_->push_back(TextItem{
        role, {area_.x0 + indent, y_ - (kLine - 1.0) * size - 0.1 * size}, size, 0.0, 0.0, line});
  }
}

void Column::put(Role role, const std::string& text, double size, double indent) {
  out_->push_back(TextItem{role, {area_.x0 + indent, y_ + 0.9 * size}, size, 0.0, 0.0, text});
}

void Column::sample(Role role, double size, double indent) {
  const double y = y_ + (0.9 - kTextMiddle) * size;
  out_->push_back(StrokeItem{role, {{area_.x0 + indent, y}, {area_.x0 + indent + kSample, y}}});
}

void Column::together(const Part& write) {
  if (when_full_) {
    DrawItems unused;
    Column measured({0.0, 0.0, width(), 0.0}, unused);
    write(measured);
    if (measured.rest().y0 > rest().height() && y_ > area_.y0) when_full_(*this);
  }
  write(*this);
}

void Column::in_rows(const std::vector<Part>& parts, double narrowest) {
  const auto across =
      static_cast<size_t>(std::max(1.0, (width() + kBesideGap) / (narrowest + kBesideGap)));
  const double step = (width() + kBesideGap) / static_cast<double>(across);
  for (size_t first = 0; first < parts.size(); first += across) {
    together([&](Column& column) {
      double lowest = column.y_;
      for (size_t i = first; i < std::min(first + across, parts.size()); ++i) {
        const double x = column.area_.x0 + static_cast<double>(i - first) * step;
        Column part({x, column.y_, x + step - kBesideGap, column.area_.y1}, *column.out_);
        parts[i](part);
        lowest = std::max(lowest, part.y_);
      }
      column.y_ = lowest;
    });
  }
}

void write_steps(Column& column, const SheetPlan&, const Words& words) {
  column.write(Role::Name, words("cover.how"), kHeadSize);
  for (int step = 1; step <= 4; ++step) {
    column.together([&](Column& c) {
      c.skip(1.0);
      c.put(Role::Name, std::to_string(step), kBodySize);
      c.write(Role::Caption, words("cover.step." + std::to_string(step)), kBodySize, kIndent);
    });
  }
}

void write_pieces(Column& column, const SheetPlan& plan, const Words& words) {
  column.write(Role::Name, words("cover.pieces"), kHeadSize);
  std::vector<Column::Part> entries;
  for (size_t i = 0; i < plan.layout.placed.size(); ++i) {
    const PlacedPiece& piece = plan.layout.placed[i];
    entries.emplace_back([&plan, &words, &piece, i](Column& c) {
      c.skip(1.0);
      c.write(Role::Name, words("piece." + piece.id), kBodySize);
      for (const std::string& count : piece.cut_counts) c.write(Role::Caption, count, kBodySize);
      c.write(Role::Caption, words("cover.on-sheets", {sheets_with(plan, i)}), kBodySize);
    });
  }
  column.in_rows(entries, kEntry);
}

void write_key(Column& whole, const SheetPlan&, const Words& words) {
  constexpr KeyLine kLines[] = {
      {Role::CutLine, "cover.key.cut"},       {Role::SewnLine, "cover.key.sewn"},
      {Role::FoldLine, "cover.key.fold"},     {Role::Placement, "cover.key.place"},
      {Role::CentreLine, "cover.key.centre"}, {Role::SheetEdge, "cover.key.trim"},
      {Role::JoinLine, "cover.key.join"}};
  whole.together([&](Column& column) {
    column.write(Role::Name, words("cover.key"), kHeadSize);
    // Two beside each other where the column is wide.
    const bool pairs = column.width() > 2.0 * (kSample + 28.0);
    const double half = 0.5 * column.width();
    for (size_t i = 0; i < std::size(kLines); ++i) {
      const bool right = pairs && i % 2 == 1;
      const double indent = right ? half : 0.0;
      column.sample(kLines[i].role, kBodySize, indent);
      column.put(Role::Caption, words(kLines[i].words), kBodySize, indent + kSample + 2.0);
      if (!pairs || right || i + 1 == std::size(kLines)) column.skip(1.5 * kBodySize);
    }
  });
}

void write_cautions(Column& column, const SheetPlan&, const Words& words) {
  column.write(Role::Name, words("cover.cautions"), kHeadSize);
  for (const char* key : kCautions) {
    column.together([&](Column& c) {
      c.skip(1.0);
      c.write(Role::Caption, words(key), kBodySize);
    });
  }
}

double height_of(Block block, double width, const SheetPlan& plan, const Words& words) {
  DrawItems unused;
  Column column({0.0, 0.0, width, 0.0}, unused);
  block(column, plan, words);
  return column.rest().y0;
}

std::vector<PlacedBlock> blocks_beside_pieces(const SheetPlan& plan, const Words& words) {
  FreeRoom room(plan);
  std::vector<PlacedBlock> placed;
  for (const Block block : {write_cautions, write_key}) {
    std::optional<Rect> area;
    for (const double width : {90.0, 120.0, 65.0, 180.0}) {
      if (!area) area = room.find(width, height_of(block, width, plan, words));
    }
    if (!area) return {};
    room.take(*area);
    placed.push_back({block, *area});
  }
  return placed;
}

}  // namespace coatwright
