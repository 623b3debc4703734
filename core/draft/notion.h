// Notions: what a coat takes beside cloth.
#pragma once

#include <string>

namespace coatwright {

// Something to buy beside cloth: a length of tape, webbing or binding, or a number of things. How much
// seam tape the coat takes lies with its cloths (core/make/care.h): no draft has any.
enum class NotionKind { HookLoop, Webbing, Elastic, ReflectiveTape, Binding, Buckle, SeamTape };
inline constexpr int kNotionKinds = 7;
[[nodiscard]] const char* notion_id(NotionKind k);  // "hook-and-loop", ...

struct Notion {
  NotionKind kind;
  std::string place;  // word key of what it is for: "mark.front-closure"
  int count = 1;
  double length_mm = 0.0;  // of each, turned-under ends included; 0 for things that are counted
  double width_mm = 0.0;
  std::string step = {};    // id of the step that it is used at
  bool from_cloth = false;  // a strip that is cut from the coat's outer cloth; else bought
};

}  // namespace coatwright
