// The words that stand for enumerators in tickets, in the other files and in the word table
// ("sex.male", "build.long-low", ...): one table for each, read both ways.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/body/measures.h"
#include "core/fit/note.h"
#include "core/lay/cloth.h"
#include "core/sheet/print_choices.h"
#include "core/units/length.h"

namespace coatwright {

[[nodiscard]] const char* id_of(Unit unit);        // "in", "cm"
[[nodiscard]] const char* id_of(Sex sex);          // "unknown", "female", "male"
[[nodiscard]] const char* id_of(Build build);      // "ordinary", "broad", "deep", "long-low"
[[nodiscard]] const char* id_of(Coat coat);        // "short", "medium", "thick"
[[nodiscard]] const char* id_of(Turn turn);        // "fewest", "portrait", "landscape"
[[nodiscard]] const char* id_of(Level level);      // "note", "check", "refused"
[[nodiscard]] const char* id_of(Need need);        // "required", "recommended", "by-style"
[[nodiscard]] const char* id_of(Stretch stretch);  // "none", "across", "along", "both"
[[nodiscard]] const char* id_of(PricedBy by);      // "metre", "yard", "piece"
[[nodiscard]] const char* id_of(FitPlace place);   // "neck", "hind-leg"
[[nodiscard]] const char* id_of(FitKind kind);     // "loose", "too-far-back"
[[nodiscard]] const char* id_of(FitBy by);         // "pinch", "gap"

// Whether this may be a ticket's id on a rack: eight characters of base64url (RFC 4648).
[[nodiscard]] bool is_ticket_id(std::string_view text);

// Every value of T in order: for menus and tests.
template <class T>
[[nodiscard]] const std::vector<T>& all_of();
// The value with this id. `T` is one of the enumerations above.
template <class T>
[[nodiscard]] std::optional<T> from_id(std::string_view id);

}  // namespace coatwright
