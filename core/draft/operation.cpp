#include "core/draft/operation.h"

namespace coatwright {

const char* stage_id(Stage s) {
  switch (s) {
    case Stage::Prepare:
      return "prepare";
    case Stage::Cut:
      return "cut";
    case Stage::Pieces:
      return "pieces";
    case Stage::Join:
      return "join";
    case Stage::Edges:
      return "edges";
    case Stage::Close:
      return "close";
    case Stage::Try:
      return "try";
  }
  return "";
}

}  // namespace coatwright
