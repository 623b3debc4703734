// The press: makes the forms of shell/pages/forms.h. In the page it is a program of its own, loaded
// when a form is first asked for (shell/hosts/press.cpp); the window and the command-line tool have it
// within.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/words.h"
#include "core/draw/html.h"
#include "shell/pages/form_source.h"

namespace coatwright {

struct FormFile {
  std::string type;  // media type
  std::string bytes;
  std::vector<std::string> told = {};  // sentences: what of the coat stands otherwise in the file
  HtmlDocument page = {};              // what an HTML file is made of, for who prints it as it is
};
// Refused with FormOfOneCoat where the form is of one and there are more.
[[nodiscard]] Result<FormFile> make_form(Form form, const FormSource& source);

// The blank measuring sheets of tickets, which need not be measured.
[[nodiscard]] Result<FormFile> measuring_form(Form form, const std::vector<CoatText>& coats,
                                              const FormChoices& choices, const PictureFonts& fonts,
                                              const Words& words);

// What came of an order (write_form_order()).
struct Pressed {
  std::optional<FormFile> file = {};
  std::string refused = {};  // without a file: why, in a sentence
};
[[nodiscard]] Pressed press(std::string_view order, const PictureFonts& fonts, const Words& words);

}  // namespace coatwright
