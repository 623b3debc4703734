// What a panel wants done outside the program, as values; the page or the window carries them out.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/draw/html.h"

namespace coatwright::studio {

// Offers a file to the maker (download, share sheet, or a folder of the native window).
struct SaveFile {
  std::string name;
  std::string type;  // media type
  std::string bytes;
};
struct PrintSheets {
  HtmlDocument document;
};
// What is done with a form: it is saved, handed to the device's share sheet, or, if it is HTML, printed.
enum class FormUse { Save, Share, Print };
// A form of the ticket from the press (shell/pages/press.h); App::pressed tells what came of it.
struct PressForm {
  std::string file = {};   // its name
  std::string order = {};  // write_form_order()
  FormUse use = FormUse::Save;
};
enum class PressEnd {
  Made,
  Refused,
  Missing,  // the press could not be loaded
  Broken,   // it stopped in its work
  Waits,    // the file is there; the browser shares it at the next press of the key alone
};
inline constexpr int kPressEnds = 5;
// The form that is being made is not wanted any more.
struct StopPress {};
// Asks for the file of a ticket or of a rack; it comes back through App::open_file.
struct AskForFile {};
// A photograph of a fitting, which lies in the store under the ids of its ticket and its own.
struct PhotoKey {
  std::string ticket, id;
  bool operator==(const PhotoKey&) const = default;
};
// Asks for one, to be kept under this key; App::photo_taken tells once it is.
struct AskForPhoto {
  PhotoKey key;
  bool camera = false;  // of the device, rather than a file
};
// Asks for its pixels; they come back through App::photo_shown.
struct ShowPhoto {
  PhotoKey key;
};
// Asks for its JPEG in base64, which comes back through App::photo_read; and keeps one, if none is
// there.
struct ReadPhoto {
  PhotoKey key;
};
struct KeepPhoto {
  PhotoKey key;
  std::string jpeg;
};
// This window would write on the rack, although another one does; App::hang tells what came of it.
struct TakePen {};
// Puts the studio among the device's own programs, where the browser offers that.
struct Install {};

// A text that is to leave the studio: through the device's share sheet, the clipboard, a mail.
struct ShareText {
  std::string title, text;
};
struct CopyText {
  std::string text;
};
struct MailText {
  std::string subject, text;
};
// Asks for what the clipboard holds; it comes back through App::take_text.
struct AskForPaste {};

// Opens a page of the site, by its file's name, beside the studio.
struct OpenPage {
  std::string file;
};

// Opens the page that lights the cutting table, and hands the coat over to it.
struct LightTable {
  std::string order;  // write_table_order()
};

// The palette that the maker likes, for the next visit. No part of a ticket.
struct RememberLook {
  bool evening = false;
};

using AnyEffect = std::variant<SaveFile, PrintSheets, PressForm, StopPress, AskForFile, AskForPhoto,
                               ShowPhoto, ReadPhoto, KeepPhoto, TakePen, Install, ShareText,
                               CopyText, MailText, AskForPaste, OpenPage, LightTable, RememberLook>;
// As a command, made and taken down in one file.
struct Effect : AnyEffect {
  using AnyEffect::AnyEffect;
  Effect(const Effect&);
  Effect(Effect&&) noexcept;
  Effect& operator=(const Effect&);
  Effect& operator=(Effect&&) noexcept;
  ~Effect();
};
using Effects = std::vector<Effect>;

}  // namespace coatwright::studio
