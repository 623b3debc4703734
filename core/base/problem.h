// What can go wrong, and what should be looked at: codes with numbers, never sentences.
//
// A Problem stops a stage (a Result holds it); a Finding lets it go on. Both name the thing they
// are about by its id (a measure "neck", a choice "overlap", a piece edge "body.hem", a ticket
// path "/readings/neck/0"), so that the words can be shown beside it. The words themselves stand
// in assets/words.txt under the code's name; a test proves that none is missing.
#pragma once

#include <array>
#include <string>
#include <vector>

namespace coatwright {

// Every code: enumerator and the name it has in files and in the word table.
// The comment says what values[0..3] hold (mm, kg or plain numbers) and what `other` names.
#define COATWRIGHT_CODES(X)                                                                          \
  /* numbers typed by a person: subject = the field */                                               \
  X(NumberEmpty, "number-empty")                                                                     \
  X(NumberUnreadable, "number-unreadable")      /* other = the part that was not understood */       \
  X(NumberTooLong, "number-too-long")           /* values: characters, digits a side allowed */      \
  X(NumberUnitUnknown, "number-unit-unknown")   /* other = the unit as typed */                      \
  X(NumberUnitMixed, "number-unit-mixed")       /* two units that do not go together */              \
  X(NumberFractionZero, "number-fraction-zero") /* a fraction over nothing */                        \
  X(NumberFractionImproper, "number-fraction-improper") /* 20 9/8; 203/8, a lost space? */           \
  X(NumberPartTooLarge, "number-part-too-large") /* 1' 14": values: part, must stay below */         \
  X(NumberAmbiguous, "number-ambiguous")         /* 1,250 mm: thousands or decimals? */              \
  X(NumberNotPositive, "number-not-positive")                                                        \
  X(NumberOutOfRange, "number-out-of-range") /* values: value, lowest, highest */                    \
  /* body: subject = likely culprit, other = what it was compared with */                            \
  X(ReadingMissing, "reading-missing")                                                               \
  X(ReadingTooMany, "reading-too-many")                                                              \
  X(ReadingSpread, "reading-spread")           /* values: spread, allowed */                         \
  X(ReadingOutOfRange, "reading-out-of-range") /* values: value, lowest, highest */                  \
  X(ReadingCarried, "reading-carried")         /* of an earlier coat: to be taken again */           \
  /* values: subject's reading, lowest and highest that go with the other's reading, that reading */ \
  X(RatioLow, "ratio-low")                                                                           \
  X(RatioHigh, "ratio-high")                                                                         \
  X(RatioTooLow, "ratio-too-low") /* no dog is so: refused */                                        \
  X(RatioTooHigh, "ratio-too-high")                                                                  \
  X(BreastNotOverBack, "breast-not-over-back") /* values: breast, back */                            \
  X(DropPastMidline, "drop-past-midline")      /* values: drop, half chest */                        \
  X(LikelyCulprit, "likely-culprit")           /* values: taken, value that would agree */           \
  X(ReadingsSwapped, "readings-swapped")       /* values: reading, other's reading */                \
  X(LengthsInInches, "lengths-in-inches")      /* values: reading as it stands, as it was meant */   \
  X(LengthsInCentimetres, "lengths-in-centimetres") /* the same */                                   \
  X(ValueEstimated, "value-estimated")              /* values: the estimate; other = rule id */      \
  X(GrowingDog, "growing-dog") /* values: age in months, months to adult size */                     \
  X(BirthAfterMeasuring, "birth-after-measuring")                                                    \
  /* draft: subject = measure, choice or piece edge */                                               \
  X(ChoiceOutOfRange, "choice-out-of-range")  /* values: value, lowest, highest */                   \
  X(BreastTooLong, "breast-too-long")         /* values: wanted, longest possible */                 \
  X(BreastUnusual, "breast-unusual")          /* values: breast, what goes with the neck */          \
  X(FrontDepthLimited, "front-depth-limited") /* values: wanted, used */                             \
  X(FrontMeetsForeleg, "front-meets-foreleg") /* values: clearance wanted, there is */               \
  X(BandLimited, "band-limited")              /* values: width wanted, used */                       \
  X(BandNoRoom, "band-no-room")               /* values: place from, place to */                     \
  X(BandTooShort, "band-too-short")           /* values: length */                                   \
  X(OutlineCrosses, "outline-crosses")        /* subject = piece */                                  \
  X(AllowanceTooWide, "allowance-too-wide")   /* subject = piece; values: allowance */               \
  X(AllowanceLimited, "allowance-limited")    /* values: wished, used; other = piece */              \
  X(CurveTooTight, "curve-too-tight")         /* values: radius, smallest */                         \
  X(Advice, "advice") /* of an option: words under advice.<other>; values: lengths */                \
  X(StraysFromRule, "strays-from-rule") /* values: got, rule of thumb, breast less back */           \
  X(PromiseMissed, "promise-missed")    /* values: wanted, got; other = measure to check */          \
  X(PromiseOfChoiceMissed, "promise-of-choice-missed") /* the same, of choices alone */              \
  X(CannotDraft, "cannot-draft")                       /* a stage gave no number: ours to mend */    \
  X(DraftedAnew, "drafted-anew") /* by a later rule than the ticket was made for */                  \
  /* fittings: subject = alteration, or the reading that notes mean */                               \
  X(NotesConflict, "notes-conflict")         /* values: more, less, number of the fitting */         \
  X(NotesMeanReading, "notes-mean-reading")  /* values: reading, what the notes come to, notes */    \
  X(AlterationLimited, "alteration-limited") /* values: asked for, done */                           \
  X(AlterationRetired, "alteration-retired") /* other = the measure that was read since */           \
  X(NotesGrown, "notes-grown")               /* values: number of the fitting, per cent */           \
  X(PhotographLate, "photograph-late")                                                               \
  X(PinWithoutNote, "pin-without-note") /* subject = its path in the ticket */                       \
  X(FittingFull, "fitting-full")        /* values: most fittings, most notes of one */               \
  X(AlterationIdle, "alteration-idle")  /* subject = style; values: notes */                         \
  /* sheets: subject = print choice */                                                               \
  X(SheetChoiceOutOfRange, "sheet-choice-out-of-range") /* values: value, lowest, highest */         \
  X(PaperUnknown, "paper-unknown")                      /* other = the paper as given */             \
  X(PaperTooSmall, "paper-too-small")                   /* values: width, height, smallest side */   \
  X(SheetsTooMany, "sheets-too-many")                   /* values: sheets, most */                   \
  X(RollTooNarrow, "roll-too-narrow")                   /* values: width, needed */                  \
  X(RollTooLong, "roll-too-long")                       /* values: length, most */                   \
  X(PrinterTooFarOff, "printer-too-far-off")            /* values: mm read, per cent off, most */    \
  X(PrinterNameMissing, "printer-name-missing")                                                      \
  X(PrintersFull, "printers-full") /* values: most */                                                \
  /* a run of sizes */                                                                               \
  X(SizesMissing, "sizes-missing")                                                                   \
  X(SizesTooMany, "sizes-too-many")    /* values: there are, allowed */                              \
  X(SizesTooLong, "sizes-too-long")    /* of the text */                                             \
  X(SizeTwice, "size-twice")           /* other = the name */                                        \
  X(SizeUnreadable, "size-unreadable") /* subject = measure; values: which; other = typed */         \
  X(SizeColumnMissing, "size-column-missing") /* subject = measure */                                \
  X(SizeColumnTwice, "size-column-twice")     /* subject = measure */                                \
  X(SizeColumnUnknown, "size-column-unknown") /* other = its title */                                \
  /* forms in which coats go out */                                                                  \
  X(FormOfOneCoat, "form-of-one-coat")                                                               \
  X(FormLayMissing, "form-lay-missing") /* subject = cloth */                                        \
  X(FormQuoteOpen, "form-quote-open")                                                                \
  /* tickets: subject = path in the file */                                                          \
  X(TicketTooLarge, "ticket-too-large") /* values: bytes, most */                                    \
  X(TicketNotJson, "ticket-not-json")   /* values: byte where it stops making sense */               \
  X(TicketNotTicket, "ticket-not-ticket")                                                            \
  X(TicketFromFuture, "ticket-from-future") /* values: its version, ours */                          \
  X(TicketFieldUnknown, "ticket-field-unknown")                                                      \
  X(TicketFieldType, "ticket-field-type") /* other = what was expected */                            \
  X(TicketFieldMissing, "ticket-field-missing")                                                      \
  X(TicketFieldTwice, "ticket-field-twice")                                                          \
  X(TicketTextTooLong, "ticket-text-too-long")    /* values: characters, most */                     \
  X(TicketTextUnclean, "ticket-text-unclean")     /* control characters or broken UTF-8 */           \
  X(TicketChoiceUnknown, "ticket-choice-unknown") /* other = the word given */                       \
  X(TicketTooDeep, "ticket-too-deep")                                                                \
  /* backups of a rack: subject = path in the file */                                                \
  X(RackTooLarge, "rack-too-large") /* values: bytes, most */                                        \
  X(RackNotRack, "rack-not-rack")                                                                    \
  X(RackFromFuture, "rack-from-future") /* values: its version, ours */                              \
  /* packing: subject = path in the file, number or id of the piece */                               \
  X(PackFileTooLarge, "pack-file-too-large") /* values: bytes, most */                               \
  X(PackNotJson, "pack-not-json")                                                                    \
  X(PackFieldMissing, "pack-field-missing")                                                          \
  X(PackFieldType, "pack-field-type")                 /* other = what was expected */                \
  X(PackNumberOutOfRange, "pack-number-out-of-range") /* values: value, lowest, highest */           \
  X(PackListTooLong, "pack-list-too-long")            /* values: entries, most */                    \
  X(PackIdTwice, "pack-id-twice")                                                                    \
  X(PackNothing, "pack-nothing")                                                                     \
  X(PackTooMuch, "pack-too-much")                                                                    \
  X(PackOutlineUnsound, "pack-outline-unsound")                                                      \
  X(PackPieceTooLarge, "pack-piece-too-large")                                                       \
  X(PackPieceTooWide, "pack-piece-too-wide") /* values: narrowest it lies, strip width */            \
  X(PackPieceOffLattice, "pack-piece-off-lattice")                                                   \
  X(PackFixedMisplaced, "pack-fixed-misplaced") /* a fixed piece over another or outside */          \
  /* cloth and lay: subject = the cloth's field, cloth or piece */                                   \
  X(ClothNumberOutOfRange,                                                                           \
    "cloth-number-out-of-range") /* values: value, lowest, highest; other = use */                   \
  X(ClothLengthOutOfRange,                                                                           \
    "cloth-length-out-of-range")        /* values: value, lowest, highest; other = use */            \
  X(ClothUnknown, "cloth-unknown")      /* other = as given */                                       \
  X(ClothTooNarrow, "cloth-too-narrow") /* values: width, selvage at each side */                    \
  X(ShelfNameMissing, "shelf-name-missing")                                                          \
  X(ShelfFull, "shelf-full")               /* values: most */                                        \
  X(QuoteOutOfRange, "quote-out-of-range") /* values: value, lowest, highest; other = name */        \
  X(ClothPieceMissing, "cloth-piece-missing")                                                        \
  X(LayPieceTooWide, "lay-piece-too-wide")   /* values: needs, there is, too much; other = use */    \
  X(LayTooManyPieces, "lay-too-many-pieces") /* values: pieces, most; other = use */                 \
  X(LayHandTooMany, "lay-hand-too-many")     /* values: places, most */                              \
  /* a lay by hand: values: how many; other = use */                                                 \
  X(LayHandOverlaps, "lay-hand-overlaps")                                                            \
  X(LayHandOutside, "lay-hand-outside")                                                              \
  X(LayHandAgainstNap, "lay-hand-against-nap")                                                       \
  X(LayHandOffStripes, "lay-hand-off-stripes")                                                       \
  X(LayPieceOffStripes, "lay-piece-off-stripes") /* other = use */                                   \
  X(LayPieceTooWideAsItLies,                                                                         \
    "lay-piece-too-wide-as-it-lies") /* values: needs, too much, needs turned; other = use */        \
  /* slips: subject = the field that is wrong, if it is one */                                       \
  X(SlipTooLarge, "slip-too-large") /* values: bytes of the text, most */                            \
  X(SlipNotFound, "slip-not-found")                                                                  \
  X(SlipCut, "slip-cut")                /* values: characters there, characters it had */            \
  X(SlipDamaged, "slip-damaged")        /* its check does not hold */                                \
  X(SlipMalformed, "slip-malformed")    /* its check holds, and it says nothing that we write */     \
  X(SlipFromFuture, "slip-from-future") /* values: its version, ours */                              \
  X(SlipIsRequest, "slip-is-request")   /* the studio's link, where an answer is wanted */           \
  X(SlipIsAnswer, "slip-is-answer")     /* readings, where the studio's link is wanted */            \
  X(SlipIsTicket, "slip-is-ticket")     /* a whole ticket, where a slip is wanted */                 \
  X(SlipNothingAsked, "slip-nothing-asked")                                                          \
  X(SlipNothingRead, "slip-nothing-read")                                                            \
  X(SlipTextTooLong, "slip-text-too-long") /* values: characters, most */                            \
  X(SlipTextUnclean, "slip-text-unclean")                                                            \
  X(SlipAddressUnfit, "slip-address-unfit") /* other = the address as given */                       \
  X(SlipTooLong, "slip-too-long")           /* values: characters of the code, most */               \
  X(SlipOtherTicket, "slip-other-ticket")

enum class Code {
#define COATWRIGHT_CODE_ENUM(name, text) name,
  COATWRIGHT_CODES(COATWRIGHT_CODE_ENUM)
#undef COATWRIGHT_CODE_ENUM
};

// The code's name in files and in the word table, e.g. "neckline-too-short".
[[nodiscard]] const char* code_name(Code code);

// All codes in order, for tables and for the test that every one has words.
[[nodiscard]] const std::vector<Code>& all_codes();

struct Problem {
  Code code = Code::CannotDraft;
  std::string subject = {};           // id of what it is about
  std::array<double, 4> values = {};  // mm, kg or plain numbers, as the code's comment says
  std::string other = {};             // id or word of a second thing, if the code has one

  bool operator==(const Problem&) const = default;
};

enum class Level { Note, Check, Refused };

struct Finding {
  Level level = Level::Note;
  Problem what = {};

  bool operator==(const Finding&) const = default;
};

using Findings = std::vector<Finding>;

}  // namespace coatwright
