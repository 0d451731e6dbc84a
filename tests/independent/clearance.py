"""Clearances, by following heights over one datum from the D-ring down to the ground."""

from dataclasses import dataclass

from eave import Eave
from families import Choice, Number, Order, family
from quantities import units

NOTHING = 0 * units.metre


@dataclass
class Fall:
    """What lowers the D-ring and what hangs below it, when the fall has come to a stop."""
    free_fall: object
    deceleration: object
    stretch: object = NOTHING
    shift: object = NOTHING   # the harness gives: the body hangs so much lower under the D-ring
    body: object = NOTHING    # from the D-ring down to the feet
    margin: object = NOTHING

    def needed(self):
        """Below the D-ring as it was before the fall."""
        d_ring = NOTHING  # the datum
        d_ring = d_ring - self.free_fall - self.deceleration - self.stretch
        feet = d_ring - self.shift - self.body
        ground = feet - self.margin
        return -ground

    def spare(self, ground):
        """Room between the margin below the feet and the ground, from the ground up."""
        start = ground  # the D-ring over the ground
        feet = start - self.free_fall - self.deceleration - self.stretch - self.shift - self.body
        return feet - self.margin


@family("clearance-below-the-d-ring")
def clearance_below_the_d_ring(given):
    def needed(deceleration=given.limit("deceleration"), body=given["d-ring-height"],
               margin=given["margin"]):
        return Fall(given["free-fall"], deceleration, shift=given["shift"], body=body,
                    margin=margin).needed()

    return Number(needed(), {
        "no-deceleration": needed(deceleration=NOTHING),
        "body-and-shift": needed(body=given["body-height"]),
        "no-body": needed(body=NOTHING),
        "no-margin": needed(margin=NOTHING),
    })


@family("clearance-with-rope-stretch")
def clearance_with_rope_stretch(given):
    loaded = given["line"] * (1 + given["stretch"])
    stretch = loaded - given["line"]

    def needed(deceleration=given.limit("deceleration"), body=given["d-ring-height"],
               longer=stretch):
        return Fall(given["free-fall"], deceleration, stretch=longer, body=body,
                    margin=given["margin"]).needed()

    return Number(needed(), {
        "no-stretch": needed(longer=NOTHING),
        "stretch-of-the-fall": needed(longer=given["free-fall"] * given["stretch"]),
        "no-deceleration": needed(deceleration=NOTHING),
        "no-body": needed(body=NOTHING),
    })


@family("clearance-from-another-datum")
def clearance_from_another_datum(given):
    asked, above, d_ring = given["clearance"], given["anchor-above"], given["d-ring-height"]
    # heights over the deck
    anchor = d_ring + above
    lowest = anchor - asked
    return Number(-lowest, {
        "not-changed": asked,
        "to-the-d-ring": d_ring - lowest,
        "from-the-d-ring": above - lowest,
        "added": asked + anchor,
    })


@family("is-the-clearance-enough")
def is_the_clearance_enough(given):
    eave, d_ring = given["eave-height"], given["d-ring-height"]
    fall = Fall(given["free-fall"], given.limit("deceleration"), shift=given["shift"], body=d_ring,
                margin=given["margin"])
    spare = fall.spare(eave + d_ring)
    datum = abs(fall.spare(eave))
    fall.deceleration = NOTHING
    short = abs(fall.spare(eave + d_ring))
    return Choice("enough" if spare > NOTHING else "too-little", {
        "enough": abs(spare), "too-little": abs(spare),
        "datum-enough": datum, "datum-little": datum,
        "short-enough": short, "short-little": short,
    })


@family("clearance-at-the-eave")
def clearance_at_the_eave(given):
    height, d_ring = given["eave-height"], given["d-ring-height"]
    free_fall = Eave(given["slope-length"], given["pitch"], d_ring).free_fall(given["slack"])
    fall = Fall(free_fall, given.limit("deceleration"), body=d_ring, margin=given["margin"])
    spare = fall.spare(height + d_ring)
    datum = abs(fall.spare(height))
    fall.free_fall = given["slack"]
    slack = abs(fall.spare(height + d_ring))
    return Choice("enough" if spare > NOTHING else "too-little", {
        "enough": abs(spare), "too-little": abs(spare),
        "slack-enough": slack, "slack-little": slack,
        "datum-enough": datum, "datum-little": datum,
    })


@family("slack-that-the-clearance-allows")
def slack_that_the_clearance_allows(given):
    height, d_ring = given["eave-height"], given["d-ring-height"]
    eave = Eave(given["slope-length"], given["pitch"], d_ring)

    def free_fall(deceleration=given.limit("deceleration"), margin=given["margin"]):
        """What is left for the free fall when all the rest has its place."""
        return Fall(NOTHING, deceleration, body=d_ring, margin=margin).spare(height + d_ring)

    return Number(eave.slack_for(free_fall()), {
        "no-deceleration": eave.slack_for(free_fall(deceleration=NOTHING)),
        "no-margin": eave.slack_for(free_fall(margin=NOTHING)),
        "taut-as-long-as-slope": free_fall() - d_ring,
        "free-fall-as-slack": free_fall(),
    })


@family("least-clearance-first")
def least_clearance_first(given):
    # heights over the feet, of the point from which each room is measured
    d_ring = given["d-ring"]
    anchor, feet = d_ring + given["above"], NOTHING
    measured_from = {1: anchor, 2: d_ring, 3: feet, 4: anchor}
    return Order({f"place-{n}": d_ring - (start - given[f"clear-{n}"])
                  for n, start in measured_from.items()})
