#include "shell/pages/paged.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "core/base/utf8.h"
#include "core/draw/text.h"
#include "core/geometry/polygon.h"
#include "core/units/unbroken.h"

namespace coatwright {
namespace {

constexpr double kMargin = 15.0;
constexpr double kFoot = 8.0;  // of the margin's inside, for title and number
constexpr double kText = 3.88, kSmallCell = 3.18, kSmall = 3.0;  // 11 pt, 9 pt, and the foot
constexpr double kLine = 1.42;  // from one line to the next, parts of the size
constexpr double kIndent = 7.0, kBox = 3.2;
constexpr double kCell = 3.0;  // between the cells of a row

// What is not divided: its items from y = 0 down.
struct Slab {
  DrawItems items = {};
  double height = 0.0;
  double before = 0.0;      // left free above it, but at the head of a page
  bool keeps_next = false;  // is not the last on a page
  int block = 0;
};

class Setter {
 public:
  Setter(const Document& document, const PageSize& size, const PictureFonts& fonts,
         const Words& words)
      : document_(document), size_(size), ruler_(fonts), words_(words) {}

  std::vector<Drawing> set() {
    for (const DocumentPart& part : document_.parts()) add(part);
    for (size_t first = 0; first < slabs_.size();) {
      const size_t end = end_of_group(first);
      // Where not even a page has room for all of it, it is divided wherever that must be.
      const double height = height_of(first, end);
      const bool whole = height <= room();
      if (whole && y_ > 0.0 && y_ + slabs_[first].before + height > room()) new_page();
      for (size_t i = first; i < end; ++i) place(slabs_[i]);
      first = end;
    }
    if (pages_.empty()) new_page();
    write_feet();
    return std::move(pages_);
  }

 private:
  [[nodiscard]] double width() const { return size_.width - 2.0 * kMargin; }
  [[nodiscard]] double room() const { return size_.height - 2.0 * kMargin - kFoot; }

  // ---- parts into slabs -----------------------------------------------------------------------

  void add(const DocumentPart& part) {
    switch (part.kind) {
      case DocumentPart::Kind::Heading:
        return add_heading(part);
      case DocumentPart::Kind::Paragraph:
        return add_text(part, 0.0, part.texts.front());
      case DocumentPart::Kind::Item:
        return add_item(part);
      case DocumentPart::Kind::Row:
        return add_row(part);
      case DocumentPart::Kind::Drawing:
        return add_drawing(part);
    }
  }

  Slab& new_slab(const DocumentPart& part, double before) {
    Slab& slab = slabs_.emplace_back();
    slab.before = before;
    slab.block = part.block;
    return slab;
  }

  void add_heading(const DocumentPart& part) {
    constexpr double kSizes[] = {6.0, 4.6, kText}, kBefore[] = {0.0, 6.0, 3.5};
    const auto level = static_cast<size_t>(std::clamp(part.level, 1, 3)) - 1;
    Slab& slab = new_slab(part, kBefore[level]);
    write(slab, Role::Name, part.texts.front(), kSizes[level], 0.0, width());
    slab.keeps_next = true;
  }

  // A slab for each line but the first and the last two of them, which stay together.
  void add_text(const DocumentPart& part, double indent, const std::string& text) {
    add_lines(part, indent, lines_of(text, kText, width() - indent, false), kText, 1.0);
  }
  void add_lines(const DocumentPart& part, double indent, const std::vector<std::string>& lines,
                 double size, double before) {
    for (size_t i = 0; i < lines.size(); ++i) {
      Slab& slab = new_slab(part, i == 0 ? before : 0.0);
      put(slab, Role::Caption, lines[i], size, indent);
      slab.keeps_next = i == 0 ? lines.size() > 1 : i + 2 == lines.size();
    }
  }

  // Text goes round a drawing at its right, and on below it.
  void add_item(const DocumentPart& part) {
    constexpr double kBeside = 4.0, kBefore = 0.6;  // a drawing, a small line
    const size_t first = slabs_.size();
    const Drawing& drawing = part.drawing;
    const bool drawn = !drawing.items.empty();
    const bool beside = drawn && drawing.bounds.width() <= kWidestBeside;
    double height = 0.0;
    for (size_t i = 0; i < part.texts.size(); ++i) {
      const double size = i == 0 ? kText : kSmallCell, before = i == 0 ? 0.0 : kBefore;
      const double wide = width() - kIndent;
      const auto room = [&](size_t line) {
        const double top = height + before + static_cast<double>(line) * kLine * size;
        const bool here = beside && top < drawing.bounds.height() + 1.0;
        return here ? wide - drawing.bounds.width() - kBeside : wide;
      };
      const std::vector<std::string> lines = lines_of(part.texts[i], size, room, false);
      add_lines(part, kIndent, lines, size, before);
      height += before + static_cast<double>(lines.size()) * kLine * size;
    }
    if (first == slabs_.size()) return;
    if (beside) {
      put(slabs_[first], drawing, width() - drawing.bounds.width(), 0.0);
      slabs_.back().height += std::max(0.0, drawing.bounds.height() - height);
    } else if (drawn) {
      Slab& slab = new_slab(part, 1.0);
      put(slab, drawing, kIndent, 0.0);
      slab.height = drawing.bounds.height();
    }
    // An item of a list stays on one page.
    for (size_t i = first; i + 1 < slabs_.size(); ++i) slabs_[i].keeps_next = true;
    slabs_.back().keeps_next = false;
    Slab& slab = slabs_[first];
    slab.before = part.list == ListKind::Boxes ? 2.0 : 1.0;
    const double base = baseline(kText);
    if (part.list == ListKind::Boxes) {
      const double x = 0.6, y = base - kTextMiddle * kText - 0.5 * kBox;
      slab.items.push_back(StrokeItem{
          Role::Grain, {{x, y}, {x + kBox, y}, {x + kBox, y + kBox}, {x, y + kBox}}, true});
      if (part.ticked) {
        slab.items.push_back(
            TextItem{Role::Caption, {x + 0.5 * kBox, y + 0.86 * kBox}, kBox, 0.0, 0.5, "\u2713"});
      }
    } else {
      const std::string sign =
          part.list == ListKind::Numbered ? std::to_string(part.number) + "." : "\u2022";
      slab.items.push_back(TextItem{Role::Caption, {kIndent - 1.8, base}, kText, 0.0, 1.0, sign});
    }
  }

  void add_row(const DocumentPart& part) {
    Slab& slab = new_slab(part, part.number == 1 ? 2.0 : 0.0);
    const std::vector<double> cells = widths_of_cells(part);
    double lowest = 0.0, x = 0.0;
    for (size_t i = 0; i < part.texts.size(); ++i) {
      const bool strong = part.even ? i == 0 || part.number == 1 : i == 1;
      Slab measured;
      write(measured, strong ? Role::Name : Role::Caption, part.texts[i],
            part.even ? kSmallCell : kText, x, cells[i] - kCell);
      slab.items.insert(slab.items.end(), measured.items.begin(), measured.items.end());
      lowest = std::max(lowest, measured.height);
      x += cells[i];
    }
    slab.height = lowest + 1.6;
    slab.items.push_back(StrokeItem{Role::SheetEdge, {{0.0, slab.height}, {width(), slab.height}}});
  }

  // Of even ones the first has room for two; of others the first has a third of the row and the
  // second as much as it needs, a third at most.
  [[nodiscard]] std::vector<double> widths_of_cells(const DocumentPart& part) const {
    const size_t n = part.texts.size();
    const double all = width() + kCell;
    std::vector<double> cells(n, all / static_cast<double>(n + (part.even ? 1 : 0)));
    if (part.even || n < 2) {
      if (part.even) cells[0] *= 2.0;
      return cells;
    }
    cells[0] = 0.36 * width();
    cells[1] = std::min(ruler_.width(unbroken(part.texts[1]), kText, true) + kCell + 0.1, cells[0]);
    for (size_t i = 2; i < n; ++i)
      cells[i] = (all - cells[0] - cells[1]) / static_cast<double>(n - 2);
    return cells;
  }

  void add_drawing(const DocumentPart& part) {
    Drawing drawing = part.drawing;
    const double fits = std::min({1.0, width() / std::max(1.0, drawing.bounds.width()),
                                  room() / std::max(1.0, drawing.bounds.height())});
    if (fits < 1.0) drawing = scaled(std::move(drawing), fits);
    Slab& slab = new_slab(part, 2.0);
    put(slab, drawing, 0.0, 0.0);
    slab.height = drawing.bounds.height();
    // What stands above a drawing belongs to it.
    if (slabs_.size() > 1) slabs_[slabs_.size() - 2].keeps_next = true;
  }

  // ---- lines ------------------------------------------------------------------------------------

  static double baseline(double size) { return (kLine - 0.34) * size; }

  void put(Slab& slab, Role role, const std::string& line, double size, double x) const {
    slab.items.push_back(TextItem{role, {x, slab.height + baseline(size)}, size, 0.0, 0.0, line});
    slab.height += kLine * size;
  }
  static void put(Slab& slab, const Drawing& drawing, double x, double y) {
    const Vec to = Point{x, y} - Point{drawing.bounds.x0, drawing.bounds.y0};
    for (const DrawItem& item : drawing.items) slab.items.push_back(shifted(item, to));
  }
  void write(Slab& slab, Role role, const std::string& text, double size, double x,
             double width) const {
    for (const std::string& line : lines_of(text, size, width, is_bold(role))) {
      put(slab, role, line, size, x);
    }
  }

  [[nodiscard]] std::vector<std::string> lines_of(const std::string& written, double size,
                                                  double width, bool bold) const {
    return lines_of(
        written, size, [width](size_t) { return width; }, bold);
  }
  // Broken at spaces that may be; a word that has no room in a line by itself, between two of its
  // characters. `width` of each line, counted from 0.
  [[nodiscard]] std::vector<std::string> lines_of(const std::string& written, double size,
                                                  const std::function<double(size_t)>& width,
                                                  bool bold) const {
    const std::string text = unbroken(written);
    std::vector<std::string> lines;
    std::string line;
    const auto fits = [&](const std::string& one) {
      return ruler_.width(one, size, bold) <= width(lines.size());
    };
    for (size_t from = 0; from < text.size();) {
      const size_t to = std::min(text.find(' ', from), text.size());
      std::string word = text.substr(from, to - from);
      from = to + 1;
      if (word.empty()) continue;
      if (const std::string longer = line.empty() ? word : line + " " + word; fits(longer)) {
        line = longer;
        continue;
      }
      if (!line.empty()) lines.push_back(std::exchange(line, {}));
      while (!fits(word)) {
        size_t end = character_at(word, 0).bytes;
        while (end < word.size() && fits(word.substr(0, end + character_at(word, end).bytes))) {
          end += character_at(word, end).bytes;
        }
        if (end >= word.size()) break;
        lines.push_back(word.substr(0, end));
        word.erase(0, end);
      }
      line = std::move(word);
    }
    if (!line.empty()) lines.push_back(std::move(line));
    return lines;
  }

  // ---- slabs onto pages ---------------------------------------------------------------------------

  [[nodiscard]] size_t end_of_group(size_t first) const {
    size_t end = first + 1;
    const auto goes_on = [&](size_t i) {
      return slabs_[i - 1].keeps_next ||
             (slabs_[i].block != 0 && slabs_[i].block == slabs_[i - 1].block);
    };
    while (end < slabs_.size() && goes_on(end)) ++end;
    return end;
  }
  [[nodiscard]] double height_of(size_t first, size_t end) const {
    double height = slabs_[first].height;
    for (size_t i = first + 1; i < end; ++i) height += slabs_[i].before + slabs_[i].height;
    return height;
  }

  void new_page() {
    pages_.emplace_back().bounds = {0.0, 0.0, size_.width, size_.height};
    y_ = 0.0;
  }
  void place(const Slab& slab) {
    if (pages_.empty() || (y_ > 0.0 && y_ + slab.before + slab.height > room())) new_page();
    if (y_ > 0.0) y_ += slab.before;
    for (const DrawItem& item : slab.items) {
      pages_.back().items.push_back(shifted(item, {kMargin, kMargin + y_}));
    }
    y_ += slab.height;
  }

  void write_feet() {
    const std::string all = std::to_string(pages_.size());
    int number = 0;
    for (Drawing& page : pages_) {
      const std::string count = words_("page.number", {std::to_string(++number), all});
      const double y = size_.height - kMargin;
      const double left = width() - ruler_.width(count, kSmall, false) - 2.0 * kCell;
      const std::string title = shortened(document_.title(), left, kSmall, false);
      page.items.push_back(TextItem{Role::Caption, {kMargin, y}, kSmall, 0.0, 0.0, title});
      page.items.push_back(
          TextItem{Role::Caption, {size_.width - kMargin, y}, kSmall, 0.0, 1.0, count});
    }
  }

  const Document& document_;
  const PageSize size_;
  const TextRuler ruler_;
  const Words& words_;
  std::vector<Slab> slabs_;
  std::vector<Drawing> pages_;
  double y_ = 0.0;  // how far down the last page is filled
};

}  // namespace

std::vector<Drawing> pages_of(const Document& document, const PageSize& size,
                              const PictureFonts& fonts, const Words& words) {
  return Setter(document, size, fonts, words).set();
}

}  // namespace coatwright
