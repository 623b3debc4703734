#include "shell/rack/keep.h"

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>

namespace coatwright::studio {

using Json = nlohmann::json;

namespace {

constexpr size_t kMostHalfTyped = 64;  // bytes; a reading is far shorter

// Text from outside need not be UTF-8: what is not is shown as replaced.
std::string text_of(const Json& json, int indent = -1) {
  return json.dump(indent, ' ', false, Json::error_handler_t::replace);
}

std::string string_in(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_string() ? json[key].get<std::string>() : std::string();
}

std::vector<std::string> strings_in(const Json& json, const char* key) {
  std::vector<std::string> out;
  if (!json.contains(key) || !json[key].is_array()) return out;
  for (const Json& value : json[key]) {
    out.push_back(value.is_string() ? value.get<std::string>() : text_of(value));
  }
  return out;
}

size_t count_in(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_number_unsigned() ? json[key].get<size_t>() : 0;
}

Json object_of(std::string_view text) {
  Json json = Json::parse(text.begin(), text.end(), nullptr, false);
  return json.is_object() ? json : Json::object();
}

}  // namespace

std::string keep_json(const Keep& keep) {
  return text_of({{"id", keep.id},
                  {"card", keep.card},
                  {"lines", keep.lines},
                  {"anew", keep.anew},
                  {"aside", keep.aside},
                  {"moved", keep.moved},
                  {"again", keep.again},
                  {"gone", keep.gone}});
}

Stored read_stored(std::string_view text) {
  const Json json = object_of(text);
  return {.notes = string_in(json, "notes"),
          .cards = strings_in(json, "cards"),
          .before = string_in(json, "before"),
          .asides = strings_in(json, "asides"),
          .fresh = count_in(json, "fresh"),
          .mark = string_in(json, "mark"),
          .half = string_in(json, "half"),
          .closed = json.contains("closed") && json["closed"] == true};
}

std::string write_mark(const RackMark& mark) {
  if (mark.tickets == 0) return {};
  return std::to_string(mark.tickets) + " " + std::to_string(mark.changed);
}

RackMark read_mark(std::string_view text) {
  RackMark mark;
  const char* const end = text.data() + text.size();
  const auto count = std::from_chars(text.data(), end, mark.tickets);
  if (count.ec != std::errc() || mark.tickets < 0 || count.ptr == end || *count.ptr != ' ')
    return {};
  const auto time = std::from_chars(count.ptr + 1, end, mark.changed);
  return time.ec == std::errc() && time.ptr == end ? mark : RackMark{};
}

std::string write_half(const HalfTyped& half) {
  if (half.entry.empty()) return {};
  return text_of({{"ticket", half.ticket}, {"measure", half.measure}, {"entry", half.entry}});
}

HalfTyped read_half(std::string_view text) {
  const Json json = object_of(text);
  HalfTyped half{.ticket = string_in(json, "ticket"),
                 .measure = string_in(json, "measure"),
                 .entry = string_in(json, "entry")};
  return half.entry.size() <= kMostHalfTyped ? half : HalfTyped{};
}

std::string unread_json(const std::vector<std::string>& rows) {
  return text_of({{"coatwright-unread", 1}, {"rows", rows}}, 1) + "\n";
}

std::vector<std::string> read_stored_cards(std::string_view lines) {
  std::vector<std::string> out;
  while (!lines.empty()) {
    const size_t end = std::min(lines.find('\0'), lines.size());
    out.emplace_back(lines.substr(0, end));
    lines.remove_prefix(std::min(end + 1, lines.size()));
  }
  return out;
}

}  // namespace coatwright::studio
