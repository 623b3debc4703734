// Reading JSON from outside, field by field: bounded, nothing skipped, the first fault with its
// path. For the readers of tickets and of what holds tickets; what it calls a path is a JSON
// pointer (RFC 6901).
#pragma once

#include <cstdint>
#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/ticket/ids.h"
#include "core/ticket/ticket.h"

namespace coatwright {

using Json = nlohmann::json;
using OrderedJson = nlohmann::ordered_json;
using Wrong = std::optional<Problem>;  // nothing, or the first thing that is wrong

[[nodiscard]] Problem at(std::string_view path, Code code, std::string_view other = {});

// One step further in a JSON pointer. A hostile file's key is shown clean and short.
[[nodiscard]] std::string step(std::string_view path, std::string_view key);
[[nodiscard]] std::string step(std::string_view path, size_t index);

// The tree of a text, if that is sound UTF-8 and JSON, nested at most `most_depth` deep and without
// a key twice in one object. The caller bounds its size. Problems: TicketTextUnclean,
// TicketNotJson, TicketTooDeep, TicketFieldTwice, TicketFieldType.
[[nodiscard]] Result<Json> parse_json(std::string_view text, size_t most_depth);

struct Field {
  std::string_view key;
  std::function<Wrong(const Json&, const std::string& path)> read;
  bool required = false;
};

// Reads every field of an object; one that is not in `fields` is refused.
[[nodiscard]] Wrong read_fields(const Json& json, const std::string& path,
                                const std::vector<Field>& fields);
// A text of at most `most` characters, fit to be shown; with line breaks only if `lines`.
[[nodiscard]] Wrong read_text(const Json& json, const std::string& path, size_t most, bool lines,
                              std::string& out);
[[nodiscard]] Wrong read_number(const Json& json, const std::string& path, double lowest,
                                double highest, double& out);

// A whole number.
[[nodiscard]] Wrong read_count(const Json& json, const std::string& path, int lowest, int highest,
                               int& out);
// What is_ticket_id().
[[nodiscard]] Wrong read_ticket_id(const Json& json, const std::string& path, std::string& out);

// A piece's id: plain signs only, so that hundreds of them fit into a ticket.
[[nodiscard]] bool is_piece_id(const std::string& text);
[[nodiscard]] Wrong read_piece_id(const Json& json, const std::string& path, std::string& out);

[[nodiscard]] Wrong read_flag(const Json& json, const std::string& path, bool& out);
// One of the words of ids.h.
template <class T>
[[nodiscard]] Wrong read_id(const Json& json, const std::string& path, T& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& id = json.get_ref<const std::string&>();
  const std::optional<T> value = from_id<T>(id);
  if (!value) return at(path, Code::TicketChoiceUnknown, id);
  out = *value;
  return std::nullopt;
}

// The ticket that stands at `path` of a larger file.
[[nodiscard]] Result<Ticket> read_ticket(const Json& json, const std::string& path);
// What write_ticket writes, to be put into a larger file.
[[nodiscard]] OrderedJson ticket_json(const Ticket& ticket);

}  // namespace coatwright
