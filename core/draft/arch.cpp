#include "core/draft/arch.h"

namespace coatwright {

void come_down(PathBuilder& path, const Arch& arch, Point hem) {
  const double across = hem.x - arch.centre.x, low = hem.y - arch.centre.y, r = arch.radius;
  if (hem.y - arch.top().y < 1e-6) {
    path.line_to(hem);
    return;
  }
  if (low >= across - r) {
    const double turn = across - r;
    path.arc_to({arch.centre.x + r, arch.centre.y}, arch.centre, true);
    path.line_to({arch.centre.x + r, hem.y - turn});
    path.arc_to(hem, {hem.x, hem.y - turn}, false);
    return;
  }
  const double turn = (across * across + low * low - r * r) / (2.0 * (r + low));
  const Point centre{hem.x, hem.y - turn};
  path.arc_to(arch.centre + r * unit(centre - arch.centre), arch.centre, true);
  path.arc_to(hem, centre, false);
}

}  // namespace coatwright
