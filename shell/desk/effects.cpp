#include "shell/desk/effects.h"

namespace coatwright::studio {

Effect::Effect(const Effect&) = default;
Effect::Effect(Effect&&) noexcept = default;
Effect& Effect::operator=(const Effect&) = default;
Effect& Effect::operator=(Effect&&) noexcept = default;
Effect::~Effect() = default;

}  // namespace coatwright::studio
