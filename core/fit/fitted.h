// What an altered coat is drafted from: the dog's measures and the choices, changed by alterations.
//
// An alteration changes its own quantity, and with it what is sized by that and was not chosen; what
// is estimated stays where it lay on the coat that was tried. The draft then solves all lines again.
#pragma once

#include "core/fit/alteration.h"

namespace coatwright {

struct Fitted {
  Body body;  // Value::altered says by how much
  Choices choices;
  std::vector<Alteration> done;  // as far as the coat has room for each
  Findings findings;             // about the notes, and AlterationLimited, NotesMeanReading
};

[[nodiscard]] Fitted fitted(const Body& body, const Choices& choices, const StyleInfo& style,
                            const Alterations& alterations);

// The draft of the altered coat. Its trace says what was altered (rule "alter.<id>.more" or ".less").
[[nodiscard]] Checked<Draft> draft_fitted(const StyleInfo& style, const Fitted& to);

}  // namespace coatwright
