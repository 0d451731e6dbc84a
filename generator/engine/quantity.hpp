#pragma once
// Dimensions are types. A typed quantity (Length, Force ...) is what calculations compute with;
// a Quantity carries its dimension at run time, for the catalogue, formulas and files.
// Everything is in SI base units: metre, kilogram, second, radian.

#include <boost/units/cmath.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>
#include <cmath>
#include <compare>

namespace footroom::engine {

namespace units = boost::units;
namespace si = boost::units::si;

using Ratio = units::quantity<si::dimensionless>;
using Length = units::quantity<si::length>;
using Area = units::quantity<si::area>;
using Angle = units::quantity<si::plane_angle>;
using Mass = units::quantity<si::mass>;
using Time = units::quantity<si::time>;
using Speed = units::quantity<si::velocity>;
using Acceleration = units::quantity<si::acceleration>;
using Force = units::quantity<si::force>;
using Energy = units::quantity<si::energy>;
using Stiffness = units::quantity<si::surface_tension>;  // force per length
using Pressure = units::quantity<si::pressure>;
using Damping = units::quantity<units::unit<
    units::divide_typeof_helper<si::force, si::velocity>::type::dimension_type, si::system>>;

/// Standard gravity, exact by definition (3rd CGPM 1901, declaration 2; BIPM SI Brochure).
inline const Acceleration standard_gravity = 9.80665 * si::metre_per_second_squared;

/// Exponents of the base dimensions. A plane angle counts as a base dimension, so that degrees
/// cannot be added to a slope ratio unnoticed.
struct Dimension {
  int length = 0;
  int mass = 0;
  int time = 0;
  int angle = 0;

  constexpr auto operator<=>(const Dimension&) const = default;

  friend constexpr Dimension operator+(Dimension a, Dimension b) {
    return {a.length + b.length, a.mass + b.mass, a.time + b.time, a.angle + b.angle};
  }
  friend constexpr Dimension operator-(Dimension a, Dimension b) {
    return {a.length - b.length, a.mass - b.mass, a.time - b.time, a.angle - b.angle};
  }
};

namespace dimension {
inline constexpr Dimension ratio{};
inline constexpr Dimension length{1, 0, 0, 0};
inline constexpr Dimension area{2, 0, 0, 0};
inline constexpr Dimension angle{0, 0, 0, 1};
inline constexpr Dimension mass{0, 1, 0, 0};
inline constexpr Dimension time{0, 0, 1, 0};
inline constexpr Dimension speed{1, 0, -1, 0};
inline constexpr Dimension acceleration{1, 0, -2, 0};
inline constexpr Dimension force{1, 1, -2, 0};
inline constexpr Dimension energy{2, 1, -2, 0};
inline constexpr Dimension stiffness{0, 1, -2, 0};
inline constexpr Dimension pressure{-1, 1, -2, 0};
inline constexpr Dimension damping{0, 1, -1, 0};
}  // namespace dimension

/// A quantity whose dimension is known at run time; `si` is in SI base units.
struct Quantity {
  Dimension dimension;
  double si = 0;

  friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// The run-time dimension of a typed quantity; used by the catalogue only.
template <class Typed>
struct DimensionOf;
template <>
struct DimensionOf<Ratio> {
  static constexpr Dimension value = dimension::ratio;
};
template <>
struct DimensionOf<Length> {
  static constexpr Dimension value = dimension::length;
};
template <>
struct DimensionOf<Area> {
  static constexpr Dimension value = dimension::area;
};
template <>
struct DimensionOf<Angle> {
  static constexpr Dimension value = dimension::angle;
};
template <>
struct DimensionOf<Mass> {
  static constexpr Dimension value = dimension::mass;
};
template <>
struct DimensionOf<Time> {
  static constexpr Dimension value = dimension::time;
};
template <>
struct DimensionOf<Speed> {
  static constexpr Dimension value = dimension::speed;
};
template <>
struct DimensionOf<Acceleration> {
  static constexpr Dimension value = dimension::acceleration;
};
template <>
struct DimensionOf<Force> {
  static constexpr Dimension value = dimension::force;
};
template <>
struct DimensionOf<Energy> {
  static constexpr Dimension value = dimension::energy;
};
template <>
struct DimensionOf<Stiffness> {
  static constexpr Dimension value = dimension::stiffness;
};
template <>
struct DimensionOf<Pressure> {
  static constexpr Dimension value = dimension::pressure;
};
template <>
struct DimensionOf<Damping> {
  static constexpr Dimension value = dimension::damping;
};

template <class Typed>
Quantity erase_type(const Typed& typed) {
  return {DimensionOf<Typed>::value, typed.value()};
}

}  // namespace footroom::engine
