// Paper sizes by name or by measure. Millimetres, portrait.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace coatwright {

struct Paper {
  std::string id;      // "a4", "letter", "legal", "tabloid", "a3", "a0", or "WxHmm" as given
  double width = 0.0;  // the shorter side
  double height = 0.0;
};

// Sides of a "WxHmm" paper, mm.
inline constexpr double kSmallestPaper = 80.0;
inline constexpr double kLargestPaper = 5000.0;

[[nodiscard]] const std::vector<Paper>& papers();

// One of papers(), or "WxHmm" ("914x1219mm", "228.6x304.8mm"): two plain decimal numbers between
// kSmallestPaper and kLargestPaper, in either order. Problems: PaperUnknown (also for a side over
// kLargestPaper), PaperTooSmall; subject "paper".
[[nodiscard]] Result<Paper> paper_by_id(std::string_view id);

}  // namespace coatwright
