#include "shell/counter/about_panel.h"

#include "core/base/version.h"
#include "core/sheet/page_blocks.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

void head(Frame& f, Columns& flow, const std::string& key) {
  const Box box = flow.next(32.0F);
  heading(f, key, {box.x, box.centre().y + 2.0F}, f.words(key), kLarge);
}

// The parts that ship, by the word table: "ui.part." and the name that web/sources.txt gives it.
void parts(Frame& f, Columns& flow) {
  constexpr std::string_view kGroup = "ui.part.";
  for (const std::string& key : f.words.keys()) {
    if (key.starts_with(kGroup)) paragraph(f, flow, key, f.words(key));
  }
}

float content(Frame& f, const Box& box) {
  Columns flow(box, box.w, kGap);
  const Box title = flow.next(30.0F);
  heading(f, "about.title", {title.x, title.centre().y}, f.words("ui.about"));
  paragraph(f, flow, "about.version", f.words("ui.about-version", {version()}));
  for (const char* key : {"ui.about-what", "ui.about-here", "ui.about-not"}) {
    paragraph(f, flow, key, f.words(key));
  }
  if (button(f, "about.close", flow.next(kTarget), f.words("ui.about-close"),
             {.look = Look::Solid})) {
    f.view.about = false;
    f.view.focus_on = "rack.about";
  }
  head(f, flow, "cover.cautions");
  for (const char* key : kCautions) paragraph(f, flow, key, f.words(key));
  head(f, flow, "ui.about-parts");
  parts(f, flow);
  // They are a file of the site; a native window has no site.
  if (f.site.address.empty()) {
    paragraph(f, flow, "about.notices-there", f.words("ui.about-notices-there"));
  } else if (button(f, "about.notices", flow.next(kTarget), f.words("ui.about-notices"))) {
    f.effects.emplace_back(OpenPage{"notices.txt"});
  }
  return flow.height();
}

}  // namespace

void about_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.about", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner)) + kSheetPad; });
}

}  // namespace coatwright::studio
