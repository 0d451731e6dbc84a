"""Swings, by looking for the lowest place; z is up, y runs along ridge and eave."""

import math

import numpy
from scipy.optimize import minimize_scalar

from families import Choice, Number, Order, family
from motion import free_fall, speed_of_energy
from quantities import Quantity, si


def _least(function, low, high):
    """The least value of a function with one valley, and where it is."""
    found = minimize_scalar(function, bounds=(low, high), method="bounded",
                            options={"xatol": 1e-9})
    best = min((function(low), low), (function(high), high), (found.fun, found.x))
    return best


def anchored_line(slope_length, offset):
    """From an anchor down the slope and along the eave, on the roof laid flat."""
    return Quantity(math.dist((0.0, 0.0), (si(slope_length), si(offset))), "metre")


def extra_line(slope_length, offset):
    """What more hangs over the eave where the line, sliding along it, lets the most down."""
    down, side = si(slope_length), si(offset)
    line = math.dist((0.0, 0.0), (down, side))
    shortest, _ = _least(lambda place: math.dist((0.0, 0.0), (down, place)), -side, side)
    return Quantity(line - shortest, "metre")


@family("anchor-to-the-side-overhead")
def anchor_to_the_side_overhead(given):
    height, side = si(given["anchor-height"]), si(given["offset"])
    line = math.dist((0.0, 0.0), (side, height))
    # on the circle around the anchor, from the start to the same height on the other side
    reach = math.pi / 2
    lowest, _ = _least(lambda turn: -line * math.cos(turn), -reach, reach)
    return Number(Quantity(-height - lowest, "metre"), {
        "sideways": given["offset"],
        "whole-line": Quantity(line, "metre"),
        "wrong-leg": Quantity(line - side, "metre"),
    })


@family("drop-of-a-swing-on-the-roof")
def drop_of_a_swing_on_the_roof(given):
    down, across = si(given["down"]), si(given["across"])
    line = math.dist((0.0, 0.0), (down, across))

    def drop(angle):
        slope = numpy.array([math.cos(angle), 0.0, -math.sin(angle)])
        along = numpy.array([0.0, 1.0, 0.0])
        start = down * slope + across * along

        def height(turn):
            return float((line * (math.cos(turn) * slope + math.sin(turn) * along))[2])

        lowest, turn = _least(height, -math.pi / 2, math.pi / 2)
        rest = line * (math.cos(turn) * slope + math.sin(turn) * along)
        return float(start[2]) - lowest, float((rest - start) @ slope)

    level, slide = drop(si(given["pitch"]))
    misread, _ = drop(math.radians(given.number("pitch")))
    return Number(Quantity(level, "metre"), {
        "along-the-slope": Quantity(slide, "metre"),
        "whole-line": Quantity(line * level / slide, "metre"),
        "pitch-as-degrees": Quantity(misread, "metre"),
    })


@family("extra-line-at-the-eave")
def extra_line_at_the_eave(given):
    slope, offset = given["slope-length"], given["offset"]
    level = slope * math.cos(si(given["pitch"]))
    return Number(extra_line(slope, offset), {
        "whole-line": anchored_line(slope, offset),
        "offset-as-line": offset,
        "level-length": extra_line(level, offset),
    })


@family("fall-over-the-rake")
def fall_over_the_rake(given):
    angle, slope = si(given["pitch"]), si(given["slope-length"])
    line, d_ring = si(given["line"]), si(given["d-ring-height"])
    anchor = numpy.array([0.0, 0.0, 0.0])

    def rake(place):  # a point of the rake, so far down the slope
        return numpy.array([place * math.cos(angle), si(given["anchor-from-rake"]),
                            -place * math.sin(angle)])

    def hanging(place):  # line that is left below the edge
        return line - float(numpy.linalg.norm(rake(place) - anchor))

    def height(place):
        return float(rake(place)[2]) - hanging(place)

    start = float(rake(si(given["down-slope"]))[2]) + d_ring
    # The line bends over the edge somewhere between ridge and eave, where it reaches the edge.
    lowest, place = _least(height, 0.0, slope)
    if hanging(place) < 0:
        raise ValueError("the line is used up before the rest")
    below_the_fall = float(rake(si(given["down-slope"]))[2]) - hanging(si(given["down-slope"]))
    return Number(Quantity(start - lowest, "metre"), {
        "free-fall-only": Quantity(start - below_the_fall, "metre"),
        "line-below-edge": Quantity(d_ring + hanging(place), "metre"),
        "from-the-anchor": Quantity(float(anchor[2]) - lowest, "metre"),
    })


@family("least-extra-line-first")
def least_extra_line_first(given):
    return Order({f"place-{n}": extra_line(given[f"slope-{n}"], given[f"offset-{n}"])
                  for n in (1, 2, 3, 4)})


def where_the_ray_meets_the_eave(slope_length, angle):
    """A line at an angle from straight down the slope, on the roof laid flat: how far along the
    eave it comes, and how long it is."""
    ray = numpy.array([math.cos(si(angle)), math.sin(si(angle))])  # down, along
    # ray * length = (slope, 0) + (0, 1) * along
    length, along = numpy.linalg.solve(numpy.array([[ray[0], 0.0], [ray[1], -1.0]]),
                                       numpy.array([si(slope_length), 0.0]))
    return Quantity(float(along), "metre"), Quantity(float(length), "metre")


@family("reach-along-the-eave")
def reach_along_the_eave(given):
    slope = given["slope-length"]
    along, line = where_the_ray_meets_the_eave(slope, given["angle"])
    return Number(along, {
        "sine": slope * (along / line),
        "both-sides": along - -along,
        "line-out": line,
    })


@family("speed-of-an-eave-swing")
def speed_of_an_eave_swing(given):
    slope, offset = given["slope-length"], given["offset"]
    extra = extra_line(slope, offset)
    return Number(free_fall(extra)[0], {
        "offset-as-drop": speed_of_energy(offset),
        "line-as-drop": speed_of_energy(anchored_line(slope, offset)),
        "factor-two": speed_of_energy(extra / 2),
    })


@family("swing-against-spare-clearance")
def swing_against_spare_clearance(given):
    slope, angle, offset = si(given["slope-length"]), si(given["pitch"]), si(given["offset"])
    # x level and outwards, y along the eave, z up; from the eave straight below the anchor
    anchor = numpy.array([-slope * math.cos(angle), 0.0, slope * math.sin(angle)])

    def hanging(aside):
        """What hangs below the eave at rest, of a line let out at this distance to the side."""
        d_ring = numpy.array([0.0, aside, si(given["d-ring-height"])])
        line = float(numpy.linalg.norm(d_ring - anchor)) + si(given["slack"])

        def over_the_eave(place):
            return line - float(numpy.linalg.norm(numpy.array([0.0, place, 0.0]) - anchor))

        if over_the_eave(aside) <= 0:
            raise ValueError("the line does not reach over the eave")
        most, _ = _least(lambda place: -over_the_eave(place), -aside, aside)
        return -most

    left = given["spare"] - Quantity(hanging(offset) - hanging(0.0), "metre")
    side = abs(given["spare"] - given["offset"])
    return Choice("enough" if left > 0 * left else "too-little", {
        "enough": abs(left), "too-little": abs(left),
        "offset-enough": side, "offset-little": side,
        "no-change": given["spare"],
    })
