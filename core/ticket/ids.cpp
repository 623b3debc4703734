#include "core/ticket/ids.h"

#include <algorithm>

namespace coatwright {

namespace {

template <class T>
struct Named {
  T value;
  const char* id;
};

template <class T>
struct Table;
template <>
struct Table<Unit> {
  static constexpr Named<Unit> rows[] = {{Unit::Inch, "in"}, {Unit::Centimetre, "cm"}};
};
template <>
struct Table<Sex> {
  static constexpr Named<Sex> rows[] = {
      {Sex::Unknown, "unknown"}, {Sex::Female, "female"}, {Sex::Male, "male"}};
};
template <>
struct Table<Build> {
  static constexpr Named<Build> rows[] = {{Build::Ordinary, "ordinary"},
                                          {Build::Broad, "broad"},
                                          {Build::Deep, "deep"},
                                          {Build::LongLow, "long-low"}};
};
template <>
struct Table<Coat> {
  static constexpr Named<Coat> rows[] = {
      {Coat::Short, "short"}, {Coat::Medium, "medium"}, {Coat::Thick, "thick"}};
};
template <>
struct Table<Turn> {
  static constexpr Named<Turn> rows[] = {
      {Turn::Fewest, "fewest"}, {Turn::Portrait, "portrait"}, {Turn::Landscape, "landscape"}};
};
template <>
struct Table<Level> {
  static constexpr Named<Level> rows[] = {
      {Level::Note, "note"}, {Level::Check, "check"}, {Level::Refused, "refused"}};
};
template <>
struct Table<Need> {
  static constexpr Named<Need> rows[] = {{Need::Required, "required"},
                                         {Need::Recommended, "recommended"},
                                         {Need::ByStyle, "by-style"}};
};
template <>
struct Table<Stretch> {
  static constexpr Named<Stretch> rows[] = {{Stretch::None, "none"},
                                            {Stretch::Across, "across"},
                                            {Stretch::Along, "along"},
                                            {Stretch::Both, "both"}};
};
template <>
struct Table<PricedBy> {
  static constexpr Named<PricedBy> rows[] = {
      {PricedBy::Metre, "metre"}, {PricedBy::Yard, "yard"}, {PricedBy::Piece, "piece"}};
};
template <>
struct Table<FitPlace> {
  static constexpr Named<FitPlace> rows[] = {
      {FitPlace::Neck, "neck"},        {FitPlace::Shoulder, "shoulder"},
      {FitPlace::Breast, "breast"},    {FitPlace::Foreleg, "foreleg"},
      {FitPlace::Girth, "girth"},      {FitPlace::Belly, "belly"},
      {FitPlace::Side, "side"},        {FitPlace::Loin, "loin"},
      {FitPlace::HindLeg, "hind-leg"}, {FitPlace::Tail, "tail"},
      {FitPlace::Closure, "closure"}};
};
template <>
struct Table<FitKind> {
  static constexpr Named<FitKind> rows[] = {{FitKind::Loose, "loose"},
                                            {FitKind::Tight, "tight"},
                                            {FitKind::Long, "long"},
                                            {FitKind::Short, "short"},
                                            {FitKind::Low, "low"},
                                            {FitKind::High, "high"},
                                            {FitKind::Back, "too-far-back"},
                                            {FitKind::Forward, "too-far-forward"},
                                            {FitKind::Gapes, "gapes"},
                                            {FitKind::Rubs, "rubs"},
                                            {FitKind::CutsIn, "cuts-in"},
                                            {FitKind::RidesUp, "rides-up"},
                                            {FitKind::SlidesBack, "slides-back"},
                                            {FitKind::Twists, "twists"},
                                            {FitKind::Drags, "drags"}};
};
template <>
struct Table<FitBy> {
  static constexpr Named<FitBy> rows[] = {{FitBy::Pinch, "pinch"}, {FitBy::Gap, "gap"}};
};

template <class T>
const char* id_in_table(T value) {
  for (const Named<T>& row : Table<T>::rows) {
    if (row.value == value) return row.id;
  }
  return "";
}

}  // namespace

const char* id_of(Unit unit) { return id_in_table(unit); }
const char* id_of(Sex sex) { return id_in_table(sex); }
const char* id_of(Build build) { return id_in_table(build); }
const char* id_of(Coat coat) { return id_in_table(coat); }
const char* id_of(Turn turn) { return id_in_table(turn); }
const char* id_of(Level level) { return id_in_table(level); }
const char* id_of(Need need) { return id_in_table(need); }
const char* id_of(Stretch stretch) { return id_in_table(stretch); }
const char* id_of(PricedBy by) { return id_in_table(by); }
const char* id_of(FitPlace place) { return id_in_table(place); }
const char* id_of(FitKind kind) { return id_in_table(kind); }
const char* id_of(FitBy by) { return id_in_table(by); }

template <class T>
const std::vector<T>& all_of() {
  static const std::vector<T> values = [] {
    std::vector<T> v;
    for (const Named<T>& row : Table<T>::rows) v.push_back(row.value);
    return v;
  }();
  return values;
}

template <class T>
std::optional<T> from_id(std::string_view id) {
  for (const Named<T>& row : Table<T>::rows) {
    if (id == row.id) return row.value;
  }
  return std::nullopt;
}

bool is_ticket_id(std::string_view text) {
  return text.size() == 8 && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                  c == '-' || c == '_';
         });
}

#define COATWRIGHT_IDS(T)                     \
  template const std::vector<T>& all_of<T>(); \
  template std::optional<T> from_id<T>(std::string_view)
COATWRIGHT_IDS(Unit);
COATWRIGHT_IDS(Sex);
COATWRIGHT_IDS(Build);
COATWRIGHT_IDS(Coat);
COATWRIGHT_IDS(Turn);
COATWRIGHT_IDS(Level);
COATWRIGHT_IDS(Need);
COATWRIGHT_IDS(Stretch);
COATWRIGHT_IDS(PricedBy);
COATWRIGHT_IDS(FitPlace);
COATWRIGHT_IDS(FitKind);
COATWRIGHT_IDS(FitBy);
#undef COATWRIGHT_IDS

}  // namespace coatwright
