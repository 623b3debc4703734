// How far back anything that goes round the belly may reach. Millimetres.
#pragma once

#include "core/body/measures.h"

namespace coatwright {

// Along the midline from the breastbone: ahead of the sheath for a male or a dog of unknown sex, no
// further than the underline for a female.
[[nodiscard]] double belly_end(const Body& body);

// The same along the spine from N. The underline starts at the breastbone, as the breast length
// does, which lies about breast - back ahead of N.
[[nodiscard]] double belly_limit(const Body& body);

}  // namespace coatwright
