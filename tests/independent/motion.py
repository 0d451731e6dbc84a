"""Falls and arrests, by integrating forces over distance or motion over time."""

import math

from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from quantities import Quantity, gravity, si


def free_fall(drop):
    """Speed and time of a fall from rest over a drop, traced in time until it is reached."""
    height, g = si(drop), si(gravity)
    landed = lambda _, state: state[0] - height  # noqa: E731
    landed.terminal = True
    traced = solve_ivp(lambda _, state: (state[1], g), (0.0, 10.0 + height), (0.0, 0.0),
                       events=landed, rtol=1e-10, atol=1e-12)
    return (Quantity(float(traced.y_events[0][0][1]), "metre/second"),
            Quantity(float(traced.t_events[0][0]), "second"))


def stop_within(mass, drop, way):
    """Even force that stops a fall within a way after the drop, from momentum and time.

    Under an even force the speed goes down evenly, so the stop takes twice the way over the speed
    at its start. In that time the force, less the weight, takes the momentum away.
    """
    speed = math.sqrt(2 * si(gravity) * si(drop))
    time = 2 * si(way) / speed
    return Quantity(si(mass) * speed / time + si(mass) * si(gravity), "newton")


def _rest(weight, drop, force):
    """Where a body stops: the work of its weight is used up by the force, a function of the way."""

    def energy(way):
        used, _ = quad(force, 0.0, way, epsabs=1e-9, epsrel=1e-11)
        return weight * (drop + way) - used

    # Just after the line takes load there is energy left; go on until there is none.
    start = end = 1e-6
    while energy(end) > 0:
        start, end = end, 2 * end
        if end > 1e4:
            raise ValueError("the force never stops the fall")
    return brentq(energy, start, end, xtol=1e-13, rtol=1e-13)


def tear_out(mass, drop, force):
    """How far an absorber of an even force opens until the fall is stopped."""
    even = si(force)
    return Quantity(_rest(si(mass * gravity), si(drop), lambda _: even), "metre")


def stretch_of_a_spring(mass, drop, stiffness):
    """How far a line stretches that pulls in proportion to its stretch."""
    rate = si(stiffness)
    return Quantity(_rest(si(mass * gravity), si(drop), lambda way: rate * way), "metre")


def speed_of_energy(height):
    """Speed that a drop without friction gives: the work of gravity is motion."""
    work, _ = quad(lambda _: si(gravity), 0.0, si(height))
    return Quantity(math.sqrt(2 * work), "metre/second")
