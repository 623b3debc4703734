// Packing tasks and layouts as files.
#include "core/pack/instance.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace coatwright {
namespace {

using Json = nlohmann::json;

// Planks and a gusset for a quay, in metres.
Json quay() {
  return Json::parse(R"({"name": "quay", "strip_width": 2.5, "pieces": [
    {"id": 7, "demand": 3, "allowed_rotations_deg": [0, 90], "polygon": [[0,0],[2.1,0],[2.1,0.4],[0,0.4]], "holes": []},
    {"id": "gusset", "demand": 2, "allowed_rotations_deg": [0, 180.0], "polygon": [[5,5],[6.25,5],[5,5.75]]}]})");
}

Problem refusal(const Json& json) {
  const auto read = read_instance(json.dump());
  return read.ok() ? Problem{} : read.problem();
}

TEST(PackInstance, ReadsTheWholeTask) {
  const auto read = read_instance(quay().dump());
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->name, "quay");
  EXPECT_EQ(read->units, 1e6);
  EXPECT_EQ(read->task.strip_width, 2500000.0);
  EXPECT_EQ(read->task.gap, 0.0);
  EXPECT_EQ(read->ids, (std::vector<std::string>{"7", "\"gusset\""}));
  ASSERT_EQ(read->task.pieces.size(), 2u);
  EXPECT_EQ(read->task.pieces[0].quantity, 3);
  EXPECT_EQ(read->task.pieces[0].stances, (std::vector<Stance>{{0.0}, {90.0}}));
  EXPECT_EQ(read->task.pieces[1].outline.outer[1], (GridPoint{6250000.0, 5000000.0}));
}

TEST(PackInstance, TheGridIsAsFineAsTheLargestPieceAllows) {
  Json json = quay();
  json["strip_width"] = 1e6;
  json["pieces"][0]["polygon"] = {{0, 0}, {80000, 0}, {80000, 3}};
  auto read = read_instance(json.dump());
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->units, 100.0);
  json["pieces"][0]["polygon"] = {{0, 0}, {8e8, 0}, {8e8, 3e5}};
  json["strip_width"] = 1e9;
  read = read_instance(json.dump());
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->units, 0.01);
  EXPECT_EQ(read->task.gap, 2.0) << "the gusset’s corners are rounded";
}

TEST(PackInstance, TheRelaxedWidthBoundsThePieces) {
  Json json = quay();
  json["strip_width_relaxed"] = 2.50025;
  auto read = read_instance(json.dump());
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->task.strip_width, 2500250.0);
  EXPECT_EQ(read->strip_width, 2.5);
  json["strip_width_relaxed"] = 2.4;
  EXPECT_EQ(refusal(json).code, Code::PackNumberOutOfRange);
}

TEST(PackInstance, WritesTheLayoutInTheUnitsOfTheFile) {
  auto read = read_instance(quay().dump());
  ASSERT_TRUE(read.ok());
  auto search = PackSearch::begin(read->task);
  ASSERT_TRUE(search.ok());
  search.value().step(300);
  const Json layout = Json::parse(write_layout(*read, search->best(), search->steps_done()));
  EXPECT_EQ(layout["instance"], "quay");
  EXPECT_EQ(layout["steps"], 300);
  EXPECT_EQ(layout["seed"], 1);
  ASSERT_EQ(layout["placements"].size(), 5u);
  EXPECT_EQ(layout["placements"][0]["piece"], 7);
  EXPECT_EQ(layout["placements"][4]["piece"], "gusset");
  const double length = layout["length"];
  EXPECT_NEAR(layout["density_pct"], 100.0 * (3 * 0.84 + 2 * 0.46875) / (2.5 * length), 1e-9);
  EXPECT_LT(length, 2.2);
}

TEST(PackInstance, RefusesEveryFaultWithItsPlace) {
  using Change = void (*)(Json&);
  const struct {
    Change change;
    Code code;
    const char* subject;
  } faults[] = {
      {[](Json& j) { j = Json::array(); }, Code::PackFieldType, ""},
      {[](Json& j) { j.erase("strip_width"); }, Code::PackFieldMissing, "/strip_width"},
      {[](Json& j) { j["strip_width"] = "wide"; }, Code::PackFieldType, "/strip_width"},
      {[](Json& j) { j["strip_width"] = 0; }, Code::PackNumberOutOfRange, "/strip_width"},
      {[](Json& j) { j["strip_width"] = -2; }, Code::PackNumberOutOfRange, "/strip_width"},
      {[](Json& j) { j["strip_width"] = 1e300; }, Code::PackNumberOutOfRange, "/strip_width"},
      {[](Json& j) { j["name"] = 3; }, Code::PackFieldType, "/name"},
      {[](Json& j) { j.erase("pieces"); }, Code::PackFieldMissing, "/pieces"},
      {[](Json& j) { j["pieces"] = 3; }, Code::PackFieldType, "/pieces"},
      {[](Json& j) { j["pieces"][1] = nullptr; }, Code::PackFieldType, "/pieces/1"},
      {[](Json& j) { j["pieces"][1]["id"] = 7; }, Code::PackIdTwice, "/pieces/1/id"},
      {[](Json& j) { j["pieces"][1]["id"] = 7.5; }, Code::PackFieldType, "/pieces/1/id"},
      {[](Json& j) { j["pieces"][1]["id"] = "a\nb"; }, Code::PackFieldType, "/pieces/1/id"},
      {[](Json& j) { j["pieces"][1].erase("demand"); }, Code::PackFieldMissing, "/pieces/1/demand"},
      {[](Json& j) { j["pieces"][1]["demand"] = 1.5; }, Code::PackFieldType, "/pieces/1/demand"},
      {[](Json& j) { j["pieces"][1]["demand"] = -1; }, Code::PackNumberOutOfRange,
       "/pieces/1/demand"},
      {[](Json& j) { j["pieces"][1]["demand"] = 9e9; }, Code::PackNumberOutOfRange,
       "/pieces/1/demand"},
      {[](Json& j) { j["pieces"][0]["allowed_rotations_deg"] = Json::array(); },
       Code::PackFieldMissing, "/pieces/0/allowed_rotations_deg"},
      {[](Json& j) { j["pieces"][0]["allowed_rotations_deg"] = {"a"}; }, Code::PackFieldType,
       "/pieces/0/allowed_rotations_deg/0"},
      {[](Json& j) { j["pieces"][0]["allowed_rotations_deg"] = std::vector<int>(400); },
       Code::PackListTooLong, "/pieces/0/allowed_rotations_deg"},
      {[](Json& j) { j["pieces"][0]["polygon"][2] = 4; }, Code::PackFieldType,
       "/pieces/0/polygon/2"},
      {[](Json& j) {
         j["pieces"][0]["polygon"][2] = {1, 2, 3};
       },
       Code::PackFieldType, "/pieces/0/polygon/2"},
      {[](Json& j) {
         j["pieces"][0]["polygon"][2] = {1, 1e12};
       },
       Code::PackNumberOutOfRange, "/pieces/0/polygon/2"},
      {[](Json& j) { j["pieces"][0]["holes"] = {3}; }, Code::PackFieldType, "/pieces/0/holes/0"},
  };
  EXPECT_TRUE(read_instance(quay().dump()).ok());
  for (const auto& fault : faults) {
    Json json = quay();
    fault.change(json);
    const Problem problem = refusal(json);
    EXPECT_EQ(problem.code, fault.code) << fault.subject;
    EXPECT_EQ(problem.subject, fault.subject);
  }
  EXPECT_EQ(read_instance("{\"name\": ").problem().code, Code::PackNotJson);
  EXPECT_EQ(read_instance("\xff\xfe").problem().code, Code::PackNotJson);
  EXPECT_EQ(read_instance(std::string(kMostInstanceBytes + 1, ' ')).problem().code,
            Code::PackFileTooLarge);
}

TEST(PackInstance, RefusalsOfTheSearchNameThePieceAndUseTheUnitsOfTheFile) {
  Json json = quay();
  json["strip_width"] = 1.0;
  json["pieces"][1]["polygon"] = {{0, 0}, {1.5, 0}, {0, 1.2}};
  json["pieces"][1]["allowed_rotations_deg"] = {0, 90};
  const auto read = read_instance(json.dump());
  ASSERT_TRUE(read.ok());
  const auto search = PackSearch::begin(read->task);
  ASSERT_FALSE(search.ok());
  EXPECT_EQ(in_file_units(search.problem(), *read),
            (Problem{Code::PackPieceTooWide, "\"gusset\"", {1.2, 1.0}, ""}));
}

}  // namespace
}  // namespace coatwright
