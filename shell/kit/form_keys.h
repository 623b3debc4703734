// Keys that have the press make a form of the ticket (shell/pages/forms.h), and what is told of it
// meanwhile.
#pragma once

#include "shell/kit/widgets.h"
#include "shell/pages/forms.h"

namespace coatwright::studio {

struct FormKey {
  const char* id;
  Form form;
  const char* words;  // on the key, by their name in the word table
  FormUse use = FormUse::Save;
  ButtonStyle style = {};
};
// It can be pressed while a coat stands that is the ticket's own and no other form is being made.
void form_key(Frame& f, const Box& box, FormKey key);
// Two beside one another.
void form_keys(Frame& f, const Box& row, const FormKey& left, const FormKey& right);

// While the press works: what it makes, and a key to stop it.
void press_row(Frame& f, Columns& flow);

}  // namespace coatwright::studio
