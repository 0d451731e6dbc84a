"""Free fall, by heights over the feet or by tracing the line over the eave."""

from eave import Eave
from families import Choice, Number, Order, family
from motion import free_fall, speed_of_energy
from quantities import units
from roof import down_the_slope


def at_the_eave(given):
    return Eave(given["slope-length"], given["pitch"], given["d-ring-height"])


def fall_on_a_lanyard(anchor, d_ring, lanyard):
    """Both heights over one datum. The lanyard is taut when the D-ring hangs under the anchor."""
    if abs(anchor - d_ring) > lanyard:
        raise ValueError("the lanyard does not reach from the D-ring to the anchor")
    hanging = anchor - lanyard
    return d_ring - hanging


@family("free-fall-over-the-eave")
def free_fall_over_the_eave(given):
    eave, slack = at_the_eave(given), given["slack"]
    fall = eave.free_fall(slack)
    return Number(fall, {
        "slack-only": slack,
        # the sum without its slack; a line without slack would end the fall on the roof
        "no-slack": fall - slack,
        "height-plus-slack": given["d-ring-height"] + slack,
    })


@family("free-fall-within-the-limit")
def free_fall_within_the_limit(given):
    slack, limit = given["slack"], given.limit("free-fall")
    fall = at_the_eave(given).free_fall(slack)
    gap = abs(limit - fall)
    return Choice("within" if fall <= limit else "over", {
        "within": gap, "over": gap,
        "slack-only": limit - slack,
        "sum-over": given["d-ring-height"] + slack - limit,
    })


@family("lanyard-on-a-wall-anchor")
def lanyard_on_a_wall_anchor(given):
    anchor, d_ring, lanyard = given["anchor-height"], given["d-ring-height"], given["lanyard"]
    fall = fall_on_a_lanyard(anchor, d_ring, lanyard)
    return Number(fall, {
        "lanyard-only": fall_on_a_lanyard(d_ring, d_ring, lanyard),
        "wrong-sign": fall_on_a_lanyard(d_ring, anchor, lanyard),
        "tear-out-counted": fall + given["tear-out"],
    })


@family("largest-slack-at-the-eave")
def largest_slack_at_the_eave(given):
    eave, limit, d_ring = at_the_eave(given), given.limit("free-fall"), given["d-ring-height"]
    slack = eave.slack_for(limit)
    return Number(slack, {
        "limit-as-slack": limit,
        "taut-as-long-as-slope": limit - d_ring,
        # the fall is counted from the edge on, so the D-ring's height comes on top
        "no-d-ring-height": slack + d_ring,
    })


@family("shortest-free-fall-first")
def shortest_free_fall_first(given):
    d_ring = given["below-feet"]
    return Order({
        "above": fall_on_a_lanyard(d_ring + given["above"], d_ring, given["lanyard-1"]),
        "below": fall_on_a_lanyard(d_ring - given["below"], d_ring, given["lanyard-2"]),
        "feet": fall_on_a_lanyard(0 * units.metre, d_ring, given["lanyard-3"]),
        "line": given["slack"],
    })


@family("speed-at-the-end-of-free-fall")
def speed_at_the_end_of_free_fall(given):
    drop = given["drop"]
    speed, time = free_fall(drop)
    return Number(speed, {
        "average": drop / time,
        "factor-two": speed_of_energy(drop / 2),
        "with-tear-out": speed_of_energy(drop + given["tear-out"]),
    })


@family("speed-after-a-slide-and-a-fall")
def speed_after_a_slide_and_a_fall(given):
    slide, drop, angle = given["slide"], given["free-fall"], given["pitch"]
    down, outwards = down_the_slope(angle)

    def speed(friction):
        # all of the height turns into speed, but for what friction takes on the way down the roof
        height = drop - slide * float(down[2])
        lost = friction * slide * float(outwards[2])  # as a height of the same work
        return speed_of_energy(height - lost)

    return Number(speed(given["friction"]), {
        "no-slide": free_fall(drop)[0],
        "no-friction": speed(0.0),
        "slope-as-height": speed_of_energy(drop + slide),
    })
