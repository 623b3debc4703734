// Reading and writing cards as parts of larger files.
#pragma once

#include "core/rack/card.h"
#include "core/rack/printers.h"
#include "core/rack/shelf.h"
#include "core/rack/usual.h"
#include "core/sizes/size_run.h"
#include "core/ticket/fields.h"

namespace coatwright {

inline constexpr size_t kMostCardDepth = 10;

[[nodiscard]] Result<Card> read_card(const Json& json, const std::string& path);
[[nodiscard]] OrderedJson card_json(const Card& card);

[[nodiscard]] Wrong read_time(const Json& json, const std::string& path, UnixMs& out);
// An array of at most `most` elements.
[[nodiscard]] Wrong read_list(const Json& json, const std::string& path, size_t most);
// A list of at most `most` tokens.
[[nodiscard]] Wrong read_tokens(const Json& json, const std::string& path, size_t most,
                                std::vector<SlipToken>& out);
[[nodiscard]] OrderedJson tokens_json(const std::vector<SlipToken>& tokens);

[[nodiscard]] Wrong read_shelf(const Json& json, const std::string& path, Shelf& out);
[[nodiscard]] OrderedJson shelf_json(const Shelf& shelf);

[[nodiscard]] Wrong read_printers(const Json& json, const std::string& path, Printers& out);
[[nodiscard]] OrderedJson printers_json(const Printers& printers);

[[nodiscard]] Wrong read_usual(const Json& json, const std::string& path, Usual& out);
[[nodiscard]] OrderedJson usual_json(const Usual& usual);

[[nodiscard]] Wrong read_sizes(const Json& json, const std::string& path, SizesWanted& out);
[[nodiscard]] OrderedJson sizes_json(const SizesWanted& sizes);

}  // namespace coatwright
