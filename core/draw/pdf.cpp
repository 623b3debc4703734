// Objects, streams and their compression are libharu's. It writes TrueType faces alone and knows no
// optional content, so both are put together here from its objects; what is drawn on a page is
// written as text, like an SVG's paths.
#include "core/draw/pdf.h"

#include <hpdf.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <utility>

#include "core/base/utf8.h"
#include "core/base/version.h"
#include "core/draw/face_subset.h"
#include "core/draw/lettering.h"
#include "core/draw/number.h"
#include "core/draw/pen.h"
#include "core/draw/text.h"

namespace coatwright {
namespace {

constexpr double kPoints = 72.0 / 25.4;    // a mm
constexpr size_t kMostText = 400;          // characters of one text of a drawing
constexpr std::string_view kCff = "CFF ";  // the table of outlines with cubic curves
constexpr char32_t kInstead = U'\u25A1';

// What a viewer can switch: its word key and the roles that belong to it.
constexpr std::array<const char*, 8> kKinds = {"kind.cut",  "kind.sewn", "kind.fold", "kind.mark",
                                               "kind.body", "kind.text", "kind.join", "kind.scale"};
size_t kind_of(Role role) {
  switch (role) {
    case Role::CutLine:
    case Role::NotchLine:
    case Role::Cloth:
    case Role::LiningCloth:
    case Role::Nest1:
    case Role::Nest2:
    case Role::Nest3:
    case Role::Nest4:
    case Role::Nest5:
    case Role::Nest6:
      return 0;
    case Role::SewnLine:
      return 1;
    case Role::FoldLine:
    case Role::Grain:
      return 2;
    case Role::Placement:
    case Role::CentreLine:
    case Role::Stripe:
      return 3;
    case Role::BodyLine:
    case Role::Former:
    case Role::Blank:
    case Role::Tape:
      return 4;
    case Role::Caption:
    case Role::Name:
    case Role::Size:
      return 5;
    case Role::SheetEdge:
    case Role::JoinLine:
    case Role::Register:
      return 6;
    case Role::Scale:
      return 7;
  }
  return 0;
}

void append_hex(std::string& out, unsigned value, int digits) {
  for (int shift = 4 * (digits - 1); shift >= 0; shift -= 4) {
    out += "0123456789ABCDEF"[(value >> shift) & 15U];
  }
}

// UTF-16, big-endian.
std::string utf16(std::string_view utf8) {
  std::string out;
  const auto append = [&out](unsigned unit) {
    out += static_cast<char>(unit >> 8);
    out += static_cast<char>(unit & 0xFFU);
  };
  for (size_t at = 0; at < utf8.size();) {
    const Character c = character_at(utf8, at);
    at += c.bytes;
    const auto point = static_cast<unsigned>(c.point == kNoCharacter ? U'\uFFFD' : c.point);
    if (point < 0x10000) {
      append(point);
    } else {
      append(0xD800 + ((point - 0x10000) >> 10));
      append(0xDC00 + ((point - 0x10000) & 0x3FFU));
    }
  }
  return out;
}

std::string utf16_hex(std::string_view utf8) {
  std::string out;
  for (const char byte : utf16(utf8)) append_hex(out, static_cast<unsigned char>(byte), 2);
  return out;
}

// A table of a face's file (OpenType, "otff"); empty if it has none of that name.
std::span<const unsigned char> table_of(std::span<const unsigned char> file,
                                        std::string_view name) {
  const auto number = [&](size_t at, size_t bytes) {
    size_t value = 0;
    for (size_t i = at; i < at + bytes; ++i) value = 256 * value + file[i];
    return value;
  };
  constexpr size_t kHead = 12, kRow = 16;
  const size_t rows = file.size() < kHead ? 0 : number(4, 2);
  for (size_t at = kHead; at < kHead + kRow * rows && at + kRow <= file.size(); at += kRow) {
    if (!std::equal(name.begin(), name.end(), file.begin() + static_cast<std::ptrdiff_t>(at))) {
      continue;
    }
    const size_t from = number(at + 8, 4), length = number(at + 12, 4);
    if (from > file.size() || length > file.size() - from) return {};
    return file.subspan(from, length);
  }
  return {};
}

void append_point(std::string& out, Point p) {
  append_number(out, p.x);
  out += ' ';
  append_number(out, p.y);
  out += ' ';
}

// Sines and cosines want more than the three decimals of a length.
void append_ratio(std::string& out, double value) {
  constexpr double kDecimals = 1e6;
  const auto whole = static_cast<long long>(std::llround(std::abs(value) * kDecimals));
  const std::string digits = std::to_string(static_cast<long long>(kDecimals) + whole % 1000000);
  out += value < 0.0 && whole > 0 ? "-" : "";
  out += std::to_string(whole / 1000000) + "." + digits.substr(1) + " ";
}

bool runs_leftward(char32_t c) {
  return (c >= 0x0590 && c <= 0x08FF) || (c >= 0xFB1D && c <= 0xFDFF) ||
         (c >= 0xFE70 && c <= 0xFEFC) || (c >= 0x10800 && c <= 0x10FFF) ||
         (c >= 0x1E800 && c <= 0x1EFFF);
}

// Characters from left to right, as readers of a PDF expect those that they turn round themselves:
// of a line that begins leftward all is turned, and what runs rightward in it turned back; of
// another only the runs of leftward letters and what stands between them.
std::vector<char32_t> as_seen(std::string_view utf8) {
  std::vector<char32_t> row;
  for (size_t at = 0; at < utf8.size();) {
    const Character c = character_at(utf8, at);
    row.push_back(c.point);
    at += c.bytes;
  }
  const auto has_direction = [](char32_t c) {
    return runs_leftward(c) || c >= 0x00C0 || (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') ||
           (c >= 'a' && c <= 'z');
  };
  const auto first = std::find_if(row.begin(), row.end(), has_direction);
  const bool leftward = first != row.end() && runs_leftward(*first);
  // Turns round each run of characters of one direction, with the signs and spaces within it.
  const auto turn_runs = [&](bool of_leftward) {
    const auto belongs = [&](char32_t c) {
      return has_direction(c) && runs_leftward(c) == of_leftward;
    };
    for (auto from = std::find_if(row.begin(), row.end(), belongs); from != row.end();) {
      auto last = from, at = from;
      for (; at != row.end() && (belongs(*at) || !has_direction(*at)); ++at) {
        if (belongs(*at)) last = at;
      }
      std::reverse(from, last + 1);
      from = std::find_if(last + 1, row.end(), belongs);
    }
  };
  if (leftward) std::reverse(row.begin(), row.end());
  turn_runs(!leftward);
  return row;
}

// A document under way. Errors are kept in it, and end it at last.
class Writer {
 public:
  Writer(const PdfNotes& notes, const PictureFonts& fonts, const Words& words)
      : pdf_(HPDF_New(nullptr, nullptr), HPDF_Free),
        notes_(notes),
        letters_(fonts.letters),
        words_(words),
        lettering_(fonts),
        files_{fonts.bold, fonts.plain, fonts.other} {
    if (usable()) HPDF_SetCompressionMode(pdf_.get(), HPDF_COMP_ALL);
  }

  void add(const PdfPage& page) {
    const double width = kPoints * page.width, height = kPoints * page.height;
    page_ = HPDF_AddPage(pdf_.get());
    if (page_ == nullptr) return;
    first_part_ = page.first_part;
    if (!page.chapter.empty()) begin_chapter(page.chapter);
    HPDF_Page_SetWidth(page_, static_cast<HPDF_REAL>(width));
    HPDF_Page_SetHeight(page_, static_cast<HPDF_REAL>(height));
    used_ = {};
    content_.clear();
    // Millimetres from the upper left corner, as the drawing has them.
    const Vec scale{kPoints * page.stretch.x, kPoints * page.stretch.y};
    append_ratio(content_, scale.x);
    content_ += "0 0 ";
    append_ratio(content_, -scale.y);
    append_ratio(content_, 0.5 * (width - scale.x * page.width));
    append_ratio(content_, 0.5 * (height + scale.y * page.height));
    content_ += "cm 1 j\n";
    for (const DrawItem& item : page.drawing.items) append(item);
    leave_layers();
    HPDF_Stream_Write(static_cast<HPDF_PageAttr>(page_->attr)->stream,
                      reinterpret_cast<const HPDF_BYTE*>(content_.data()),
                      static_cast<HPDF_UINT>(content_.size()));
    give_resources();
  }

  [[nodiscard]] Pdf close() && {
    write_faces();
    write_layers();
    write_notes();
    Pdf out;
    for (const char32_t c : unlettered_) {
      if (!out.unlettered.empty()) out.unlettered += ' ';
      append_utf8(out.unlettered, c);
    }
    if (HPDF_GetError(pdf_.get()) != HPDF_OK || HPDF_SaveToStream(pdf_.get()) != HPDF_OK) {
      return out;
    }
    HPDF_UINT32 size = HPDF_GetStreamSize(pdf_.get());
    out.bytes.resize(size);
    HPDF_ReadFromStream(pdf_.get(), reinterpret_cast<HPDF_BYTE*>(out.bytes.data()), &size);
    out.bytes.resize(size);
    return out;
  }

  [[nodiscard]] bool usable() const { return pdf_ != nullptr; }

 private:
  static constexpr size_t kUnseen = Lettering::kFaces;
  struct Layers {
    int kind = -1, part = kNoPart;
    bool operator==(const Layers&) const = default;
  };
  struct Face {
    HPDF_Dict font = nullptr;             // once a page has used it
    std::map<int, char32_t> used = {};    // glyphs, and what each stands for
    std::map<int, double> advances = {};  // parts of the size
  };
  struct Layer {
    HPDF_Dict group = nullptr;
    std::string name;  // in resources
  };
  struct Used {
    std::set<size_t> faces;
    std::map<std::string, HPDF_Dict> layers, pictures;
  };

  // ---- what a page shows ------------------------------------------------------------------------

  void append(const DrawItem& item) {
    if (!is_finite(item)) return;
    std::visit([this](const auto& one) { append(one); }, item);
  }

  void enter(Role role, int part) {
    if (part >= 0) part += first_part_;
    const Layers wanted{static_cast<int>(kind_of(role)), part};
    if (wanted == open_) return;
    leave_layers();
    open_ = wanted;
    enter(layer_of(kinds_, 'K', wanted.kind, words_(kKinds[kind_of(role)])));
    if (part < 0 || static_cast<size_t>(part) >= notes_.parts.size()) {
      open_.part = kNoPart;
      return;
    }
    enter(layer_of(parts_, 'P', part, notes_.parts[static_cast<size_t>(part)]));
  }
  void enter(const Layer& layer) {
    content_ += "/OC /" + layer.name + " BDC\n";
    used_.layers[layer.name] = layer.group;
  }
  void leave_layers() {
    if (open_.kind >= 0) content_ += "EMC\n";
    if (open_.part >= 0) content_ += "EMC\n";
    open_ = {};
    pen_.clear();
  }

  // Set once for all the items that follow with the same.
  void use(std::string pen) {
    if (pen == pen_) return;
    content_ += pen;
    pen_ = std::move(pen);
  }

  void append_path(const Polyline& points, bool closed) {
    const char* command = "m\n";
    for (const Point p : points) {
      append_point(content_, p);
      content_ += command;
      command = "l\n";
    }
    if (closed && !points.empty()) content_ += "h\n";
  }

  void append(const StrokeItem& line) {
    if (line.points.empty()) return;
    enter(line.role, line.part);
    const Pen& p = pen(line.role, Ink::Paper);
    std::string set;
    append_number(set, p.width);
    set += " w [";
    double whole = 0.0;
    for (const double dash : p.dashes) {
      set += ' ';
      append_number(set, dash);
      whole += dash;
    }
    set += " ] ";
    append_number(set, whole > 0.0 ? std::fmod(line.dash_from, whole) : 0.0);
    use(set + " d\n");
    append_path(line.points, line.closed);
    content_ += "S\n";
  }

  void append(const FillItem& fill) {
    if (!pen(fill.role, Ink::Paper).fills || fill.points.empty()) return;
    enter(fill.role, fill.part);
    const bool white = fill.role == Role::Blank;
    if (white) content_ += "1 g\n";
    append_path(fill.points, true);
    content_ += white ? "f 0 g\n" : "f\n";
  }

  void append(const TextItem& text) {
    const std::string words = cleaned(text.text, kMostText);
    if (words.empty()) return;
    enter(text.role, text.part);
    if (text.clip) {
      content_ += "q ";
      append_point(content_, {text.clip->x0, text.clip->y0});
      append_point(content_, {text.clip->width(), text.clip->height()});
      content_ += "re W n\n";
    }
    if (lettering_.has(words)) {
      set(text, lettering_.glyphs(words, is_bold(text.role)));
    } else {
      set_unlettered(text, words);
    }
    if (text.clip) content_ += "Q\n";
  }

  // A row of glyphs with □ in place of what no face has.
  std::vector<Lettering::Glyph> with_signs(const std::string& words, bool bold) {
    std::string shown;
    for (const Lettering::Glyph& one : lettering_.glyphs(words, bold)) {
      const bool lacks = one.face == Lettering::kFaces;
      if (lacks) unlettered_.insert(one.character);
      append_utf8(shown, lacks ? kInstead : one.character);
    }
    return lettering_.glyphs(shown, bold);
  }

  void begin_text(const TextItem& text, Point at) {
    const Vec along = {std::cos(text.angle), std::sin(text.angle)};
    content_ += "BT ";
    for (const double v : {along.x, along.y, along.y, -along.x}) append_ratio(content_, v);
    append_point(content_, at);
    content_ += "Tm\n";
  }

  void use_face(size_t face, double size) {
    used_.faces.insert(face);
    content_ += "/F" + std::to_string(face) + " ";
    append_number(content_, size);
    content_ += " Tf ";
  }

  void set(const TextItem& text, const std::vector<Lettering::Glyph>& row) {
    const Vec along = {std::cos(text.angle), std::sin(text.angle)};
    begin_text(text, text.at - text.anchor * text.size_mm * Lettering::width(row) * along);
    size_t face = Lettering::kFaces;
    for (const Lettering::Glyph& one : row) {
      if (one.face == Lettering::kFaces) continue;
      if (one.face != face) {
        if (face != Lettering::kFaces) content_ += "> Tj\n";
        face = one.face;
        use_face(face, text.size_mm);
        content_ += '<';
      }
      append_hex(content_, static_cast<unsigned>(one.glyph), 4);
      faces_[face].used.emplace(one.glyph, one.character);
      faces_[face].advances.emplace(one.glyph, one.advance);
    }
    content_ += face != Lettering::kFaces ? "> Tj ET\n" : "ET\n";
  }

  // A line with letters that no face has: the host's picture of it, or signs in their place; and
  // over it, unseen, its characters, by which it is found and copied as it was written.
  void set_unlettered(const TextItem& text, const std::string& words) {
    double length = 0.0;
    if (!draw_picture(text, words, length)) {
      const auto row = with_signs(words, is_bold(text.role));
      length = text.size_mm * Lettering::width(row);
      content_ += "/Span <</ActualText <FEFF>>> BDC\n";
      set(text, row);
      content_ += "EMC\n";
    }
    if (!unseen_face()) return;
    const std::vector<char32_t> row = as_seen(words);
    const Vec along = {std::cos(text.angle), std::sin(text.angle)};
    begin_text(text, text.at - text.anchor * length * along);
    use_face(kUnseen, text.size_mm);
    // Every character is as wide as the size; the line as long as what is seen of it.
    content_ += "3 Tr ";
    append_number(content_, 100.0 * length / (text.size_mm * static_cast<double>(row.size())));
    content_ += " Tz <";
    for (const char32_t c : row) {
      append_hex(content_, unseen_.emplace(c, unseen_.size() + 1).first->second, 4);
    }
    content_ += "> Tj ET 0 Tr 100 Tz\n";
  }

  // The face that stands behind unseen characters.
  [[nodiscard]] std::optional<size_t> unseen_face() const {
    for (const size_t face : {Lettering::kPlain, Lettering::kOther, Lettering::kBold}) {
      if (lettering_.usable(face)) return face;
    }
    return std::nullopt;
  }

  // False if the host draws none. Gives back how long it is, mm.
  bool draw_picture(const TextItem& text, const std::string& words, double& length) {
    if (!letters_) return false;
    constexpr double kPixels = 12.0, kMostPixels = 200.0;  // a mm: about 300 an inch; of a size
    const double size = std::min(kMostPixels, kPixels * text.size_mm);
    const bool bold = is_bold(text.role);
    const std::string key = std::to_string(std::lround(size)) + (bold ? "b" : "p") + words;
    auto known = pictures_.find(key);
    if (known == pictures_.end()) {
      known = pictures_.emplace(key, picture_of(letters_(words, size, bold, "#000000"))).first;
    }
    const Picture& picture = known->second;
    if (picture.image == nullptr) return false;
    const double mm = text.size_mm / size;
    const Vec along = {std::cos(text.angle), std::sin(text.angle)}, down = {-along.y, along.x};
    // Drawn lines have as much margin on either side.
    length = mm * (picture.width + 2.0 * picture.left);
    const Point start = text.at - text.anchor * length * along;
    const Point lower_left =
        start + (mm * picture.left) * along + (mm * (picture.top + picture.height)) * down;
    content_ += "q ";
    for (const Vec v : {(mm * picture.width) * along, (-mm * picture.height) * down}) {
      append_ratio(content_, v.x);
      append_ratio(content_, v.y);
    }
    append_point(content_, lower_left);
    content_ += "cm /" + picture.name + " Do Q\n";
    used_.pictures[picture.name] = picture.image;
    return true;
  }

  struct Picture {
    HPDF_Dict image = nullptr;
    std::string name;
    double width = 0.0, height = 0.0, left = 0.0, top = 0.0;  // px
  };
  Picture picture_of(const TextPicture& drawn) {
    if (!drawn.whole()) return {};
    std::vector<HPDF_BYTE> rgb, alpha;
    for (size_t i = 0; i < drawn.rgba.size(); i += 4) {
      rgb.insert(rgb.end(), {drawn.rgba[i], drawn.rgba[i + 1], drawn.rgba[i + 2]});
      alpha.push_back(drawn.rgba[i + 3]);
    }
    const auto w = static_cast<HPDF_UINT>(drawn.width), h = static_cast<HPDF_UINT>(drawn.height);
    HPDF_Doc pdf = pdf_.get();
    HPDF_Dict image = HPDF_LoadRawImageFromMem(pdf, rgb.data(), w, h, HPDF_CS_DEVICE_RGB, 8);
    HPDF_Dict mask = HPDF_LoadRawImageFromMem(pdf, alpha.data(), w, h, HPDF_CS_DEVICE_GRAY, 8);
    if (image == nullptr || mask == nullptr) return {};
    HPDF_Image_AddSMask(image, mask);
    return {image,
            "I" + std::to_string(pictures_.size()),
            static_cast<double>(drawn.width),
            static_cast<double>(drawn.height),
            static_cast<double>(drawn.left),
            static_cast<double>(drawn.top)};
  }

  // ---- objects ----------------------------------------------------------------------------------

  HPDF_Dict dict() { return HPDF_Dict_New(pdf_->mmgr); }
  HPDF_Dict object() {
    HPDF_Dict one = dict();
    HPDF_Xref_Add(pdf_->xref, one);
    return one;
  }
  HPDF_Array array() { return HPDF_Array_New(pdf_->mmgr); }
  // A text of the document's: UTF-16.
  HPDF_Binary text(std::string_view utf8) { return latin("\xFE\xFF" + utf16(utf8)); }
  HPDF_Dict stream(std::string_view bytes) {
    HPDF_Dict one = HPDF_DictStream_New(pdf_->mmgr, pdf_->xref);
    if (one == nullptr) return nullptr;
    one->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    HPDF_Stream_Write(one->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                      static_cast<HPDF_UINT>(bytes.size()));
    return one;
  }

  const Layer& layer_of(std::map<int, Layer>& layers, char letter, int number,
                        const std::string& name) {
    Layer& layer = layers[number];
    if (layer.group == nullptr) {
      layer.group = object();
      layer.name = letter + std::to_string(number);
      HPDF_Dict_AddName(layer.group, "Type", "OCG");
      HPDF_Dict_Add(layer.group, "Name", text(cleaned(name, kMostText)));
    }
    return layer;
  }

  void give_resources() {
    HPDF_Dict resources =
        static_cast<HPDF_Dict>(HPDF_Page_GetInheritableItem(page_, "Resources", HPDF_OCLASS_DICT));
    if (resources == nullptr) return;
    const auto add = [&](const char* kind, const std::map<std::string, HPDF_Dict>& named) {
      if (named.empty()) return;
      HPDF_Dict all = dict();
      for (const auto& [name, one] : named) HPDF_Dict_Add(all, name.c_str(), one);
      HPDF_Dict_Add(resources, kind, all);
    };
    std::map<std::string, HPDF_Dict> fonts;
    for (const size_t face : used_.faces) {
      if (faces_[face].font == nullptr) faces_[face].font = object();
      fonts["F" + std::to_string(face)] = faces_[face].font;
    }
    add("Font", fonts);
    add("Properties", used_.layers);
    add("XObject", used_.pictures);
  }

  // A face as a font of the kind whose codes are its glyphs (ISO 32000-1, 9.7.4).
  void write_faces() {
    for (size_t i = 0; i < Lettering::kFaces; ++i) {
      if (faces_[i].font != nullptr) write_face(i, faces_[i], i);
    }
    Face& unseen = faces_[kUnseen];
    if (unseen.font == nullptr) return;
    for (const auto& [character, code] : unseen_) {
      unseen.used[static_cast<int>(code)] = character;
      unseen.advances[static_cast<int>(code)] = 1.0;
    }
    write_face(*unseen_face(), unseen, kUnseen);
  }

  // `named`: a number that tells fonts of one face apart.
  void write_face(size_t i, const Face& face, size_t named) {
    const bool outlines_of_cff = !table_of(files_[i], kCff).empty();
    // Nothing of the unseen face is drawn.
    std::set<int> drawn;
    for (const auto& [glyph, character] : face.used) {
      if (named != kUnseen) drawn.insert(glyph);
    }
    const auto file = with_outlines_of(drawn, lettering_.info(i), files_[i]);
    const std::string name = face_name(i, named, file);
    HPDF_Dict descendant = object();
    HPDF_Dict_AddName(face.font, "Type", "Font");
    HPDF_Dict_AddName(face.font, "Subtype", "Type0");
    HPDF_Dict_AddName(face.font, "BaseFont", name.c_str());
    HPDF_Dict_AddName(face.font, "Encoding", "Identity-H");
    HPDF_Array descendants = array();
    HPDF_Array_Add(descendants, descendant);
    HPDF_Dict_Add(face.font, "DescendantFonts", descendants);
    HPDF_Dict_Add(face.font, "ToUnicode", stream(unicode_of(face)));

    HPDF_Dict_AddName(descendant, "Type", "Font");
    HPDF_Dict_AddName(descendant, "Subtype", outlines_of_cff ? "CIDFontType0" : "CIDFontType2");
    HPDF_Dict_AddName(descendant, "BaseFont", name.c_str());
    HPDF_Dict system = dict();
    HPDF_Dict_Add(system, "Registry", latin("Adobe"));
    HPDF_Dict_Add(system, "Ordering", latin("Identity"));
    HPDF_Dict_AddNumber(system, "Supplement", 0);
    HPDF_Dict_Add(descendant, "CIDSystemInfo", system);
    if (!outlines_of_cff) HPDF_Dict_AddName(descendant, "CIDToGIDMap", "Identity");
    HPDF_Dict_AddNumber(descendant, "DW", 0);
    HPDF_Array widths = array();
    for (const auto& [glyph, advance] : face.advances) {
      HPDF_Array one = array();
      HPDF_Array_AddReal(one, static_cast<HPDF_REAL>(1000.0 * advance));
      HPDF_Array_AddNumber(widths, glyph);
      HPDF_Array_Add(widths, one);
    }
    HPDF_Dict_Add(descendant, "W", widths);
    HPDF_Dict_Add(descendant, "FontDescriptor", descriptor(i, name, file, outlines_of_cff));
  }

  HPDF_Dict descriptor(size_t i, const std::string& name, std::span<const unsigned char> bytes,
                       bool outlines_of_cff) {
    const stbtt_fontinfo& info = lettering_.info(i);
    const double unit = 1000.0 * lettering_.unit(i);
    const auto number = [&](double of_face) { return static_cast<HPDF_INT32>(unit * of_face); };
    HPDF_Dict one = object();
    HPDF_Dict_AddName(one, "Type", "FontDescriptor");
    HPDF_Dict_AddName(one, "FontName", name.c_str());
    HPDF_Dict_AddNumber(one, "Flags", 4);  // its own set of characters
    int x0 = 0, y0 = 0, x1 = 0, y1 = 0, ascent = 0, descent = 0;
    stbtt_GetFontBoundingBox(&info, &x0, &y0, &x1, &y1);
    stbtt_GetFontVMetrics(&info, &ascent, &descent, nullptr);
    HPDF_Array box = array();
    for (const int side : {x0, y0, x1, y1}) HPDF_Array_AddNumber(box, number(side));
    HPDF_Dict_Add(one, "FontBBox", box);
    HPDF_Dict_AddNumber(one, "ItalicAngle", 0);
    HPDF_Dict_AddNumber(one, "Ascent", number(ascent));
    HPDF_Dict_AddNumber(one, "Descent", number(descent));
    HPDF_Dict_AddNumber(
        one, "CapHeight",
        number(stbtt_GetCodepointBox(&info, 'H', &x0, &y0, &x1, &y1) != 0 ? y1 : ascent));
    // The stem's width, which no reader needs of an embedded face: of a bold and of a plain one.
    HPDF_Dict_AddNumber(one, "StemV", i == Lettering::kBold ? 120 : 80);
    if (outlines_of_cff) {
      const auto table = table_of(bytes, kCff);
      HPDF_Dict file = stream({reinterpret_cast<const char*>(table.data()), table.size()});
      HPDF_Dict_AddName(file, "Subtype", "CIDFontType0C");
      HPDF_Dict_Add(one, "FontFile3", file);
    } else {
      HPDF_Dict file = stream({reinterpret_cast<const char*>(bytes.data()), bytes.size()});
      HPDF_Dict_AddNumber(file, "Length1", static_cast<HPDF_INT32>(bytes.size()));
      HPDF_Dict_Add(one, "FontFile2", file);
    }
    return one;
  }

  // In the reader's list of contents. The call takes a text of the library's own code pages.
  void begin_chapter(const std::string& title) {
    HPDF_Outline one = HPDF_CreateOutline(pdf_.get(), nullptr, "", nullptr);
    HPDF_Destination at = HPDF_Page_CreateDestination(page_);
    if (one == nullptr || at == nullptr) return;
    HPDF_Dict_Add(one, "Title", text(cleaned(title, kMostText)));
    HPDF_Outline_SetDestination(one, at);
  }

  HPDF_Binary latin(std::string bytes) {
    return HPDF_Binary_New(pdf_->mmgr, reinterpret_cast<HPDF_BYTE*>(bytes.data()),
                           static_cast<HPDF_UINT>(bytes.size()));
  }

  // "KQWEXA+Cabin-Regular": the mark of a face that was cut down is made of its bytes.
  std::string face_name(size_t i, size_t named, std::span<const unsigned char> file) {
    unsigned hash = 2166136261U + static_cast<unsigned>(named);  // FNV-1a
    for (const unsigned char byte : file) hash = (hash ^ byte) * 16777619U;
    std::string name;
    for (int k = 0; k < 6; ++k, hash /= 26U) name += static_cast<char>('A' + hash % 26U);
    name += '+';
    int length = 0;
    const char* own = stbtt_GetFontNameString(&lettering_.info(i), &length, 3, 1, 0x409, 6);
    // UTF-16, of ASCII; where it has none, a number.
    std::string ascii;
    for (int k = 1; own != nullptr && k < length && ascii.size() < 60; k += 2) {
      const char c = own[k];
      const bool plain =
          (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-';
      if (plain) ascii += c;
    }
    return name + (ascii.empty() ? "Face" + std::to_string(i) : ascii);
  }

  static std::string unicode_of(const Face& face) {
    std::string out =
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    constexpr size_t kBlock = 100;
    size_t left = face.used.size();
    auto one = face.used.begin();
    while (left > 0) {
      const size_t count = std::min(left, kBlock);
      out += std::to_string(count) + " beginbfchar\n";
      for (size_t k = 0; k < count; ++k, ++one) {
        std::string utf8;
        append_utf8(utf8, one->second);
        out += '<';
        append_hex(out, static_cast<unsigned>(one->first), 4);
        out += "> <" + utf16_hex(utf8) + ">\n";
      }
      out += "endbfchar\n";
      left -= count;
    }
    return out + "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
  }

  void write_layers() {
    if (kinds_.empty()) return;
    HPDF_Array all = array(), order = array();
    const auto add = [&](const char* title, const std::map<int, Layer>& layers) {
      if (layers.empty()) return;
      HPDF_Array under = array();
      HPDF_Array_Add(under, text(words_(title)));
      for (const auto& [number, layer] : layers) {
        HPDF_Array_Add(all, layer.group);
        HPDF_Array_Add(under, layer.group);
      }
      HPDF_Array_Add(order, under);
    };
    add("kind.title", kinds_);
    add("cover.pieces", parts_);
    HPDF_Dict shown = dict();
    HPDF_Dict_Add(shown, "Order", order);
    HPDF_Dict_AddName(shown, "BaseState", "ON");
    HPDF_Dict properties = dict();
    HPDF_Dict_Add(properties, "OCGs", all);
    HPDF_Dict_Add(properties, "D", shown);
    HPDF_Dict_Add(pdf_->catalog, "OCProperties", properties);
  }

  void write_notes() {
    pdf_->pdf_version = HPDF_VER_17;
    HPDF_Dict preferences = dict();
    HPDF_Dict_AddName(preferences, "PrintScaling", "None");
    HPDF_Dict_AddBoolean(preferences, "PickTrayByPDFSize", HPDF_TRUE);
    HPDF_Dict_AddBoolean(preferences, "DisplayDocTitle", HPDF_TRUE);
    if (notes_.one_side) HPDF_Dict_AddName(preferences, "Duplex", "Simplex");
    HPDF_Dict_Add(pdf_->catalog, "ViewerPreferences", preferences);
    HPDF_Dict_Add(pdf_->catalog, "Lang", latin("en"));
    HPDF_Dict info = pdf_->info;
    if (info == nullptr) return;
    HPDF_Dict_Add(info, "Title", text(cleaned(notes_.title, kMostText)));
    HPDF_Dict_Add(info, "Subject", text(cleaned(notes_.subject, kMostText)));
    HPDF_Dict_Add(info, "Creator", text(std::string("Coatwright ") + version()));
    if (notes_.day.empty()) return;
    std::string date = "D:";
    std::copy_if(notes_.day.begin(), notes_.day.end(), std::back_inserter(date),
                 [](char c) { return c != '-'; });
    HPDF_Dict_Add(info, "CreationDate", latin(date));
  }

  std::unique_ptr<HPDF_Doc_Rec, decltype(&HPDF_Free)> pdf_;
  const PdfNotes& notes_;
  const DrawText& letters_;
  const Words& words_;
  Lettering lettering_;
  std::array<std::span<const unsigned char>, Lettering::kFaces> files_;
  std::array<Face, Lettering::kFaces + 1> faces_;
  std::map<char32_t, unsigned> unseen_ = {};  // characters of unseen lines, and their codes
  std::map<int, Layer> kinds_, parts_;
  std::map<std::string, Picture> pictures_;
  std::set<char32_t> unlettered_;
  HPDF_Page page_ = nullptr;
  int first_part_ = 0;
  std::string content_;
  Layers open_;
  std::string pen_;
  Used used_;
};

}  // namespace

Pdf to_pdf(const std::vector<PdfPage>& pages, const PdfNotes& notes, const PictureFonts& fonts,
           const Words& words) {
  Writer writer(notes, fonts, words);
  if (!writer.usable()) return {};
  bool any = false;
  for (const PdfPage& page : pages) {
    const auto fits = [](double side) { return side >= kLeastPdfPage && side <= kMostPdfPage; };
    if (!fits(page.width) || !fits(page.height)) continue;
    writer.add(page);
    any = true;
  }
  return any ? std::move(writer).close() : Pdf{};
}

}  // namespace coatwright
