"""Roofs, by coordinates: x is level, z is up, y runs along the eave."""

import math

import numpy

from families import Choice, Number, Order, family
from quantities import Quantity, gravity, si, units


def down_the_slope(angle):
    """Unit vector along the roof, downwards, and the one square to it, outwards."""
    radians = si(angle)
    down = numpy.array([math.cos(radians), 0.0, -math.sin(radians)])
    outwards = numpy.array([math.sin(radians), 0.0, math.cos(radians)])
    return down, outwards


def rise_over(angle, run):
    """Height that a line of this angle gains over a level run: the point where it meets a plumb
    line, by a linear system."""
    down, _ = down_the_slope(angle)
    # up the slope by s meets the plumb line at height z:  s (-down) = (run, z)
    matrix = numpy.array([[down[0], 0.0], [-down[2], -1.0]])
    _, height = numpy.linalg.solve(matrix, numpy.array([si(run), 0.0]))
    return Quantity(height, "metre")


def angle_of(rise, run):
    return Quantity(math.atan2(si(rise), si(run)), "radian")


def length_of(run, rise):
    return Quantity(math.dist((0.0, 0.0), (si(run), si(rise))), "metre")


@family("area-to-cover")
def area_to_cover(given):
    run, along = given["run"], given["eave-length"]
    rise = rise_over(given["pitch"], run)
    eave = numpy.array([0.0, si(along), 0.0])
    rake = numpy.array([si(run), 0.0, si(rise)])
    across = numpy.cross(rake, eave)  # its length is the area, its z part the area from above
    area = Quantity(float(numpy.linalg.norm(across)), "metre**2")
    return Number(area, {
        "seen-from-above": Quantity(abs(float(across[2])), "metre**2"),
        "both-sides": area + area,
        "rise-added": along * (run + rise),
    })


@family("does-the-bundle-slide")
def does_the_bundle_slide(given):
    mass, friction = given["mass"], given["friction"]
    down, outwards = down_the_slope(given["pitch"])
    weight = numpy.array([0.0, 0.0, -si(mass * gravity)])
    pull = float(weight @ down)
    grip = si(friction) * -float(weight @ outwards)
    flat_grip = si(friction) * float(numpy.linalg.norm(weight))
    gap = Quantity(abs(pull - grip), "newton")
    flat_gap = Quantity(abs(pull - flat_grip), "newton")
    return Choice("slides" if pull > grip else "stays", {
        "stays": gap, "slides": gap, "flat-stays": flat_gap, "flat-slides": flat_gap,
        "by-weight": mass,
    })


@family("flattest-to-steepest")
def flattest_to_steepest(given):
    step = 1 * units.metre  # compared by the rise over the same run
    return Order({
        "pitch": step * given.number("a") / 12,
        "degrees": rise_over(given["b"], step),
        "rise-and-run": step * (given["rise"] / given["run"]),
        "percent": step * given["slope"],
    })


@family("height-of-the-ridge-anchor")
def height_of_the_ridge_anchor(given):
    width, eave = given["width"], given["eave-height"]

    def ridge(angle, level):
        # where the two sides meet: from (0, eave) up to the right, from (level, eave) to the left
        down, _ = down_the_slope(angle)
        matrix = numpy.array([[down[0], down[0]], [-down[2], down[2]]])
        along, _ = numpy.linalg.solve(matrix, numpy.array([si(level), 0.0]))
        return Quantity(-along * down[2], "metre"), Quantity(along, "metre")

    rise, along = ridge(given["pitch"], width)
    whole, _ = ridge(given["pitch"], 2 * width)
    misread, _ = ridge(Quantity(given.number("pitch"), "degree"), width)
    return Number(eave + rise, {
        "whole-width": eave + whole,
        "from-the-eave": rise,
        "slope-as-height": eave + along,
        "pitch-as-degrees": eave + misread,
    })


@family("length-along-the-slope")
def length_along_the_slope(given):
    wall, overhang, angle = given["to-the-wall"], given["overhang"], given["pitch"]
    run = wall + overhang
    return Number(length_of(run, rise_over(angle, run)), {
        "level-distance": run,
        "no-overhang": length_of(wall, rise_over(angle, wall)),
        "rise-plus-run": run + rise_over(angle, run),
    })


@family("low-slope-or-steep")
def low_slope_or_steep(given):
    run, rise = given["run"], given["rise"]
    highest = rise_over(given.limit("low-slope"), run)  # that a low-slope roof rises over the run
    return Choice("steep" if rise > highest else "low-slope", {
        "low-slope": angle_of(rise, run), "steep": angle_of(rise, run),
        "swapped": angle_of(run, rise),
        "whole-width-low": angle_of(rise, 2 * run), "whole-width-steep": angle_of(rise, 2 * run),
    })


@family("roof-angle")
def roof_angle(given):
    run, rise = given["run"], given["rise"]
    slope = numpy.array([si(run), si(rise)])
    slope /= numpy.linalg.norm(slope)
    from_level = math.acos(float(slope @ (1.0, 0.0)))
    from_plumb = math.acos(float(slope @ (0.0, 1.0)))
    # a triangle with the run as its long side: the level side that is left, then its angle
    left = math.sqrt(si(run) ** 2 - si(rise) ** 2)
    return Number(Quantity(from_level, "radian"), {
        "from-plumb": Quantity(from_plumb, "radian"),
        "rise-in-12": Quantity(float((rise / run).to("dimensionless").magnitude) * 12, "degree"),
        "run-as-slope": Quantity(math.atan2(si(rise), left), "radian"),
    })


@family("speed-of-a-slide")
def speed_of_a_slide(given):
    distance, friction = given["distance"], given["friction"]

    def speed(mu):
        # work on each kilogram: gravity over the height, less friction over the way
        down, outwards = down_the_slope(given["pitch"])
        height = -down[2] * si(distance)
        lost = mu * si(gravity) * outwards[2] * si(distance)
        return Quantity(math.sqrt(2 * (si(gravity) * height - lost)), "metre/second")

    return Number(speed(si(friction)), {
        "no-friction": speed(0.0),
        "straight-drop": Quantity(si(gravity) * math.sqrt(2 * si(distance) / si(gravity)),
                                  "metre/second"),
        "factor-two": speed(si(friction)) / math.sqrt(2),
    })


def along_the_corner(angle, run):
    """From a square corner up the line where its two slopes meet, to the ridge: the intersection of
    two planes, with the eaves along x and y."""
    down, outwards = down_the_slope(angle)
    over_one = numpy.array([-outwards[0], 0.0, outwards[2]])  # the slope rises along x
    over_other = numpy.array([0.0, -outwards[0], outwards[2]])  # the slope rises along y
    direction = numpy.cross(over_one, over_other)
    direction *= si(run) / direction[0]  # as far in from the eave as the ridge
    return direction


@family("length-of-a-hip")
def length_of_a_hip(given):
    run, angle = given["run"], given["pitch"]
    hip = along_the_corner(angle, run)
    common = length_of(run, rise_over(angle, run))
    return Number(Quantity(float(numpy.linalg.norm(hip)), "metre"), {
        "common": common,
        "plan": Quantity(float(numpy.linalg.norm(hip[:2])), "metre"),
        "times": Quantity(math.hypot(si(common), si(common)), "metre"),
    })


@family("how-steep-is-the-valley")
def how_steep_is_the_valley(given):
    run, angle = given["run"], given["pitch"]
    valley = along_the_corner(angle, run)
    rise = rise_over(angle, run)
    longer = Quantity(math.hypot(si(rise), si(rise)), "metre")
    return Number(angle_of(Quantity(float(valley[2]), "metre"),
                           Quantity(float(numpy.linalg.norm(valley[:2])), "metre")), {
        "slope": angle_of(rise, run),
        "steeper": angle_of(longer, run),  # the rise drawn longer in place of the run
        "half": angle / 2,
    })
