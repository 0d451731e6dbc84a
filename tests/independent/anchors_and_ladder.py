"""Anchors and ladders, by counting and by vectors."""

import math

import numpy
from scipy.optimize import brentq

from counting import all_together, pieces_over
from families import Choice, Number, family
from quantities import Quantity, si, units
from swing import where_the_ray_meets_the_eave


@family("anchors-to-cover-an-eave")
def anchors_to_cover_an_eave(given):
    side, _ = where_the_ray_meets_the_eave(given["slope-length"], given["angle"])
    anchors = pieces_over(given["eave-length"], 2 * side)
    return Choice("right", {
        "right": anchors,
        "one-side": pieces_over(given["eave-length"], side),
        "rounded-down": anchors - 1,  # the last piece is not a full one
        "one-more": anchors + 1,
    })


@family("crew-on-one-anchor")
def crew_on_one_anchor(given):
    rating, crew = given["rating"], given.count("persons")
    each, force = given.limit("anchor-strength-per-person"), given.limit("arrest-force")
    spare = rating - all_together(crew, each)
    one, by_force = abs(rating - each), abs(rating - all_together(crew, force))
    return Choice("enough" if spare >= 0 * spare else "too-little", {
        "enough": abs(spare), "too-little": abs(spare),
        "crew-enough": one, "crew-little": one,
        "force-enough": by_force, "force-little": by_force,
    })


@family("strength-of-a-designed-anchor")
def strength_of_a_designed_anchor(given):
    crew, force = given.count("persons"), given["force"]
    factor, each = given.limit("anchor-safety-factor"), given.limit("anchor-strength-per-person")
    together = all_together(crew, force)
    return Number(together * factor, {
        "no-factor": together,
        "one-person": force * factor,
        "not-designed": all_together(crew, each),
    })


def distances_to_rafters(position, first, spacing, ridge):
    """From a position to every rafter of a ridge, the nearest first."""
    rafters, at = [], si(first)
    while at <= si(ridge) + 1e-9:
        rafters.append(at)
        at += si(spacing)
    return sorted(abs(si(position) - rafter) for rafter in rafters)


@family("distance-to-the-rafter")
def distance_to_the_rafter(given):
    position, first, spacing = given["position"], given["first-rafter"], given["spacing"]
    ridge = given["ridge-length"]
    nearest = distances_to_rafters(position, first, spacing, ridge)[0]
    moved = distances_to_rafters(position, 0 * first, spacing, ridge)[0]
    return Number(Quantity(nearest, "metre"), {
        "first-forgotten": Quantity(moved, "metre"),
        "other-side": spacing - Quantity(nearest, "metre"),
        "one-rafter-too-far": spacing + Quantity(nearest, "metre"),
    })


def _foot_of(working, ratio):
    """Where the foot stands: the rails lean until foot and length are in this ratio."""
    length, part = si(working), si(ratio)
    lean = brentq(lambda turn: math.sin(turn) - part, 0.0, math.pi / 2, xtol=1e-14)
    foot = numpy.array([0.0, 0.0])
    support = foot + length * numpy.array([math.sin(lean), math.cos(lean)])
    return Quantity(float(support[0]), "metre")


@family("foot-of-the-ladder")
def foot_of_the_ladder(given):
    ladder = given["ladder-length"]
    working, ratio = ladder - given["above-eave"], given.limit("ladder-foot")
    return Number(_foot_of(working, ratio), {
        "whole-ladder": _foot_of(ladder, ratio),
        "third": _foot_of(working, units.Quantity(1 / 3)),
        "sixth": _foot_of(working, units.Quantity(1 / 6)),
    })


@family("move-the-foot-of-the-ladder")
def move_the_foot_of_the_ladder(given):
    working, foot = given["working-length"], given["foot"]
    move = foot - _foot_of(working, given.limit("ladder-foot"))
    third = abs(foot - _foot_of(working, units.Quantity(1 / 3)))
    return Choice("closer" if move > 0 * move else "farther", {
        "closer": abs(move), "farther": abs(move),
        "third-closer": third, "third-farther": third,
    })


@family("rails-for-a-landing")
def rails_for_a_landing(given):
    eave, dip = given["eave-height"], given["dip"]
    ratio, above = si(given.limit("ladder-foot")), given.limit("ladder-above-landing")

    def rails(height):
        """Working length and whole length of rails that lean against a height."""
        up = si(height)
        # the foot moves out until it stands at the ratio of what the rails then measure
        foot = brentq(lambda out: out - ratio * math.dist((0, 0), (out, up)), 0.0, up, xtol=1e-13)
        direction = numpy.array([foot, up]) / math.dist((0, 0), (foot, up))
        working = up / direction[1]
        return working, (up + si(above)) / direction[1], foot

    working, whole, foot = rails(eave + dip)
    height = eave + dip + above
    return Number(Quantity(float(whole), "metre"), {
        "no-dip": Quantity(float(rails(eave)[1]), "metre"),
        "to-the-eave": Quantity(float(working), "metre"),
        "straight-up": height,
        "legs-added": height + Quantity(foot, "metre"),
    })


@family("who-is-responsible")
def who_is_responsible(given):
    # 1926.502(d)(8) and (d)(15)(i): qualified person; (d)(19): competent person
    return Choice({"lifeline": "qualified", "system": "qualified",
                   "impact": "competent"}[given.word("duty")])
