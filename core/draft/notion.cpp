#include "core/draft/notion.h"

namespace coatwright {

const char* notion_id(NotionKind k) {
  switch (k) {
    case NotionKind::HookLoop:
      return "hook-and-loop";
    case NotionKind::Webbing:
      return "webbing";
    case NotionKind::Elastic:
      return "elastic";
    case NotionKind::ReflectiveTape:
      return "reflective-tape";
    case NotionKind::Binding:
      return "binding";
    case NotionKind::Buckle:
      return "buckle";
    case NotionKind::SeamTape:
      return "seam-tape";
  }
  return "";
}

}  // namespace coatwright
