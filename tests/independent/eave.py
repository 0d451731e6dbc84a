"""A fall straight down over the eave, by tracing the line: x level, z up from the eave at 0, 0."""

import math

from scipy.optimize import brentq

from quantities import Quantity, si


class Eave:
    """A worker at the eave, straight below a ridge anchor, with the D-ring plumb over the eave."""

    def __init__(self, slope_length, pitch, d_ring_height):
        self._slope, self._angle = si(slope_length), si(pitch)
        self._anchor = (-self._slope * math.cos(self._angle), self._slope * math.sin(self._angle))
        self._d_ring = si(d_ring_height)

    def _way(self, height):
        """Length of the shortest way from the anchor to a point plumb over or under the eave."""
        if height >= 0:
            return math.dist(self._anchor, (0.0, height))
        return math.dist(self._anchor, (0.0, 0.0)) - height

    @property
    def taut_line(self):
        return Quantity(self._way(self._d_ring), "metre")

    def free_fall(self, slack):
        """How far the D-ring comes down until the line with this slack is taut."""
        line = self._way(self._d_ring) + si(slack)
        if line > self._slope:
            # The line gives way over the edge: lower the D-ring until the line is used up.
            end = brentq(lambda height: self._way(height) - line, 0.0, -line, xtol=1e-13)
        else:
            # It does not reach the eave: the D-ring ends on the roof, the line's length below
            # the anchor. The line is straight there, so its end is on the slope.
            end = self._anchor[1] - line * math.sin(self._angle)
        return Quantity(self._d_ring - end, "metre")

    def slack_for(self, free_fall):
        """The slack that gives this free fall, found by trying."""
        wanted = si(free_fall)

        def excess(slack):
            return si(self.free_fall(Quantity(slack, "metre"))) - wanted

        # Negative slack, a line shorter than a taut one, only shows that no slack is allowed.
        low = -0.5 * self._way(self._d_ring)
        return Quantity(brentq(excess, low, wanted + self._slope, xtol=1e-12), "metre")
