"""Nails in wood. The handbook is the NDS 2018 (second hand); its tables are restated here.

Withdrawal: a fifth of the mean force of tests, 6,900 G^2.5 D pounds on an inch (Forest Products
Laboratory, Research Note FPL-093, 1965). Single shear: each of the six yield modes as a balance of
forces and moments on the nail, solved for the force.
"""

from scipy.optimize import brentq

from quantities import Quantity, number_in, quantity, si

# Common nails: length and shank, in inches (ASTM F1667; from memory)
_COMMON = {"n8d": (2.5, 0.131), "n10d": (3.0, 0.148), "n16d": (3.5, 0.162), "n20d": (4.0, 0.192)}

# Specific gravity (NDS table 12.3.3A) and dowel bearing strength for nails in psi (table 12.3.3)
_WOODS = {"southern-pine": (0.55, 5550), "douglas-fir": (0.50, 4650), "hem-fir": (0.43, 3500),
          "spruce-pine-fir": (0.42, 3350)}
_STEEL_BEARING = quantity(61_850, "psi")  # sheet steel of grade 33, table 12N
PANEL = 0.42  # specific gravity of the sheathing in the items

WET, TOE_NAILED = 0.25, 0.67  # withdrawal, tables 11.3.3 and 12.5.4


def length(nail):
    return quantity(_COMMON[nail][0], "in")


def shank(nail):
    return quantity(_COMMON[nail][1], "in")


def specific_gravity(wood):
    return _WOODS[wood][0]


def mean_in_tests(gravity, nail, depth):
    """Mean force at which one nail came out of side grain."""
    per_inch = 6900 * gravity ** 2.5 * number_in(shank(nail), "in")
    return quantity(per_inch, "lbf/in") * depth


def withdrawal(gravity, nail, depth):
    """Design value of one nail, straight out: single nails scatter, so a fifth counts."""
    return mean_in_tests(gravity, nail, depth) / 5


def yield_modes(wood, nail, depth, plate):
    """Design value of one nail through a steel plate into a rafter, for each of the six modes."""
    diameter = si(shank(nail))
    side, main = si(plate), si(depth)
    press_side = si(_STEEL_BEARING) * diameter  # force on a length of nail
    press_main = si(quantity(_WOODS[wood][1], "psi")) * diameter
    inches = number_in(shank(nail), "in")
    bending = quantity(100_000 if inches <= 0.142 else 90_000 if inches <= 0.177 else 80_000, "psi")
    hinge = si(bending) * diameter ** 3 / 6  # moment at which the nail bends for good

    # Moments about the plane between plate and rafter. A nail that turns stiffly presses one way
    # next to that plane and the other way at its end; one that bends presses as far as the hinge.
    def turned(force, press, bearing):
        near = (force / press + bearing) / 2
        return press * near ** 2 / 2 - press * (bearing - near) * (bearing + near) / 2

    def bent(force, press):
        reach = force / press
        return press * reach ** 2 / 2 - hinge

    crush_main, crush_side = press_main * main, press_side * side
    balances = {
        "II": lambda force: turned(force, press_side, side) + turned(force, press_main, main),
        "III_m": lambda force: bent(force, press_side) + turned(force, press_main, main),
        "III_s": lambda force: turned(force, press_side, side) + bent(force, press_main),
        "IV": lambda force: bent(force, press_side) + bent(force, press_main),
    }
    loads = {"I_m": crush_main, "I_s": crush_side}
    for mode, balance in balances.items():
        loads[mode] = brentq(balance, 0.0, 10 * (crush_main + crush_side), xtol=1e-9)
    reduction = 2.2 if inches <= 0.17 else 10 * inches + 0.5
    return {mode: Quantity(load, "newton") / reduction for mode, load in loads.items()}
