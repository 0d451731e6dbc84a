"""Lines between anchors by balance of forces, edges by adding up friction, crossings of lines."""

import itertools
import math

import numpy
from scipy.integrate import solve_ivp

from families import Choice, Number, Order, family
from quantities import Quantity, si
from ropes import Crew, lie_free, passes_in, wound_pairs


def from_level(span, sag):
    """Angle of one half of a line that sags at the middle, between the half and a level line."""
    half = numpy.array([si(span) / 2, -si(sag)])
    level = numpy.array([1.0, 0.0])
    return Quantity(math.acos(float(half @ level) / float(numpy.linalg.norm(half))), "radian")


def pull(load, angle):
    """Pull of a line on its anchors when both halves hang by an angle below level: the two pulls on
    the middle and the load add up to nothing."""
    down = si(angle)
    left, right = (-math.cos(down), math.sin(down)), (math.cos(down), math.sin(down))
    pulls = numpy.linalg.solve(numpy.array([left, right]).T, numpy.array([0.0, si(load)]))
    return Quantity(float(pulls[0]), "newton")


@family("angle-of-a-sagging-line")
def angle_of_a_sagging_line(given):
    span, sag = given["span"], given["sag"]
    angle = from_level(span, sag)
    quarter = Quantity(90, "degree")
    return Number(angle, {
        "whole-span": from_level(span + span, sag),
        "swapped": quarter - angle,
        "both-halves": angle + angle,
    })


@family("pull-of-a-horizontal-line")
def pull_of_a_horizontal_line(given):
    load, angle = given["load"], given["angle"]
    return Number(pull(load, angle), {
        "half-load": pull(load, Quantity(90, "degree")),  # both halves straight down
        "load-itself": load,
        "no-two": pull(load + load, angle),  # one half carries what two should share
    })


@family("pull-from-span-and-sag")
def pull_from_span_and_sag(given):
    load, span, sag = given["load"], given["span"], given["sag"]
    return Number(pull(load, from_level(span, sag)), {
        "half-load": pull(load, Quantity(90, "degree")),
        "whole-span": pull(load, from_level(span + span, sag)),
        "load-itself": load,
    })


@family("least-pull-first")
def least_pull_first(given):
    return Order({f"line-{n}": pull(given["load"],
                                    from_level(given[f"span-{n}"], given[f"sag-{n}"]))
                  for n in (1, 2, 3, 4)})


def around_an_edge(force, friction, turn):
    """Force on the other side of an edge, from dT = mu T dphi, added up over the turn.

    Negative friction: it helps to hold.
    """
    traced = solve_ivp(lambda _, pulled: si(friction) * pulled, (0.0, si(turn)), (si(force),),
                       rtol=1e-11, atol=1e-9)
    return Quantity(float(traced.y[0][-1]), "newton")


@family("hoist-over-the-eave")
def hoist_over_the_eave(given):
    load, friction, turn = given["load"], given["friction"], given["turn"]
    return Number(around_an_edge(load, friction, turn), {
        "no-friction": around_an_edge(load, 0 * friction, turn),
        "lowering": around_an_edge(load, -friction, turn),
        "added": load + load * friction,
    })


@family("what-the-anchor-feels")
def what_the_anchor_feels(given):
    force, friction, turn = given["force"], given["friction"], given["turn"]
    return Number(around_an_edge(force, -friction, turn), {
        "same-force": around_an_edge(force, 0 * friction, turn),
        "wrong-way": around_an_edge(force, friction, turn),
        "taken-off": force - force * friction,
    })


@family("strength-left-by-a-knot")
def strength_left_by_a_knot(given):
    rope, part = given["rope"], given["part"]
    lost = rope * (1 - part)
    return Number(rope - lost, {
        "lost-part": lost,
        "no-knot": rope,
        "twice": (rope - lost) * part,
    })


@family("rope-with-a-knot")
def rope_with_a_knot(given):
    rope, part, needed = given["rope"], given["part"], given.limit("lanyard-strength")
    lost = rope * (1 - part)
    spare = rope - lost - needed
    wrong = abs(lost - needed)
    return Choice("enough" if spare >= 0 * spare else "too-little", {
        "enough": abs(spare), "too-little": abs(spare),
        "bare": abs(rope - needed),
        "lost-enough": wrong, "lost-little": wrong,
        "cut-enough": abs(rope - part * needed),
    })


@family("are-the-lines-tangled")
def are_the_lines_tangled(given):
    passes = passes_in(given.text("way"))
    if lie_free(3, passes):
        right = "free"
    else:
        (one, other), = wound_pairs(passes)  # exactly one pair, or the options name no right one
        right = f"pair-{one}{other}"
    return Choice(right, {f"pair-{pair}": [pair // 10, pair % 10] for pair in (12, 13, 23)})


@family("which-passes-leave-the-lines-free")
def which_passes_leave_the_lines_free(given):
    free = [plan for plan, text in given.options.items() if lie_free(3, passes_in(text))]
    right, = free  # exactly one of the plans offered
    return Choice(right, None)


@family("undo-the-passes")
def undo_the_passes(given):
    others = (2, 3, 4, 5)
    on_top = {other: 1 if given.word(f"top-{other}") == "over" else other for other in others}
    ways = []
    for back in itertools.permutations(others):
        crew = Crew(5)
        for other in others:
            crew.change_places(1, other, on_top[other])
        try:
            for other in back:
                crew.change_places(1, other, on_top[other])
        except ValueError:
            continue  # not a neighbour at that moment
        if crew.free:
            ways.append(back)
    way, = ways  # no other order can be walked, or frees the lines
    return Order({f"past-{other}": place for place, other in enumerate(way)})


def longest_line(edges, margin, lanyard):
    """Let out until the D-ring, with what hangs between, comes to the margin of the first edge."""
    return min(edges, key=si) - margin - lanyard


@family("line-for-travel-restraint")
def line_for_travel_restraint(given):
    edges, margin, lanyard = [given["eave"], given["rake"]], given["margin"], given["lanyard"]
    none = 0 * margin
    return Number(longest_line(edges, margin, lanyard), {
        "no-lanyard": longest_line(edges, margin, none),
        "no-margin": longest_line(edges, none, lanyard),
        "far-edge": longest_line([max(edges, key=si)], margin, lanyard),
        "lanyard-added": longest_line(edges, margin, -lanyard),
    })


@family("does-the-line-restrain")
def does_the_line_restrain(given):
    edges, margin, lanyard = [given["eave"], given["rake"]], given["margin"], given["lanyard"]
    # where the D-ring comes to at most, and what is left to each edge
    reach = given["set"] + lanyard
    left = min(edge - reach - margin for edge in edges)
    bare = abs(min(edge - given["set"] - margin for edge in edges))
    far = abs(max(edge - reach - margin for edge in edges))
    return Choice("yes" if left >= 0 * left else "no", {
        "yes": abs(left), "no": abs(left), "bare-yes": bare, "bare-no": bare,
        "far-yes": far, "far-no": far,
    })
