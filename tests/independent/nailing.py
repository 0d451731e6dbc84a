"""Brackets on rafters: nails that hold, nails that miss, and the rafters to choose."""

import math

from scipy.optimize import brentq

import nails
from anchors_and_ladder import distances_to_rafters
from counting import all_together, pieces_over
from families import Choice, Number, Order, family
from quantities import Quantity, si


@family("bracket-that-missed-the-rafter")
def bracket_that_missed_the_rafter(given):
    gravity, nail = nails.specific_gravity(given.word("wood")), given.word("nail")
    sheathing, depth = given["sheathing"], given["depth"]
    left = nails.withdrawal(nails.PANEL, nail, sheathing) / nails.withdrawal(gravity, nail, depth)
    return Number(left, {
        "same-wood": sheathing / depth,
        "no-power": (sheathing * nails.PANEL) / (depth * gravity),
        "lost": 1 - left,
    })


@family("hit-or-miss-the-rafter")
def hit_or_miss_the_rafter(given):
    first, spacing = given["first"], given["spacing"]
    place = first + given.count("number") * spacing + given["off"]
    ridge = first + 12 * spacing

    def nearest(start):
        return Quantity(distances_to_rafters(place, start, spacing, ridge)[0], "metre")

    true, shifted = nearest(first), nearest(0 * first)
    half = given["width"] / 2
    return Choice("hit" if true <= half else "miss", {
        "hit": true, "miss": true,
        "shifted-miss": shifted,
        "other": spacing - true,
    })


@family("holes-to-patch")
def holes_to_patch(given):
    anchors, each, missed = given.count("anchors"), given.count("nails"), given.count("missed")
    holes = all_together(anchors, each)
    return Number(holes + missed, {
        "missed-forgotten": holes,
        "one-anchor": each + missed,
        "taken-off": holes - missed,
    })


@family("lateral-value-of-a-short-nail")
def lateral_value_of_a_short_nail(given):
    nail = given.word("nail")
    whole, shank = nails.length(nail), nails.shank(nail)
    depth = whole - given["plate"] - given["cover"]

    def verdict(length):
        return "full" if length >= 10 * shank else "reduced" if length >= 6 * shank else "none"

    diameters, by_radius = depth / shank, depth / (shank / 2)
    return Choice(verdict(depth), {
        "full": diameters, "reduced": diameters, "none": diameters,
        "whole-full": whole / shank,
        "half-full": by_radius, "half-part": by_radius,
    })


@family("length-of-nail-in-the-rafter")
def length_of_nail_in_the_rafter(given):
    # depths below the head of the nail
    point = nails.length(given.word("nail"))
    plate, shingles, sheathing = given["plate"], given["shingles"], given["sheathing"]
    return Number(point - (plate + shingles + sheathing), {
        "no-sheathing": point - (plate + shingles),
        "no-shingles": point - (plate + sheathing),
        "no-plate": point - (shingles + sheathing),
        "all-of-it": point,
    })


@family("nails-for-a-load")
def nails_for_a_load(given):
    load, one = given["load"], given["one"]
    count = pieces_over(load, one)
    return Choice("right", {
        "right": count,
        "down": count - 1,  # the last nail does not carry its whole value
        "more": count + 1,
        "twice": count + count,
        "part": pieces_over(load, one + one),
    })


@family("nails-pulled-straight-out")
def nails_pulled_straight_out(given):
    nail, count = given.word("nail"), given.count("nails")
    gravity, depth = nails.specific_gravity(given.word("wood")), given["depth"]
    one = nails.withdrawal(gravity, nail, depth)
    per_length, = given.printed("lbf/in", "kN/m")
    return Number(all_together(count, one), {
        "one-nail": one,
        "whole-length": all_together(count, nails.withdrawal(gravity, nail, nails.length(nail))),
        "tests": all_together(count, nails.mean_in_tests(gravity, nail, depth)),
    }, by_hand=all_together(count, per_length * depth))


@family("nails-in-wet-wood-or-at-a-slant")
def nails_in_wet_wood_or_at_a_slant(given):
    nail, count = given.word("nail"), given.count("nails")
    gravity = nails.specific_gravity(given.word("wood"))
    dry = all_together(count, nails.withdrawal(gravity, nail, given["depth"]))
    factor, other = {"wet": (nails.WET, nails.TOE_NAILED),
                     "toe": (nails.TOE_NAILED, nails.WET)}[given.word("case")]
    duration = 1.6
    per_length, = given.printed("lbf/in", "kN/m")
    return Number(dry * factor * duration, {
        "no-factor": dry * duration,
        "no-duration": dry * factor,
        "other-factor": dry * other * duration,
        "impact": dry * factor * 2.0,
    }, by_hand=all_together(count, per_length * given["depth"]) * factor * duration)


@family("weakest-nailing-first")
def weakest_nailing_first(given):
    nail, gravity = given.word("nail"), nails.specific_gravity(given.word("wood"))
    factors = {1: 1.0, 2: nails.WET, 3: nails.TOE_NAILED, 4: 1.0}
    return Order({f"bracket-{n}": factor * all_together(
        given.count(f"nails-{n}"), nails.withdrawal(gravity, nail, given[f"depth-{n}"]))
                  for n, factor in factors.items()})


@family("pull-at-an-angle")
def pull_at_an_angle(given):
    out, across, angle = si(given["out"]), si(given["across"]), si(given["angle"])

    def capacity(up):
        """The load that uses up the two values together: the shares of both add up to one."""
        def left(load):
            return 1 - load * math.sin(up) / out - load * math.cos(up) / across
        return Quantity(brentq(left, 0.0, 2 * (out + across), xtol=1e-9), "newton")

    return Number(capacity(angle), {
        "across-only": given["across"],
        "swapped": capacity(math.pi / 2 - angle),
        "added": Quantity(out * math.sin(angle) + across * math.cos(angle), "newton"),
    })


@family("weakest-way-counts")
def weakest_way_counts(given):
    count = given.count("nails")
    modes = list(nails.yield_modes(given.word("wood"), given.word("nail"), given["depth"],
                                   given["plate"]).values())
    printed = given.printed("lbf", "N")
    if len(printed) != len(modes):
        raise ValueError(f"{len(printed)} forces are printed for {len(modes)} modes")
    return Number(all_together(count, min(modes)), {
        "largest": all_together(count, max(modes)),
        "mean": all_together(count, sum(modes[1:], modes[0]) / len(modes)),
        "one-nail": min(modes),
    }, by_hand=all_together(count, min(printed)))


@family("rafters-for-three-anchors")
def rafters_for_three_anchors(given):
    ridge, spacing, first = given["ridge"], given["spacing"], given["first"]

    def nearest(place):
        """Number of the rafter nearest to a place, found by going along the ridge."""
        number, at = 1, si(first)
        while at + si(spacing) / 2 < si(place):
            number, at = number + 1, at + si(spacing)
        return number

    middles = [nearest(ridge * part / 6) for part in (1, 3, 5)]
    return Choice("right", {
        "right": middles,
        "quarters": [nearest(ridge * part / 4) for part in (1, 2, 3)],
        "starts": [1] + [nearest(ridge * part / 3) for part in (1, 2)],
        "gaps": [number - 1 for number in middles],  # spaces counted in place of rafters
    })
