"""What a question prints, as quantities. Units are Pint's, not the program's."""

import math
import re

import pint

units = pint.UnitRegistry()
units.define("percent = 0.01")
Quantity = units.Quantity
gravity = (1 * units.standard_gravity).to("m/s**2")  # 9.80665 m/s2, exact by definition

# The units of quiz.json in Pint's words. Pitch, the rise in a run of 12, is no linear unit and is
# handled by itself.
NAMES = {
    "": "dimensionless",
    "percent": "percent",
    "ft": "foot", "in": "inch", "m": "metre", "cm": "centimetre", "mm": "millimetre",
    "ft2": "foot**2", "in2": "inch**2", "m2": "metre**2", "cm2": "centimetre**2",
    "deg": "degree", "rad": "radian",
    "lb": "pound", "kg": "kilogram",
    "lbf": "pound_force", "N": "newton", "kN": "kilonewton",
    "ft/s": "foot/second", "m/s": "metre/second", "s": "second",
    "ft-lbf": "foot*pound_force", "J": "joule", "kJ": "kilojoule",
    "lbf/ft": "pound_force/foot", "lbf/in": "pound_force/inch",
    "kN/m": "kilonewton/metre", "N/m": "newton/metre",
    "psi": "pound_force/inch**2", "MPa": "megapascal",
}
_units = {name: units.Unit(pint_name) for name, pint_name in NAMES.items()}

# How a text writes a unit, where it differs from the unit's name in quiz.json.
_WRITTEN = {"°": "deg", "%": "percent", "ft²": "ft2", "m²": "m2", "in²": "in2", "cm²": "cm2",
            "ft·lbf": "ft-lbf"}
_spellings = sorted([name for name in NAMES if name] + list(_WRITTEN), key=len, reverse=True)
_printed = re.compile(
    r"(?<![\w.:])(?P<number>[-−]?\d[\d,]*(?:\.\d+)?)"
    r"(?:(?P<pitch>:12)|[\s\u00a0\u202f]?(?P<unit>" + "|".join(map(re.escape, _spellings)) +
    r"))?(?![\w:²])")


def quantity(number, unit):
    """The quantity of a number in a unit of quiz.json."""
    if unit == "pitch":
        return Quantity(math.atan2(number, 12), "radian")
    return Quantity(number, _units[unit])


def number_in(value, unit):
    """The number of a quantity (or plain number) in a unit of quiz.json."""
    if not isinstance(value, Quantity):
        value = Quantity(value, "dimensionless")
    if unit == "pitch":
        return 12 * math.tan(value.to("radian").magnitude)
    return value.to(_units[unit]).magnitude


def si(value):
    """The number of a quantity in SI base units, for numerical work."""
    return value.to_base_units().magnitude


class Printed:
    """A quantity as a text shows it: its number, its unit and how many decimals it shows."""

    def __init__(self, found):
        number = found["number"].replace(",", "").replace("−", "-")
        self.number = float(number)
        self.places = len(number.partition(".")[2])
        written = found["unit"] or ""
        self.unit = "pitch" if found["pitch"] else _WRITTEN.get(written, written)

    def shows(self, value):
        """Whether this is what the value looks like when rounded to these places."""
        half = 0.5 * 10 ** -self.places
        return abs(number_in(value, self.unit) - self.number) <= half * (1 + 1e-6)


def printed_in(text):
    """All quantities that a text shows, in order."""
    return [Printed(found) for found in _printed.finditer(text)]


class Givens:
    """What a student sees of a question: the stem, its givens, limits and the texts offered."""

    def __init__(self, question):
        self._givens = question["givens"]
        self.options = {option["id"]: option["text"]
                        for option in question["answer"].get("options", [])}
        self._stem = question["stem"]
        self._limits = {limit["id"]: limit["text"] for limit in question["limits"]}

    def __getitem__(self, name):
        given = self._givens[name]
        return quantity(given["value"], given["unit"])

    def number(self, name):
        """The number that is printed, whatever its unit."""
        return self._givens[name]["value"]

    def count(self, name):
        value = self._givens[name]["value"]
        if value != int(value):
            raise ValueError(f"{name} is no whole number: {value}")
        return int(value)

    def word(self, name):
        return self._givens[name]["word"]

    def text(self, name):
        """How the question words a drawn word."""
        return self._givens[name]["text"]

    def printed(self, *of_units):
        """What the question prints in these units, in order, each as rounded there."""
        return [quantity(printed.number, printed.unit) for printed in printed_in(self._stem)
                if printed.unit in of_units]

    def limit(self, name):
        """A limit of the rule set as the question prints it."""
        printed = printed_in(self._limits[name])
        if len(printed) != 1:
            raise ValueError(f"limit {name} is not one quantity: {self._limits[name]}")
        return quantity(printed[0].number, printed[0].unit)
