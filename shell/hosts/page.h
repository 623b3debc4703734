// Where page and program meet: every call from web/page.js into the program, and the one call back.
// Strings are UTF-8. The page holds no drafting rule, number or sentence.
#pragma once

extern "C" {

// Room for exactly `size` bytes, for the next call that takes bytes: it takes no others, and no more
// than were lent. Null if there is not so much memory; the maker is told, and the call left out.
char* coatwright_room(int size);

// Some of the cards that the page's store holds (read_stored_cards of shell/rack/keep.h): handed over
// ahead of the two calls below, so often that none of these takes long.
void coatwright_stored_cards(const char* lines, int size);
// Starts with them and what else the store holds: JSON, as read_stored() has it; and whether another
// window writes and this one only follows.
void coatwright_start(const char* stored, int size, int follows);
// The store was changed by another window, or this one may write now: all that it holds, as above.
void coatwright_hang(const char* stored, int size, int follows);
// Another window has changed one card: its line now, empty if it was erased; without an id, the
// rack's notes.
void coatwright_card(const char* id, const char* line, int size);
// The history that was asked for by "history": lines of text.
void coatwright_history(const char* id, const char* journal, int size);
// The history that was asked for cannot be had just now.
void coatwright_history_unread(const char* id);
// The store could not keep the change of this ticket ("": of the rack's notes).
void coatwright_keep_failed(const char* id);
// The store stands open again, and this window may write: what it holds.
void coatwright_join(const char* stored, int size);
// What could not be kept is to be tried again.
void coatwright_keep_again();
// The page may be left at any moment: everything that was typed is answered, and what is to be kept
// is sent at once, or all that hangs on the rack.
void coatwright_flush(int everything);
// How safely the store keeps (Kept of shell/rack/keeping.h), and whether the page can be installed.
void coatwright_keeping(int kept, int installable);
// The canvas: CSS pixels, and its size in device pixels, which is exactly what is drawn.
void coatwright_resize(double width, double height, int device_width, int device_height);
// contact: 0 down, 1 move, 2 up, 3 cancelled. Positions in CSS pixels of the canvas.
void coatwright_pointer(int contact, int pointer, int finger, double x, double y, double time_ms);
void coatwright_wheel(double x, double y, double dx, double dy, int zoom);
// A key as KeyboardEvent.key names it.
void coatwright_key(const char* name, int control, int shift);
// The mirror: a control was pressed, got a value, has the focus ("" for none).
void coatwright_act(const char* id);
void coatwright_enter(const char* id, const char* text, const char* was);
void coatwright_focus(const char* id, int shown);
// A file that the maker chose, of so many bytes at the most; of a larger one only its size.
void coatwright_file(const char* bytes, int size);
int coatwright_most_file();
void coatwright_file_too_large(double bytes);
// A photograph that was asked for by "photo-ask" is kept under this id; what one shows, RGBA, that was
// asked for by "photo-show" (nothing: it is not there, or cannot be read); and its JPEG in base64, by
// "photo-read".
void coatwright_photo_taken(const char* id, int width, int height);
void coatwright_photo_shown(const char* id, const char* pixels, int size, int width, int height);
void coatwright_photo_read(const char* id, const char* text, int size);
// Where the pages stand ("https://harbour.example/coats/"); whether there is a share sheet, whether
// it takes files, whether printed pages keep their size, and whether the device has a camera at hand.
void coatwright_site(const char* address, int shares, int shares_files, int keeps_pages,
                     int camera);
// What was pasted or dropped as text, and the fragment of a link that was opened.
void coatwright_text(const char* text, int size);
void coatwright_link(const char* fragment, int size);
// Something outside went wrong or is worth knowing: a key of the word table.
void coatwright_tell(const char* word_key);
// What came of a "press": PressEnd of shell/desk/effects.h, and a sentence or nothing.
void coatwright_pressed(int end, const char* sentence);
// Begins in the evening palette, as the maker left it.
void coatwright_evening();
// Draws if something changed. Returns 2 if it drew, and 1 more if another frame is wanted; 4 if it
// drew nothing but went on with a search, and would do so again at once.
int coatwright_frame(double now_ms);
// The graphics context was lost and is back.
void coatwright_restore();
// The faces that were handed over are ready: what was drawn without them is drawn anew.
void coatwright_faces();
// Asks for the print document now (it comes back as "print-ready").
void coatwright_prepare_print();

// The program's one call out, given by web/page.js as Module.page. What kinds there are:
//   "mirror" controls as JSON      "keep" one change to store, as JSON (keep_json of
//   shell/rack/keep.h) "history" read the history of this id     "take-pen" write here from now on
//   "install" offer the page to the device
//   "print" print this markup (name: its rules)    "print-ready" have it ready, likewise
//   "save" a file (name, type, bytes)
//   "press" and "press-share" a form (name: of its file): an order to the press    "press-stop"
//   "ask-file" let the maker choose a file
//   "photo-ask" let the maker choose a photograph (name: the ticket's id, type: "camera" or nothing,
//   bytes: its own)    "photo-show" and "photo-read" it (name and bytes likewise)    "photo-keep" one of
//   a backup, unless it is there (name: the ticket's id, type: its own, bytes: base64)
//   "share" and "mail" a text (name: its subject)    "copy" a text    "ask-paste" read the
//   clipboard "look" remember the palette, "day" or "evening"
//   "face" a typeface (name: its weight), for the lines that web/letters.js draws
//   "mark" and "half" keep this text beside the store, for the next start (Stored of
//   shell/rack/keep.h); empty: nothing
void coatwright_page(const char* kind, const char* name, const char* type, const char* bytes,
                     int size);
}
