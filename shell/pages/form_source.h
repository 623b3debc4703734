// What a form (shell/pages/forms.h) is made from.
#pragma once

#include <vector>

#include "core/base/words.h"
#include "core/draw/letters.h"
#include "shell/pages/forms.h"
#include "shell/pages/made_coat.h"

namespace coatwright {

struct FormSource {
  const std::vector<MadeCoat>& coats;  // at least one, but of a form that no dog is in
  const FormChoices& choices;
  const PictureFonts& fonts;
  const Words& words;
};

}  // namespace coatwright
