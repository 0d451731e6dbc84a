"""Arrests, by momentum over time and by force over distance."""

from families import Choice, Number, Order, family
from motion import stop_within, stretch_of_a_spring, tear_out
from quantities import gravity, units


def _weightless(mass, drop, way):
    """The even force that would stop the fall if the weight did not pull during the stop."""
    return stop_within(mass, drop, way) - mass * gravity


@family("average-force-of-the-stop")
def average_force_of_the_stop(given):
    mass, drop, way = given["mass"], given["free-fall"], given["stop"]
    return Number(stop_within(mass, drop, way), {
        "weight-forgotten": _weightless(mass, drop, way),
        # the way of the stop and the free fall have changed places in the division
        "stop-forgotten": mass * gravity * ((drop + way) / drop),
        "only-weight": mass * gravity,
    })


@family("force-within-the-limit")
def force_within_the_limit(given):
    mass, drop, way = given["mass"], given["free-fall"], given["stop"]
    limit = given.limit("arrest-force")
    force = stop_within(mass, drop, way)
    light = abs(limit - _weightless(mass, drop, way))
    return Choice("within" if force <= limit else "above", {
        "within": abs(limit - force), "above": abs(limit - force),
        "light-within": light, "light-above": light,
        "at-rest": limit - mass * gravity,
    })


@family("smallest-force-first")
def smallest_force_first(given):
    return Order({f"fall-{n}": stop_within(given[f"mass-{n}"], given[f"fall-{n}"],
                                           given[f"stop-{n}"]) for n in (1, 2, 3, 4)})


@family("tear-out-of-the-absorber")
def tear_out_of_the_absorber(given):
    mass, drop, force = given["mass"], given["free-fall"], given["absorber-force"]
    way = tear_out(mass, drop, force)
    energy = mass * gravity * drop  # of the free fall alone
    return Number(way, {
        "weight-forgotten": energy / force,
        "weight-added": energy / (force + mass * gravity),
        "whole-fall": drop + way,
    })


@family("does-the-absorber-bottom-out")
def does_the_absorber_bottom_out(given):
    mass, drop, force = given["mass"], given["free-fall"], given["absorber-force"]
    most = given["maximum"]
    way = tear_out(mass, drop, force)
    short = abs(most - mass * gravity * drop / force)
    return Choice("enough" if way <= most else "bottoms-out", {
        "enough": abs(most - way), "bottoms-out": abs(most - way),
        "short-enough": short, "short-out": short,
        "whole-out": drop + way - most,
    })


@family("does-the-absorber-open")
def does_the_absorber_open(given):
    mass, drop, stiffness = given["mass"], given["free-fall"], given["stiffness"]
    opens_at = given["absorber-force"]
    peak = stiffness * stretch_of_a_spring(mass, drop, stiffness)
    # without the weight during the stretch, all the energy comes from the free fall
    light = stiffness * (2 * mass * gravity * drop / stiffness) ** 0.5
    gap, light_gap = abs(peak - opens_at), abs(light - opens_at)
    return Choice("opens" if peak > opens_at else "closed", {
        "opens": gap, "closed": gap,
        "light-opens": light_gap, "light-closed": light_gap,
        "weight-closed": opens_at - mass * gravity,
    })


@family("peak-force-of-a-rope")
def peak_force_of_a_rope(given):
    mass, drop = given["mass"], given["free-fall"]
    stiffness = given["test-force"] / (given["line"] * given["test-elongation"])
    weight = mass * gravity
    return Number(stiffness * stretch_of_a_spring(mass, drop, stiffness), {
        "no-fall": stiffness * stretch_of_a_spring(mass, 0 * units.metre, stiffness),
        "weight-forgotten": stiffness * (2 * weight * drop / stiffness) ** 0.5,
        # as if the spring took up stiffness times stretch squared: half the fall does the same
        "factor-two": stiffness * stretch_of_a_spring(mass, drop / 2, stiffness),
    })
