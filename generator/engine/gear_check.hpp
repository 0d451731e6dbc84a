#pragma once
#include <vector>

#include "engine/catalogue.hpp"

namespace footroom::engine {

enum class BodySupport { full_body_harness, body_belt };
enum class Attachment { dorsal, sternal, side, waist };
enum class ConnectorLock { locks_by_itself, closes_only, stays_open };
enum class GrabDirection { as_marked, upside_down };

/// What an inspection can find on a piece of the kit.
enum class Finding {
  absorber_deployed,
  arrested_a_fall,
  cut,
  burn,
  stitching_broken,
  corroded,
  deformed,
  chemical_stain,
  knot,
  label_missing,
};

struct GearCheckCase {
  BodySupport body_support;
  Attachment attachment;  ///< where the lanyard is connected
  Mass user_mass;         ///< with tools; 30 kg to 250 kg
  Mass marked_capacity;   ///< the lowest of any part of the kit; 30 kg to 400 kg
  Mass criteria_mass;     ///< below it the rule's criteria hold; 30 kg to 400 kg
  ConnectorLock connector_lock;
  int opening_actions;       ///< deliberate actions to open the connector; 0 to 4
  Force connector_strength;  ///< marked; 0 to 1 MN
  Force connector_limit;     ///< 0 to 1 MN
  Length connector_opening;  ///< gate opening; 0 to 0.5 m
  Length eye_thickness;      ///< of the anchor connector's eye; 0 to 0.5 m
  Force lanyard_strength;    ///< marked, the weaker of lanyard and lifeline; 0 to 1 MN
  Force lanyard_limit;       ///< 0 to 1 MN
  Length rope_diameter;      ///< 0 to 0.5 m
  Length grab_smallest;      ///< rope range of the rope grab; 0 to 0.5 m
  Length grab_largest;       ///< 0 to 0.5 m
  GrabDirection grab_direction;
  int persons_on_line;        ///< 1 to 20
  int persons_on_anchor;      ///< 1 to 20
  Force anchor_strength;      ///< 0 to 1 MN
  Force strength_per_person;  ///< 0 to 1 MN
  std::vector<Finding> findings;
};

/// Why a kit is out of service: the findings first, then what the marks and the set-up give.
enum class Reason {
  absorber_deployed,
  arrested_a_fall,
  cut,
  burn,
  stitching_broken,
  corroded,
  deformed,
  chemical_stain,
  knot,
  label_missing,
  body_belt,
  not_dorsal,
  above_capacity,
  above_criteria,
  not_locking,
  one_action,
  connector_weak,
  connector_too_small,
  lanyard_weak,
  rope_too_thin,
  rope_too_thick,
  grab_upside_down,
  shared_line,
  anchor_weak,
};

enum class GearState { in_service, out_of_service };

struct GearCheck {
  GearState state;
  std::vector<Reason> reasons;  ///< each once, in the order of the enumeration
};

/// Returns whether a fall arrest kit may be used as it is, and every reason against it.
///
/// Source: 29 CFR 1926.502(d) for each rule that the reason cites; what no rule gives a figure for
/// is marked common practice. Strengths and masses are compared with the limits handed in.
/// Valid as a list of reasons against a kit. An empty list is no release: a competent person and
/// the manufacturer's instructions decide.
/// Errors: OutOfDomain; Refusal where the rope grab's range is upside down.
/// Checked: each rule alone gives its reason and no other, at its edge and beyond
/// (tests/engine/gear_check_test.cpp).
GearCheck gear_check(const GearCheckCase& c);

/// A reason's id, text and source.
const Choice& describe(Reason reason);

template <>
struct Bridge<std::vector<Finding>> {
  static Value to_value(const std::vector<Finding>& findings);
  static std::vector<Finding> from_value(const Value& value);
};
template <>
struct Bridge<std::vector<Reason>> {
  static Value to_value(const std::vector<Reason>& reasons);
};

const Calculation& gear_check_calculation();

}  // namespace footroom::engine
