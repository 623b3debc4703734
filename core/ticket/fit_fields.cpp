#include "core/ticket/fit_fields.h"

#include <algorithm>
#include <cstdio>

#include "core/base/utf8.h"
#include "core/fit/photograph.h"

namespace coatwright {
namespace {

// "2026-11-30": the calendar date of ISO 8601.
Wrong read_date(const Json& json, const std::string& path, std::optional<FitDate>& out) {
  const Problem no_date = at(path, Code::TicketFieldType, "date");
  if (!json.is_string()) return no_date;
  const std::string& text = json.get_ref<const std::string&>();
  constexpr std::string_view kForm = "0000-00-00";
  if (text.size() != kForm.size()) return no_date;
  for (size_t i = 0; i < kForm.size(); ++i) {
    const bool figure = text[i] >= '0' && text[i] <= '9';
    if (kForm[i] == '0' ? !figure : text[i] != kForm[i]) return no_date;
  }
  const auto number = [&](size_t from, size_t count) {
    return std::atoi(text.substr(from, count).c_str());
  };
  const FitDate date{number(0, 4), number(5, 2), number(8, 2)};
  if (!is_date(date)) return no_date;
  out = date;
  return std::nullopt;
}

template <class T, class Read>
Wrong read_some(const Json& json, const std::string& path, size_t most, std::vector<T>& out,
                Read&& read) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > most) return at(step(path, most), Code::TicketFieldUnknown);
  out.resize(json.size());
  for (size_t i = 0; i < json.size(); ++i) {
    if (Wrong wrong = read(json[i], step(path, i), out[i])) return wrong;
  }
  return std::nullopt;
}

Wrong read_note(const Json& json, const std::string& path, FitNote& out) {
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {"place", [&](const Json& v, P p) { return read_id(v, p, out.place); }, true},
          {"kind", [&](const Json& v, P p) { return read_id(v, p, out.kind); }, true},
          {"by", [&](const Json& v, P p) { return read_id(v, p, out.by); }, true},
          {"found",
           [&](const Json& v, P p) { return read_number(v, p, kLeastFit, kMostFit, out.found_mm); },
           true},
      });
}

Wrong read_pin(const Json& json, const std::string& path, PhotoPin& out) {
  using P = const std::string&;
  const auto read_note = [&](const Json& v, P p) {
    int note = 0;
    Wrong wrong = read_count(v, p, 0, static_cast<int>(kMostFitNotes) - 1, note);
    out.note = static_cast<size_t>(note);
    return wrong;
  };
  return read_fields(
      json, path,
      {
          {"note", read_note, true},
          {"x", [&](const Json& v, P p) { return read_number(v, p, 0, 1, out.x); }, true},
          {"y", [&](const Json& v, P p) { return read_number(v, p, 0, 1, out.y); }, true},
      });
}

Wrong read_photograph(const Json& json, const std::string& path, Photograph& out) {
  using P = const std::string&;
  const auto side = [](int& to) {
    return [&to](const Json& v, P p) { return read_count(v, p, 1, kMostPhotoSide, to); };
  };
  return read_fields(
      json, path,
      {
          {"id", [&](const Json& v, P p) { return read_ticket_id(v, p, out.id); }, true},
          {"width", side(out.width), true},
          {"height", side(out.height), true},
          {"pins",
           [&](const Json& v, P p) { return read_some(v, p, kMostFitNotes, out.pins, read_pin); }},
      });
}

// Each pin is of a note that stands there, and of each one there is one.
Wrong check_pins(const Fitting& fitting, const std::string& path) {
  for (size_t i = 0; i < fitting.photographs.size(); ++i) {
    const auto& pins = fitting.photographs[i].pins;
    for (size_t k = 0; k < pins.size(); ++k) {
      const std::string place = step(step(step(step(path, "photographs"), i), "pins"), k);
      if (pins[k].note >= fitting.notes.size()) return at(place, Code::PinWithoutNote);
      if (pin_of(fitting.photographs[i], pins[k].note) != &pins[k]) {
        return at(place, Code::TicketFieldTwice);
      }
    }
  }
  return std::nullopt;
}

// Weights alter nothing.
Wrong read_based_on(const Json& json, const std::string& path, Fitting& out) {
  std::vector<Field> fields;
  for (const MeasureInfo& m : measure_table()) {
    if (m.is_weight) continue;
    fields.push_back({m.id, [&](const Json& v, const std::string& p) {
                        return read_number(v, p, kLeastBasedOn, kMostBasedOn,
                                           out.based_on[static_cast<size_t>(m.measure)]);
                      }});
  }
  return read_fields(json, path, fields);
}

Wrong read_fitting(const Json& json, const std::string& path, Fitting& out) {
  using P = const std::string&;
  const auto read_photographs = [&](const Json& v, P p) {
    return read_some(v, p, kMostPhotographs, out.photographs, read_photograph);
  };
  const Wrong wrong = read_fields(
      json, path,
      {
          {"date", [&](const Json& v, P p) { return read_date(v, p, out.date); }},
          {"based-on", [&](const Json& v, P p) { return read_based_on(v, p, out); }},
          {"words", [&](const Json& v,
                        P p) { return read_text(v, p, kMostFittingCharacters, false, out.words); }},
          {"notes",
           [&](const Json& v, P p) { return read_some(v, p, kMostFitNotes, out.notes, read_note); },
           true},
          {"photographs", read_photographs},
      });
  return wrong ? wrong : check_pins(out, path);
}

OrderedJson note_json(const FitNote& n) {
  return {{"place", id_of(n.place)},
          {"kind", id_of(n.kind)},
          {"by", id_of(n.by)},
          {"found", n.found_mm}};
}

// `numbers`: where each note of the fitting is written, from 0; -1: nowhere.
OrderedJson photograph_json(const Photograph& photograph, const std::vector<int>& numbers) {
  OrderedJson pins = OrderedJson::array();
  for (const PhotoPin& pin : photograph.pins) {
    const bool sound = pin.x >= 0.0 && pin.x <= 1.0 && pin.y >= 0.0 && pin.y <= 1.0 &&
                       pin.note < numbers.size() && numbers[pin.note] >= 0;
    if (!sound || pin_of(photograph, pin.note) != &pin) continue;
    pins.push_back({{"note", numbers[pin.note]}, {"x", pin.x}, {"y", pin.y}});
  }
  OrderedJson out = {
      {"id", photograph.id}, {"width", photograph.width}, {"height", photograph.height}};
  if (!pins.empty()) out["pins"] = std::move(pins);
  return out;
}

bool may_be_kept(const Photograph& photograph) {
  const auto side = [](int px) { return px >= 1 && px <= kMostPhotoSide; };
  return is_ticket_id(photograph.id) && side(photograph.width) && side(photograph.height);
}

OrderedJson fitting_json(const Fitting& fitting) {
  OrderedJson out = OrderedJson::object();
  if (fitting.date && is_date(*fitting.date)) {
    char text[40];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", fitting.date->year, fitting.date->month,
                  fitting.date->day);
    out["date"] = text;
  }
  OrderedJson based_on = OrderedJson::object();
  for (const MeasureInfo& m : measure_table()) {
    const double mm = fitting.based_on[static_cast<size_t>(m.measure)];
    if (!m.is_weight && mm >= kLeastBasedOn && mm <= kMostBasedOn) based_on[m.id] = mm;
  }
  if (!based_on.empty()) out["based-on"] = std::move(based_on);
  if (!fitting.words.empty()) out["words"] = cleaned(fitting.words, kMostFittingCharacters);
  OrderedJson notes = OrderedJson::array();
  std::vector<int> numbers;
  for (const FitNote& n : fitting.notes) {
    const bool sound =
        n.found_mm >= kLeastFit && n.found_mm <= kMostFit && notes.size() < kMostFitNotes;
    numbers.push_back(sound ? static_cast<int>(notes.size()) : -1);
    if (sound) notes.push_back(note_json(n));
  }
  out["notes"] = std::move(notes);
  OrderedJson photographs = OrderedJson::array();
  for (const Photograph& photograph : fitting.photographs) {
    if (!may_be_kept(photograph) || photographs.size() == kMostPhotographs) continue;
    photographs.push_back(photograph_json(photograph, numbers));
  }
  if (!photographs.empty()) out["photographs"] = std::move(photographs);
  return out;
}

}  // namespace

Wrong read_fittings(const Json& json, const std::string& path, std::vector<Fitting>& out) {
  return read_some(json, path, kMostFittings, out, read_fitting);
}

OrderedJson fittings_json(const std::vector<Fitting>& fittings) {
  OrderedJson out = OrderedJson::array();
  for (const Fitting& f : fittings) {
    if (out.size() < kMostFittings) out.push_back(fitting_json(f));
  }
  return out;
}

}  // namespace coatwright
