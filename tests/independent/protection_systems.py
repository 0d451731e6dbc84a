"""Guardrails, lines, nets, covers and monitors: areas by corners, heights by stacking."""

from counting import all_together, pieces_over
from families import Choice, Number, family
from quantities import units
from roof import angle_of, rise_over


def area(corners):
    """Of a polygon, from its corners in order."""
    doubled = sum(x_1 * y_2 - x_2 * y_1
                  for (x_1, y_1), (x_2, y_2) in zip(corners, corners[1:] + corners[:1]))
    return abs(doubled) / 2


def rectangle(left, right, bottom, top):
    return [(left, bottom), (right, bottom), (right, top), (left, top)]


def inside_lines(length, width, ends, sides, other_end=None, other_side=None):
    """Area inside lines that stand so far from the edges of a roof, length along x."""
    other_end = ends if other_end is None else other_end
    other_side = sides if other_side is None else other_side
    return area(rectangle(ends, length - other_end, sides, width - other_side))


@family("area-inside-the-warning-lines")
def area_inside_the_warning_lines(given):
    roof = given["length"], given["width"]
    along = given.limit("warning-line-distance")
    across = given.limit("warning-line-distance-across")
    none = 0 * units.metre
    # the machine runs along the length: toward the short edges, along the long ones
    return Number(inside_lines(*roof, across, along), {
        "near-limit-all-around": inside_lines(*roof, along, along),
        "swapped": inside_lines(*roof, along, across),
        "one-side-only": inside_lines(*roof, across, along, none, none),
        "no-strip": inside_lines(*roof, none, none),
    })


@family("area-of-the-edge-strip")
def area_of_the_edge_strip(given):
    length, width = given["length"], given["width"]
    off, none = given.limit("warning-line-distance"), 0 * units.metre
    # two strips over the whole length, two between them
    ends = area(rectangle(none, length, none, off))
    sides = area(rectangle(none, off, off, width - off))
    return Number(2 * ends + 2 * sides, {
        "corners-twice": 2 * ends + 2 * area(rectangle(none, off, none, width)),
        "one-side-only": ends + area(rectangle(none, off, off, width)),
        "the-inside": inside_lines(length, width, off, off),
    })


@family("flags-on-a-warning-line")
def flags_on_a_warning_line(given):
    edge, apart = given["edge"], given.limit("warning-line-flags")
    off = given.limit("warning-line-distance")
    spaces = pieces_over(edge - off - off, apart)
    return Choice("flags", {
        "flags": 1 + spaces,  # the first flag stands at the start, one more ends each space
        "whole-edge": 1 + pieces_over(edge, apart),
        "spaces-only": spaces,
        "rounded-down": spaces - 1,  # the last space is not a full one
        "one-end": 1 + pieces_over(edge - off, apart),
    })


@family("distance-of-the-control-line")
def distance_of_the_control_line(given):
    distance = given["distance"]
    nearest, farthest = given.limit("control-line-nearest"), given.limit("control-line-farthest")
    near, far = abs(distance - nearest), abs(distance - farthest)
    return Choice("too-close" if distance < nearest else
                  "too-far" if distance > farthest else "within", {
                      "within": near, "too-close": near, "too-far": far,
                  })


@family("height-of-the-midrail")
def height_of_the_midrail(given):
    roof, curb, top = 0 * units.metre, given["curb"], given["top"]  # heights over the roof

    def between(low, high):
        return low + (high - low) / 2

    return Number(between(roof, top) - curb, {
        "above-the-roof": between(roof, top) - roof,
        "middle-of-the-gap": between(curb, top) - curb,
        "nominal-half": between(roof, given.limit("guardrail-height")) - curb,
    })


@family("height-of-the-warning-line")
def height_of_the_warning_line(given):
    highest, sag = given["high"], given["sag"]
    lowest = highest - sag
    floor, ceiling = given.limit("warning-line-lowest"), given.limit("warning-line-highest")
    right = ({"too-low"} if lowest < floor else set()) | (
        {"too-high"} if highest > ceiling else set()) or {"good"}
    if len(right) != 1:
        raise ValueError("the line is both too low and too high: two verdicts are right")
    return Choice(right.pop(), {
        "good": [lowest, highest],
        "too-low": abs(floor - lowest),
        "too-high": abs(highest - ceiling),
        "no-sag": [highest, highest],
        "sag-added": [highest, highest + sag],
    })


@family("is-a-monitor-alone-enough")
def is_a_monitor_alone_enough(given):
    width, run, rise = given["width"], given["run"], given["rise"]
    low = rise <= rise_over(given.limit("low-slope"), run)
    narrow = width <= given.limit("monitor-alone-width")
    if not low and not narrow:
        raise ValueError("the roof is both too steep and too wide: two verdicts are right")
    gap = abs(width - given.limit("monitor-alone-width"))
    return Choice("too-steep" if not low else "allowed" if narrow else "too-wide", {
        "allowed": gap, "too-wide": gap, "any-pitch": gap,
        "too-steep": angle_of(rise, run),
    })


@family("is-the-stack-far-enough")
def is_the_stack_far_enough(given):
    center, side, limit = given["center"], given["side"], given.limit("storage-distance")
    half = side / 2
    near, far = sorted((center - half, center + half))
    gap, middle_gap, far_gap = abs(near - limit), abs(center - limit), abs(far - limit)
    return Choice("enough" if near >= limit else "too-close", {
        "enough": gap, "too-close": gap,
        "center-enough": middle_gap, "center-close": middle_gap,
        "far-enough": far_gap,
    })


@family("is-the-warning-line-far-enough")
def is_the_warning_line_far_enough(given):
    distance = given["distance"]
    along = given.limit("warning-line-distance")
    across = given.limit("warning-line-distance-across")
    needed, other = {"along": (along, across), "across": (across, along)}[given.word("travel")]
    gap, other_gap = abs(distance - needed), abs(distance - other)
    return Choice("enough" if distance >= needed else "too-close", {
        "enough": gap, "too-close": gap, "other-enough": other_gap, "other-close": other_gap,
    })


@family("load-on-a-hole-cover")
def load_on_a_hole_cover(given):
    people, each = given.count("persons"), given["worker-mass"]
    cart, material, factor = given["cart"], given["material"], given.limit("cover-load-factor")
    crew = all_together(people, each)
    return Number(factor * (crew + cart + material), {
        "weight-once": crew + cart + material,
        "one-worker": factor * (each + cart + material),
        "only-people-doubled": factor * crew + cart + material,
        "material-left-out": factor * (crew + cart),
    })


@family("rail-above-a-parapet")
def rail_above_a_parapet(given):
    # heights over the roof as it is today
    parapet, layer = given["parapet"], given["layer"]
    height, tolerance = given.limit("guardrail-height"), given.limit("guardrail-tolerance")
    lowest = height - tolerance
    return Number((layer + lowest) - parapet, {
        "no-layer": lowest - parapet,
        "layer-taken-off": (lowest - layer) - parapet,
        "nominal-height": (layer + height) - parapet,
        "parapet-left-out": layer + lowest,
    })


@family("reach-of-a-safety-net")
def reach_of_a_safety_net(given):
    edge, net, overhang = given["edge-height"], given["net-height"], given["overhang"]
    drop = edge - net
    rows = [(given.limit("net-short-drop"), given.limit("net-reach-short")),
            (given.limit("net-middle-drop"), given.limit("net-reach-middle")),
            (None, given.limit("net-reach-long"))]
    row = next(place for place, (deepest, _) in enumerate(rows)
               if deepest is None or drop <= deepest)
    another = {0: 1, 1: 0, 2: 1}[row]  # a neighbouring row
    reach = rows[row][1]
    return Number(reach + overhang, {
        "from-the-edge": reach,
        "overhang-taken-off": reach - overhang,
        "wrong-row": rows[another][1] + overhang,
        "drop-as-reach": drop + overhang,
    })


@family("which-protection-fits")
def which_protection_fits(given):
    # 1926.501(b)(10) and (11)
    fits = {"arrest", "net", "rail-and-toeboard"}
    if given["pitch"] <= given.limit("low-slope"):
        fits |= {"rail", "line-and-monitor"}
        if given["width"] <= given.limit("monitor-alone-width"):
            fits.add("monitor")
    return Choice(fits)
