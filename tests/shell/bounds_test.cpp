// What the studio's sliders and fields let through, against what core accepts.
#include <gtest/gtest.h>

#include <set>

#include "tests/core/support/asked.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

std::vector<Control> controls_of(const Driver& d, std::initializer_list<ControlRole> roles) {
  std::vector<Control> out;
  for (const Control& c : d.app.ui().controls()) {
    if (std::find(roles.begin(), roles.end(), c.role) != roles.end() && c.enabled) out.push_back(c);
  }
  return out;
}

void unfold_all(Driver& d) {
  for (int round = 0; round < 3; ++round) {
    for (const Control& c : controls_of(d, {ControlRole::Fold})) {
      if (d.sees(c.id) && !d.see(c.id).chosen) d.act(c.id);
    }
  }
}

std::string digits(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.17g", value);
  return text;
}

bool reads_back(const Ticket& ticket) {
  const auto read = read_ticket(write_ticket(ticket));
  return read.ok() && *read == ticket;
}

// A refusal of the very number that the slider offered.
bool is_out_of_range(const std::optional<Problem>& problem) {
  return problem &&
         (problem->code == Code::ChoiceOutOfRange || problem->code == Code::SheetChoiceOutOfRange);
}

TEST(Bounds, EverySliderEndsWhereCoreDoes) {
  std::set<std::string> met;
  const auto all = styles();
  for (const StyleInfo* style : coatwright::test::asked_of(std::vector(all.begin(), all.end()))) {
    Ticket ticket = a_ticket();
    ticket.style = style->id;
    for (const char* station : {"station.draft", "station.print"}) {
      Driver d(ticket);
      d.click(station);
      unfold_all(d);
      for (const Control& slider : controls_of(d, {ControlRole::Slider})) {
        for (const double end : {slider.low, slider.high}) {
          d.app.enter(slider.id, digits(end));
          d.settle(3);
          EXPECT_FALSE(is_out_of_range(d.app.derived().refusal)) << slider.id << " " << end;
          EXPECT_FALSE(is_out_of_range(d.app.derived().print_refusal)) << slider.id << " " << end;
          EXPECT_TRUE(d.app.view().notice.empty()) << d.app.view().notice;
          EXPECT_TRUE(reads_back(d.app.ticket())) << slider.id << " " << end;
          if (d.sees(slider.id)) {
            EXPECT_NEAR(d.see(slider.id).now, end, slider.step) << slider.id;
          }
          while (d.app.history().can_undo()) {
            d.app.key({"z", true, false});
            d.settle(3);
          }
        }
        met.insert(slider.id);
      }
    }
  }
  for (const char* id : {"print.margin", "print.sheet-overlap", "choice.chest-ease",
                         "handle.hem-depth", "choice.overlap"}) {
    EXPECT_TRUE(met.contains(id)) << id;
  }
  EXPECT_GE(met.size(), coatwright::test::kAllAsked ? 30U : 25U);
}

// Whatever a field takes, a file takes: what cannot be kept is refused beside the field.
TEST(Bounds, EveryFieldKeepsOnlyWhatATicketMayHold) {
  const char* const entries[] = {"0",      "-1",   "0.00001", "999999999", "1e300", "nan",
                                 "1/0 in", "-3 %", "",        "500 m",     "12",    "abc"};
  std::set<std::string> met;
  const auto try_all = [&](Driver& d) {
    for (const Control& field : controls_of(d, {ControlRole::Text, ControlRole::Number})) {
      met.insert(field.id);
      for (const char* entry : entries) {
        d.app.enter(field.id, std::string(entry) + "\n");
        d.settle(3);
        ASSERT_TRUE(reads_back(d.app.ticket())) << field.id << " " << entry;
      }
      while (d.app.history().can_undo()) d.press("z", true);
    }
  };
  Driver d(a_ticket());
  try_all(d);
  for (const MeasureInfo& measure : measure_table()) {
    const std::string row = std::string("measure.") + measure.id;
    if (!d.sees(row)) continue;
    d.act(row);
    try_all(d);
    if (d.sees("measure.list")) d.act("measure.list");
    if (d.sees("measure.list")) {  // what was typed last cannot be read
      d.app.enter("entry", "");
      d.settle();
      d.act("measure.list");
    }
  }
  d.click("station.lay");
  for (const char* tab : {"lay.tab.0", "lay.tab.1", "lay.tab.2", "lay.tab.3"}) {
    if (!d.sees(tab)) continue;
    d.act(tab);
    try_all(d);
  }
  EXPECT_TRUE(met.contains("entry"));
  EXPECT_TRUE(met.contains("cloth.cloth-width"));
  EXPECT_TRUE(met.contains("quote.rate"));
  EXPECT_GE(met.size(), 20U);
}

TEST(Bounds, APaperOnWhichTheMarginLeavesNoRoomIsRefusedWhereSheetsWouldBeCounted) {
  Ticket ticket = a_ticket();
  ticket.print.paper = "150x200mm";
  for (const double margin : {10.0, 40.0}) {
    ticket.print.margin = margin;
    Driver d(ticket);
    d.act("station.print");
    d.settle();
    EXPECT_EQ(d.sees("refusal"), margin == 40.0);
    EXPECT_EQ(d.sees("sheet-count"), margin == 10.0);
  }
}

}  // namespace
}  // namespace coatwright::studio
