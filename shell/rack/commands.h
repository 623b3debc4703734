// Everything that can be done to a ticket, as values; apply() makes the ticket that results.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/draft/styles/style.h"
#include "core/slip/merge.h"
#include "core/ticket/ticket.h"

namespace coatwright::studio {

struct AddReading {
  Measure measure = Measure::Back;
  std::string text;                      // as typed; gets the ticket's unit if it names none
  std::optional<BirthMonth> today = {};  // kept as the month of measuring, if it is the first
};
// Instead of all readings of the measure: what fittings say that the tape should have read.
struct ReadAs {
  Measure measure = Measure::Neck;
  std::string text;
  std::optional<BirthMonth> today = {};  // as with AddReading
};
struct RemoveReading {
  Measure measure = Measure::Back;
  int index = 0;
};
// What was ticked of a client's answer, in one step.
struct TakeAnswer {
  SlipAnswer answer;
  SlipTakes takes;
  std::optional<BirthMonth> today = {};  // as with AddReading
};
// The readings of an earlier coat count for this one too.
struct StillSame {
  Measure measure = Measure::Back;
  std::optional<BirthMonth> today = {};  // as with AddReading
};
// Every reading is to be taken again; each fresh one takes the place of the old ones.
struct MeasureAgain {};
struct SetSex {
  Sex sex = Sex::Unknown;
};
struct SetBuild {
  Build build = Build::Ordinary;
};
struct SetCoat {
  Coat coat = Coat::Short;
};
struct SetBirth {
  std::optional<BirthMonth> month;
  std::optional<BirthMonth> today;  // kept as the month of measuring, from which the age follows
};
struct SetDog {
  std::string name;
};
struct SetName {
  std::string name;
};
struct SetUnit {
  Unit unit = Unit::Inch;
};
struct SetChoice {
  const ChoiceInfo* choice = nullptr;
  std::optional<double> value;  // none: follow the sized default
  // What the body lets a number be (range_of), from whoever has the body. A named choice has its
  // options.
  ChoiceRange within = {};
};
// The studio's usual eases, all in one step: the choices with them (core/rack/usual.h).
struct TakeUsualEases {
  Choices choices;
};
struct SetStyle {
  const StyleInfo* style = &kWrapCoat;
};
struct SetCloth {
  ClothUse use = ClothUse::Shell;
  std::optional<Cloth> cloth;  // none: the usual one
};
// A cloth laid by hand as this says; without places: found by the program again.
struct SetHandLay {
  HandLay lay;
};
// The coats that are laid together with this one: ids on the rack.
struct SetLaidWith {
  std::vector<std::string> ids;
};
struct SetQuote {
  QuoteChoices quote;
};
// One thing that was seen on the dog, of the coat that these readings gave.
struct AddFitNote {
  FitNote note;
  std::array<double, kMeasures> readings = {};  // readings_of
  std::optional<FitDate> today = {};
};
struct RemoveFitNote {
  size_t fitting = 0, note = 0;
};
struct BeginFitting {
  std::array<double, kMeasures> readings = {};
  std::optional<FitDate> today = {};
};
struct SetFittingWords {
  size_t fitting = 0;
  std::string words;
};
struct AddPhotograph {
  size_t fitting = 0;
  Photograph photograph;
};
struct RemovePhotograph {
  size_t fitting = 0, photograph = 0;
};
// Of one note; without it: none.
struct SetPin {
  size_t fitting = 0, photograph = 0, note = 0;
  std::optional<PhotoPin> pin;
};
struct SetPrint {
  PrintChoices print;
};
// The maker has seen what is drafted otherwise than when the ticket was made.
struct KnowDraft {};
struct TickStep {
  std::string step;  // id
  bool done = false;
  CutRecord cut = {};  // what is cut out, with the step that does it
};

using AnyCommand =
    std::variant<AddReading, ReadAs, RemoveReading, TakeAnswer, StillSame, MeasureAgain, SetSex,
                 SetBuild, SetCoat, SetBirth, SetDog, SetName, SetUnit, SetStyle, SetChoice,
                 TakeUsualEases, SetCloth, SetHandLay, SetLaidWith, SetQuote, SetPrint, KnowDraft,
                 TickStep, AddFitNote, RemoveFitNote, BeginFitting, SetFittingWords, AddPhotograph,
                 RemovePhotograph, SetPin>;
// Made, copied and taken down in commands.cpp alone: in every file that gives one the compiler would
// write all of it out again.
struct Command : AnyCommand {
  using AnyCommand::AnyCommand;
  Command(const Command&);
  Command(Command&&) noexcept;
  Command& operator=(const Command&);
  Command& operator=(Command&&) noexcept;
  ~Command();
};

// The ticket with the command done, or the problem that kept it from being done; the subject is the
// id of the measure, choice or field.
[[nodiscard]] Result<Ticket> apply(const Ticket& ticket, const Command& command);

// Word key of what the command changes ("measure.neck", "choice.overlap", "ui.paper"): the label of
// its undo step, and what tells whether two commands change the same thing.
[[nodiscard]] std::string label_of(const Command& command);

}  // namespace coatwright::studio
