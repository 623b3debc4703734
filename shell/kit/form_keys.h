// Keys that have the press make a form of the ticket (shell/pages/forms.h), and what is told of it
// meanwhile.
#pragma once

#include <functional>

#include "shell/kit/widgets.h"
#include "shell/pages/forms.h"

namespace coatwright::studio {

struct FormKey {
  const char* id;
  Form form;
  const char* words;  // on the key, by their name in the word table
  FormUse use = FormUse::Save;
  ButtonStyle style = {};
  bool of_no_coat = false;  // can be pressed before there is one
};
// It can be pressed while a coat stands that is the ticket's own and no other form is being made.
void form_key(Frame& f, const Box& box, FormKey key);
// Of other coats than the ticket's own, which are asked for when it is pressed. `choices`: what of
// them is the key's own.
using Coats = std::function<std::vector<CoatText>()>;
void form_key(Frame& f, const Box& box, FormKey key, const Coats& coats, FormChoices choices = {});
// Two beside one another.
void form_keys(Frame& f, const Box& row, const FormKey& left, const FormKey& right);

// While the press works: what it makes, and a key to stop it.
void press_row(Frame& f, Columns& flow);

}  // namespace coatwright::studio
