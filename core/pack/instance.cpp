#include "core/pack/instance.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>

#include "core/base/utf8.h"

namespace coatwright {

namespace {

using Json = nlohmann::json;
using OrderedJson = nlohmann::ordered_json;
using Wrong = std::optional<Problem>;  // nothing, or the first thing that is wrong

constexpr double kMostNumber = 1e9;
constexpr size_t kMostNameCharacters = 200;

Problem at(const std::string& path, Code code, std::string_view other = {}) {
  return {.code = code, .subject = path, .other = std::string(other)};
}
std::string step(const std::string& path, size_t index) {
  return path + "/" + std::to_string(index);
}

// The field `key` of an object as `out`; null if it is not there.
const Json* field(const Json& object, const char* key) {
  const auto found = object.find(key);
  return found == object.end() || found->is_null() ? nullptr : &*found;
}

Wrong read_number(const Json* json, const std::string& path, double lowest, double highest,
                  double& out) {
  if (!json) return at(path, Code::PackFieldMissing);
  if (!json->is_number()) return at(path, Code::PackFieldType, "number");
  const double number = json->get<double>();
  if (!(number >= lowest && number <= highest)) {
    return Problem{
        .code = Code::PackNumberOutOfRange, .subject = path, .values = {number, lowest, highest}};
  }
  out = number;
  return std::nullopt;
}

Wrong read_list(const Json* json, const std::string& path, size_t most) {
  if (!json) return at(path, Code::PackFieldMissing);
  if (!json->is_array()) return at(path, Code::PackFieldType, "list");
  if (json->size() > most) {
    return Problem{.code = Code::PackListTooLong,
                   .subject = path,
                   .values = {static_cast<double>(json->size()), static_cast<double>(most)}};
  }
  return std::nullopt;
}

Wrong read_ring(const Json* json, const std::string& path, Ring& out) {
  if (Wrong wrong = read_list(json, path, kMostCorners)) return wrong;
  for (size_t i = 0; i < json->size(); ++i) {
    const Json& point = (*json)[i];
    if (!point.is_array() || point.size() != 2) {
      return at(step(path, i), Code::PackFieldType, "point");
    }
    GridPoint p;
    if (Wrong wrong = read_number(&point[0], step(path, i), -kMostNumber, kMostNumber, p.x)) {
      return wrong;
    }
    if (Wrong wrong = read_number(&point[1], step(path, i), -kMostNumber, kMostNumber, p.y)) {
      return wrong;
    }
    out.push_back(p);
  }
  return std::nullopt;
}

Wrong read_id(const Json* json, const std::string& path, std::string& out) {
  if (!json) return at(path, Code::PackFieldMissing);
  if (json->is_string()) {
    const std::string& text = json->get_ref<const std::string&>();
    if (count_characters(text) > kMostNameCharacters || !is_clean(text, false)) {
      return at(path, Code::PackFieldType, "name");
    }
  } else if (!json->is_number_integer()) {
    return at(path, Code::PackFieldType, "name");
  }
  out = json->dump();
  return std::nullopt;
}

Wrong read_stances(const Json* json, const std::string& path, std::vector<Stance>& out) {
  if (Wrong wrong = read_list(json, path, kMostStances)) return wrong;
  if (json->empty()) return at(path, Code::PackFieldMissing);
  out.clear();
  for (size_t i = 0; i < json->size(); ++i) {
    Stance stance;
    if (Wrong wrong = read_number(&(*json)[i], step(path, i), -360.0, 360.0, stance.turned_deg)) {
      return wrong;
    }
    out.push_back(stance);
  }
  return std::nullopt;
}

Wrong read_piece(const Json& json, const std::string& path, PackPiece& out, std::string& id) {
  if (!json.is_object()) return at(path, Code::PackFieldType, "object");
  if (Wrong wrong = read_id(field(json, "id"), path + "/id", id)) return wrong;
  double demand = 0.0;
  if (Wrong wrong =
          read_number(field(json, "demand"), path + "/demand", 0.0, kMostCopies, demand)) {
    return wrong;
  }
  if (demand != std::floor(demand)) return at(path + "/demand", Code::PackFieldType, "count");
  out.quantity = static_cast<int>(demand);
  if (Wrong wrong = read_stances(field(json, "allowed_rotations_deg"),
                                 path + "/allowed_rotations_deg", out.stances)) {
    return wrong;
  }
  if (Wrong wrong = read_ring(field(json, "polygon"), path + "/polygon", out.outline.outer)) {
    return wrong;
  }
  const Json* holes = field(json, "holes");
  if (!holes) return std::nullopt;
  if (Wrong wrong = read_list(holes, path + "/holes", kMostCorners)) return wrong;
  for (size_t h = 0; h < holes->size(); ++h) {
    out.outline.holes.emplace_back();
    if (Wrong wrong = read_ring(&(*holes)[h], step(path + "/holes", h), out.outline.holes.back())) {
      return wrong;
    }
  }
  return std::nullopt;
}

// ---- to the grid --------------------------------------------------------------------------------

template <class Each>
void each_ring(PackTask& task, Each each) {
  for (PackPiece& piece : task.pieces) {
    each(piece.outline.outer);
    for (Ring& hole : piece.outline.holes) each(hole);
  }
}

// The finest power of ten that keeps every piece, however it is turned, within the largest outline.
double units_for(PackTask& task) {
  double largest = 0.0;
  each_ring(task, [&](const Ring& ring) {
    if (ring.empty()) return;
    const GridBox box = bounds(ring);
    largest = std::max(largest, box.width() + box.height());
  });
  double units = 1e6;
  for (double coarser = 1e5; units * largest > kLargestOutline; coarser *= 0.1) {
    // Powers of ten below one are not exact, their inverses are.
    units = coarser >= 1.0 ? coarser : 1.0 / std::floor(1.0 / coarser + 0.5);
  }
  return units;
}

void put_on_grid(PackInstance& instance, double width) {
  PackTask& task = instance.task;
  instance.units = units_for(task);
  bool exact = true;
  each_ring(task, [&](Ring& ring) {
    for (GridPoint& p : ring) {
      const GridPoint q{to_grid(p.x * instance.units), to_grid(p.y * instance.units)};
      // A decimal such as 0.1 is off by its last binary digit, which is no more than this.
      constexpr double kDecimal = 1e-4;
      exact = exact && std::abs(q.x - p.x * instance.units) < kDecimal &&
              std::abs(q.y - p.y * instance.units) < kDecimal;
      p = q;
    }
  });
  // Two corners that were rounded can overlap by less than two grid units.
  task.gap = exact ? 0.0 : 2.0;
  task.strip_width = std::floor(width * instance.units + 1e-4);
}

}  // namespace

Result<PackInstance> read_instance(std::string_view text) {
  if (text.size() > kMostInstanceBytes) {
    return Problem{.code = Code::PackFileTooLarge,
                   .values = {static_cast<double>(text.size()), kMostInstanceBytes}};
  }
  const Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return at("", Code::PackNotJson);
  if (!json.is_object()) return at("", Code::PackFieldType, "object");
  PackInstance instance;
  if (const Json* name = field(json, "name")) {
    if (!name->is_string()) return at("/name", Code::PackFieldType, "text");
    instance.name = cleaned(name->get_ref<const std::string&>(), kMostNameCharacters);
  }
  constexpr double kLeastWidth = 1e-6;
  double width = 0.0;
  if (Wrong wrong = read_number(field(json, "strip_width"), "/strip_width", kLeastWidth,
                                kMostNumber, width)) {
    return *wrong;
  }
  instance.strip_width = width;
  if (const Json* relaxed = field(json, "strip_width_relaxed")) {
    if (Wrong wrong = read_number(relaxed, "/strip_width_relaxed", width, kMostNumber, width)) {
      return *wrong;
    }
  }
  const Json* pieces = field(json, "pieces");
  if (Wrong wrong = read_list(pieces, "/pieces", kMostCopies)) return *wrong;
  std::set<std::string> seen;
  for (size_t i = 0; i < pieces->size(); ++i) {
    PackPiece piece;
    std::string id;
    if (Wrong wrong = read_piece((*pieces)[i], step("/pieces", i), piece, id)) return *wrong;
    if (!seen.insert(id).second) return at(step("/pieces", i) + "/id", Code::PackIdTwice);
    instance.ids.push_back(id);
    instance.task.pieces.push_back(std::move(piece));
  }
  put_on_grid(instance, width);
  return instance;
}

Problem in_file_units(Problem problem, const PackInstance& instance) {
  const size_t piece = std::strtoul(problem.subject.c_str(), nullptr, 10);
  if (piece < instance.ids.size()) problem.subject = instance.ids[piece];
  for (double& value : problem.values) value /= instance.units;
  return problem;
}

std::string write_layout(const PackInstance& instance, const Packing& packing, long long steps) {
  double area_packed = 0.0;
  OrderedJson placements = OrderedJson::array();
  for (const PackPlace& place : packing.places) {
    const auto piece = static_cast<size_t>(place.piece);
    const PackPiece& of = instance.task.pieces[piece];
    area_packed += area(of.outline);
    placements.push_back(
        {{"piece", OrderedJson::parse(instance.ids[piece], nullptr, false)},
         {"rotation_deg", of.stances[static_cast<size_t>(place.stance)].turned_deg},
         {"x", place.at.x / instance.units},
         {"y", place.at.y / instance.units}});
  }
  const double strip = instance.strip_width * instance.units * packing.length;
  const OrderedJson layout = {{"instance", instance.name},
                              {"length", packing.length / instance.units},
                              {"density_pct", strip > 0.0 ? 100.0 * area_packed / strip : 0.0},
                              {"seed", instance.task.seed},
                              {"steps", steps},
                              {"placements", std::move(placements)}};
  return layout.dump(1) + "\n";
}

}  // namespace coatwright
