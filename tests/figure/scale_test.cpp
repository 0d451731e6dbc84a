// True scale: distances between marked points of a drawing are the quantities, times the scale.

#include <gtest/gtest.h>

#include <cmath>

#include "figure/figure.hpp"

namespace footroom::figure {
namespace {

using engine::Quantity;
namespace dim = engine::dimension;

constexpr double ft = 0.3048;
constexpr double close = 1e-6;  // m

struct Case {
  std::string_view calculation;
  engine::Values inputs;
};

engine::Value metres(double m) {
  return Quantity{dim::length, m};
}
engine::Value degrees(double d) {
  return Quantity{dim::angle, d * M_PI / 180};
}

Drawing drawn(const Case& c, Request::For wanted, engine::Values* outputs = nullptr) {
  Request request;
  request.calculation = c.calculation;
  request.inputs = c.inputs;
  request.wanted = wanted;
  request.outputs = engine::find_calculation(c.calculation)->run(c.inputs);
  if (outputs) *outputs = request.outputs;
  return *draw(request);
}

// From one mark to another, in metres, y upwards.
Point apart(const Drawing& d, std::string_view from, std::string_view to) {
  const Point a = d.marks.find(from)->second;
  const Point b = d.marks.find(to)->second;
  return {(b.x - a.x) / d.scale, -(b.y - a.y) / d.scale};
}
double distance(const Drawing& d, std::string_view from, std::string_view to) {
  const Point p = apart(d, from, to);
  return std::hypot(p.x, p.y);
}
double si(const engine::Values& values, std::string_view id) {
  return std::get<Quantity>(values.find(id)->second).si;
}

double rope_length(const Drawing& d) {
  double sum = 0;
  for (const Shape& shape : d.shapes)
    if (const auto* path = std::get_if<Path>(&shape); path && path->pen == Pen::rope)
      for (std::size_t i = 1; i < path->points.size(); ++i)
        sum += std::hypot(path->points[i].x - path->points[i - 1].x,
                          path->points[i].y - path->points[i - 1].y);
  return sum / d.scale;
}

TEST(Scale, EdgeFall) {
  for (const double slope : {3.0, 5.0, 9.0, 20.0})
    for (const double pitch : {0.0, 14.0, 27.0, 45.0, 70.0})
      for (const double slack : {0.0, 0.3, 1.2, 6.0}) {
        const Case c{"edge-fall",
                     {{"slope-length", metres(slope)},
                      {"pitch", degrees(pitch)},
                      {"d-ring-height", metres(1.5)},
                      {"slack", metres(slack)}}};
        const Drawing sheet = drawn(c, Request::For::sheet);
        EXPECT_NEAR(distance(sheet, "anchor", "eave"), slope, close);
        EXPECT_NEAR(apart(sheet, "anchor", "eave").x, slope * std::cos(pitch * M_PI / 180), close);
        EXPECT_NEAR(apart(sheet, "eave", "d-ring").y, 1.5, close);
        EXPECT_NEAR(apart(sheet, "eave", "d-ring").x, 0, close);

        engine::Values out;
        const Drawing key = drawn(c, Request::For::key, &out);
        // The slack is in the drawn rope: it is as long as the line that is out.
        EXPECT_NEAR(rope_length(sheet), si(out, "line-out"), 0.01 * si(out, "line-out"))
            << slope << ' ' << pitch << ' ' << slack;
        EXPECT_NEAR(rope_length(key), si(out, "line-out"), close);
        EXPECT_NEAR(-apart(key, "d-ring", "end").y, si(out, "free-fall"), close);
      }
}

TEST(Scale, LargestSlackEndsAtTheLimit) {
  const double limit = 6 * ft;
  const Drawing key = drawn({"largest-slack",
                             {{"slope-length", metres(16 * ft)},
                              {"pitch", Quantity{dim::angle, std::atan(0.5)}},
                              {"d-ring-height", metres(5 * ft)},
                              {"free-fall-limit", metres(limit)}}},
                            Request::For::key);
  EXPECT_NEAR(-apart(key, "d-ring", "end").y, limit, close);
}

TEST(Scale, Roof) {
  const Case c{"roof",
               {{"pitch", degrees(30)}, {"run", metres(4.2)}, {"low-slope", degrees(18.4)}}};
  engine::Values out;
  const Drawing key = drawn(c, Request::For::key, &out);
  EXPECT_NEAR(apart(key, "ridge", "eave").x, 4.2, close);
  EXPECT_NEAR(-apart(key, "ridge", "eave").y, si(out, "ridge-height"), close);
  EXPECT_NEAR(distance(key, "ridge", "eave"), si(out, "rafter-length"), close);
}

TEST(Scale, RoofArea) {
  const Drawing d = drawn(
      {"roof-area", {{"pitch", degrees(25)}, {"eave-length", metres(12)}, {"run", metres(4)}}},
      Request::For::sheet);
  EXPECT_NEAR(apart(d, "plan-top-left", "plan-bottom-right").x, 12, close);
  EXPECT_NEAR(-apart(d, "plan-top-left", "plan-bottom-right").y, 4, close);
}

TEST(Scale, Rafters) {
  const Drawing d = drawn({"rafters",
                           {{"ridge-length", metres(12)},
                            {"spacing", metres(0.6)},
                            {"first-rafter", metres(0.3)},
                            {"position", metres(5)}}},
                          Request::For::sheet);
  EXPECT_NEAR(apart(d, "ridge-start", "ridge-end").x, 12, close);
  EXPECT_NEAR(apart(d, "ridge-start", "position").x, 5, close);
}

TEST(Scale, Swings) {
  engine::Values out;
  const Drawing eave = drawn({"eave-swing", {{"slope-length", metres(5)}, {"offset", metres(3)}}},
                             Request::For::key, &out);
  EXPECT_NEAR(distance(eave, "anchor", "start"), si(out, "diagonal"), close);
  EXPECT_NEAR(-apart(eave, "fall-line", "end").y, si(out, "extra-line"), close);

  const Drawing roof =
      drawn({"roof-swing", {{"down", metres(4)}, {"across", metres(3)}, {"pitch", degrees(27)}}},
            Request::For::key, &out);
  EXPECT_NEAR(distance(roof, "anchor", "start"), 5, close);
  EXPECT_NEAR(-apart(roof, "anchor", "end").y, si(out, "line"), close);

  const Drawing rake = drawn({"rake-swing",
                              {{"pitch", degrees(27)},
                               {"slope-length", metres(6)},
                               {"anchor-from-rake", metres(2)},
                               {"down-slope", metres(3)},
                               {"line", metres(5)}}},
                             Request::For::key, &out);
  EXPECT_NEAR(apart(rake, "anchor", "start").x, 2, close);
  EXPECT_NEAR(-apart(rake, "anchor", "start").y, 3, close);
  EXPECT_NEAR(-apart(rake, "anchor", "end").y, si(out, "rest-position"), close);

  const Drawing overhead =
      drawn({"overhead-swing", {{"anchor-height", metres(4)}, {"offset", metres(3)}}},
            Request::For::key, &out);
  EXPECT_NEAR(distance(overhead, "anchor", "start"), 5, close);
  EXPECT_NEAR(-apart(overhead, "start", "end").y, si(out, "extra-clearance"), close);
}

TEST(Scale, AnchorReach) {
  engine::Values out;
  const Drawing key = drawn({"anchor-reach",
                             {{"slope-length", metres(5)},
                              {"eave-length", metres(16)},
                              {"line-length", metres(10)},
                              {"greatest-angle", degrees(30)}}},
                            Request::For::key, &out);
  EXPECT_NEAR(apart(key, "eave-start", "eave-end").x, 16, close);
  EXPECT_NEAR(distance(key, "anchor", "fall-line"), 5, close);
  EXPECT_NEAR(apart(key, "fall-line", "reach").x, si(out, "reach"), close);
}

TEST(Scale, FreeFallRule) {
  for (const double above : {1.0, 0.0, -1.2}) {
    engine::Values out;
    const Drawing key =
        drawn({"free-fall-rule",
               {{"lanyard-length", metres(1.8)}, {"anchor-above-d-ring", metres(above)}}},
              Request::For::key, &out);
    EXPECT_NEAR(-apart(key, "anchor", "d-ring").y, above, close);
    EXPECT_NEAR(-apart(key, "d-ring", "end").y, si(out, "free-fall"), close);
  }
}

engine::Value newtons(double n) {
  return Quantity{dim::force, n};
}
engine::Value ratio(double r) {
  return Quantity{dim::ratio, r};
}
engine::Value word(std::string id) {
  return engine::Word{std::move(id)};
}

TEST(Scale, Absorber) {
  engine::Values out;
  const Drawing key = drawn({"absorber",
                             {{"weight", newtons(282 * 4.4482216152605)},
                              {"free-fall", metres(6 * ft)},
                              {"force", newtons(900 * 4.4482216152605)}}},
                            Request::For::key, &out);
  EXPECT_NEAR(-apart(key, "d-ring", "end").y, si(out, "fall-distance"), close);
  // One that is too short tears no farther than it can.
  const Drawing torn_out = drawn({"absorber",
                                  {{"weight", newtons(1400)},
                                   {"free-fall", metres(3)},
                                   {"force", newtons(2000)},
                                   {"maximum-elongation", metres(1)}}},
                                 Request::For::key, &out);
  EXPECT_GT(si(out, "elongation"), 1);
  EXPECT_NEAR(-apart(torn_out, "d-ring", "end").y, 3 + 1, close);
}

TEST(Scale, ClearanceFromEachDatum) {
  for (const std::string datum : {"below-anchor", "below-d-ring", "below-standing-surface"}) {
    const Case c{"clearance",
                 {{"datum", word(datum)},
                  {"free-fall", metres(1.8)},
                  {"deceleration", metres(1.07)},
                  {"harness-stretch", metres(0.3)},
                  {"body-below", metres(1.5)},
                  {"safety-margin", metres(0.6)},
                  {"anchor-above-d-ring", metres(0.9)},
                  {"d-ring-height", metres(1.5)}}};
    engine::Values out;
    const Drawing key = drawn(c, Request::For::key, &out);
    EXPECT_NEAR(-apart(key, "datum", "lower-level").y, si(out, "needed"), close) << datum;
    EXPECT_NEAR(-apart(key, "d-ring", "end").y, si(out, "fall-distance"), close) << datum;
    // The sheet, which knows no output, has the same stack.
    const Drawing sheet = drawn(c, Request::For::sheet);
    EXPECT_NEAR(-apart(sheet, "datum", "lower-level").y, si(out, "needed"), close) << datum;
  }
}

TEST(Scale, ClearanceNeededAndAvailable) {
  const Drawing key =
      drawn({"clearance-check", {{"needed", metres(5.3)}, {"available", metres(6.1)}}},
            Request::For::key);
  EXPECT_NEAR(-apart(key, "datum", "needed").y, 5.3, close);
  EXPECT_NEAR(-apart(key, "datum", "available").y, 6.1, close);
}

TEST(Scale, ChangedDatum) {
  engine::Values out;
  const Drawing key = drawn({"change-datum",
                             {{"clearance", metres(5.3)},
                              {"from", word("below-d-ring")},
                              {"to", word("below-anchor")},
                              {"d-ring-height", metres(1.5)},
                              {"anchor-above-d-ring", metres(-0.7)}}},
                            Request::For::key, &out);
  EXPECT_NEAR(-apart(key, "from", "ground").y, 5.3, close);
  EXPECT_NEAR(-apart(key, "to", "ground").y, si(out, "changed"), close);
}

TEST(Scale, Ladders) {
  engine::Values out;
  const Drawing ladder = drawn({"ladder",
                                {{"working-length", metres(16 * ft)},
                                 {"foot-ratio", ratio(0.25)},
                                 {"above-landing", metres(3 * ft)}}},
                               Request::For::key, &out);
  EXPECT_NEAR(distance(ladder, "foot", "support"), 16 * ft, close);
  EXPECT_NEAR(apart(ladder, "foot", "wall").x, si(out, "foot-distance"), close);
  EXPECT_NEAR(apart(ladder, "wall", "support").y, si(out, "support-height"), close);
  EXPECT_NEAR(distance(ladder, "foot", "top"), si(out, "rail-length"), close);
  EXPECT_NEAR(apart(ladder, "support", "top").y, 3 * ft, close);

  const Drawing landing = drawn({"ladder-for-landing",
                                 {{"landing-height", metres(3)},
                                  {"foot-ratio", ratio(0.25)},
                                  {"above-landing", metres(0.9)}}},
                                Request::For::key, &out);
  EXPECT_NEAR(distance(landing, "foot", "support"), si(out, "working-length"), close);
  EXPECT_NEAR(apart(landing, "wall", "support").y, 3, close);
}

}  // namespace
}  // namespace footroom::figure
