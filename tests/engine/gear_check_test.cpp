#include "engine/gear_check.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <limits>
#include <map>

namespace footroom::engine {
namespace {

constexpr double lb = 0.45359237;
constexpr double lbf = 4.4482216152605;

/// A kit that no rule speaks against, right at the edge of each.
GearCheckCase sound_kit() {
  GearCheckCase c{};
  c.body_support = BodySupport::full_body_harness;
  c.attachment = Attachment::dorsal;
  c.user_mass = 309 * lb * si::kilogram;
  c.marked_capacity = 309 * lb * si::kilogram;
  c.criteria_mass = 310 * lb * si::kilogram;
  c.connector_lock = ConnectorLock::locks_by_itself;
  c.opening_actions = 2;
  c.connector_strength = c.connector_limit = 5000 * lbf * si::newton;
  c.connector_opening = c.eye_thickness = 0.02 * si::metre;
  c.lanyard_strength = c.lanyard_limit = 5000 * lbf * si::newton;
  c.rope_diameter = c.grab_smallest = 0.016 * si::metre;
  c.grab_largest = 0.016 * si::metre;
  c.grab_direction = GrabDirection::as_marked;
  c.persons_on_line = 1;
  c.persons_on_anchor = 1;
  c.anchor_strength = c.strength_per_person = 5000 * lbf * si::newton;
  return c;
}

struct Fault {
  Reason reason;
  std::function<void(GearCheckCase&)> plant;
};

std::vector<Fault> faults() {
  std::vector<Fault> all = {
      {Reason::body_belt, [](auto& c) { c.body_support = BodySupport::body_belt; }},
      {Reason::not_dorsal, [](auto& c) { c.attachment = Attachment::sternal; }},
      {Reason::not_dorsal, [](auto& c) { c.attachment = Attachment::side; }},
      {Reason::not_dorsal, [](auto& c) { c.attachment = Attachment::waist; }},
      {Reason::above_capacity, [](auto& c) { c.marked_capacity = 308 * lb * si::kilogram; }},
      {Reason::above_criteria,
       [](auto& c) { c.user_mass = c.marked_capacity = 310 * lb * si::kilogram; }},
      {Reason::not_locking, [](auto& c) { c.connector_lock = ConnectorLock::closes_only; }},
      {Reason::not_locking, [](auto& c) { c.connector_lock = ConnectorLock::stays_open; }},
      {Reason::one_action, [](auto& c) { c.opening_actions = 1; }},
      {Reason::connector_weak, [](auto& c) { c.connector_strength *= 0.999; }},
      {Reason::connector_too_small, [](auto& c) { c.connector_opening *= 0.99; }},
      {Reason::lanyard_weak, [](auto& c) { c.lanyard_strength *= 0.999; }},
      {Reason::rope_too_thin, [](auto& c) { c.rope_diameter *= 0.99; }},
      {Reason::rope_too_thick, [](auto& c) { c.rope_diameter *= 1.01; }},
      {Reason::grab_upside_down, [](auto& c) { c.grab_direction = GrabDirection::upside_down; }},
      {Reason::shared_line, [](auto& c) { c.persons_on_line = 2; }},
      {Reason::anchor_weak, [](auto& c) { c.persons_on_anchor = 2; }},
  };
  for (int i = 0; i <= static_cast<int>(Finding::label_missing); ++i)
    all.push_back(
        {static_cast<Reason>(i), [i](auto& c) { c.findings.push_back(static_cast<Finding>(i)); }});
  return all;
}

TEST(GearCheck, ASoundKitIsInService) {
  const GearCheck r = gear_check(sound_kit());
  EXPECT_EQ(r.state, GearState::in_service);
  EXPECT_TRUE(r.reasons.empty());
}

TEST(GearCheck, EachFaultGivesItsReasonAndNoOther) {
  for (const Fault& fault : faults()) {
    GearCheckCase c = sound_kit();
    fault.plant(c);
    const GearCheck r = gear_check(c);
    EXPECT_EQ(r.state, GearState::out_of_service);
    EXPECT_EQ(r.reasons, std::vector{fault.reason}) << describe(fault.reason).id;
  }
}

TEST(GearCheck, EveryPairOfFaultsGivesBothReasons) {
  for (const Fault& one : faults())
    for (const Fault& other : faults()) {
      GearCheckCase c = sound_kit();
      one.plant(c);
      other.plant(c);
      const auto reasons = gear_check(c).reasons;
      // The later fault may undo an earlier one of the same field, never a different reason.
      for (const Reason reason : reasons)
        EXPECT_TRUE(reason == one.reason || reason == other.reason);
      EXPECT_FALSE(reasons.empty());
      EXPECT_TRUE(std::is_sorted(reasons.begin(), reasons.end()));
    }
}

TEST(GearCheck, EveryReasonIsReachedAndCited) {
  std::map<Reason, int> reached;
  for (const Fault& fault : faults()) ++reached[fault.reason];
  for (int i = 0; i <= static_cast<int>(Reason::anchor_weak); ++i) {
    const auto reason = static_cast<Reason>(i);
    EXPECT_TRUE(reached.contains(reason)) << describe(reason).id;
    EXPECT_FALSE(describe(reason).source.citation.english.empty());
    EXPECT_FALSE(describe(reason).name.spanish.empty());
  }
}

TEST(GearCheck, RefusesARopeGrabRangeUpsideDownAndNaN) {
  GearCheckCase c = sound_kit();
  c.grab_largest = 0.01 * si::metre;
  EXPECT_THROW(gear_check(c), Refusal);
  c = sound_kit();
  c.anchor_strength = std::numeric_limits<double>::quiet_NaN() * si::newton;
  EXPECT_THROW(gear_check(c), OutOfDomain);
}

}  // namespace
}  // namespace footroom::engine
