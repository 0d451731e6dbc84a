"""Compares the questions of a quiz.json with the independent answers."""

import math
from collections import Counter
from dataclasses import dataclass, field

from families import Choice, Order, derivations
from quantities import Givens, number_in, printed_in

# Both routes work in double precision: they agree to far less than what is printed. Half of the
# tolerance would do for a fair key; a thousandth also shows a slightly wrong formula.
PART_OF_TOLERANCE = 0.001


@dataclass
class Tally:
    """What was compared, by family."""
    questions: Counter = field(default_factory=Counter)
    mistakes: Counter = field(default_factory=Counter)
    largest: dict = field(default_factory=dict)  # deviation, in parts of the tolerance
    differences: list = field(default_factory=list)

    def add(self, other):
        self.questions += other.questions
        self.mistakes += other.mistakes
        for item, part in other.largest.items():
            self.largest[item] = max(part, self.largest.get(item, 0.0))
        self.differences += other.differences


class _Comparison:
    def __init__(self, question, tally):
        self._question, self._tally = question, tally
        self._item = question["item"]

    def _differs(self, what, printed, derived):
        self._tally.differences.append(
            f"{self._item}: {what}: the program says {printed}, independently {derived}")

    def _number(self, what, printed, value, unit, tolerance):
        derived = number_in(value, unit)
        if tolerance == 0:  # a count: right or wrong
            part = 0.0 if printed == derived else math.inf
        else:
            part = abs(printed - derived) / tolerance
        self._tally.largest[self._item] = max(part, self._tally.largest.get(self._item, 0.0))
        if not part <= PART_OF_TOLERANCE:
            self._differs(what, f"{printed:.12g} {unit}", f"{derived:.12g}")

    def _text(self, what, text, values):
        values = values if isinstance(values, list) else [values]
        shown = printed_in(text)
        if len(shown) != len(values):
            self._differs(f"{what}, numbers shown", repr(text), f"{len(values)} of them")
            return
        for printed, value in zip(shown, values):
            if not printed.shows(value):
                self._differs(what, repr(text), f"{number_in(value, printed.unit):.12g}")

    def givens(self):
        """What is printed must be what is computed with."""
        for name, given in self._question["givens"].items():
            if "value" in given:
                shown = printed_in(given["text"])
                if len(shown) != 1 or shown[0].number != given["value"] or (
                        shown[0].unit != given["unit"]):
                    self._differs(f"given {name}", f"{given['text']!r}",
                                  f"{given['value']} {given['unit']}")

    def number(self, derived):
        answer = self._question["answer"]
        self._number("answer", answer["value"], derived.answer, answer["unit"],
                     answer["tolerance"])
        self._text("answer, printed", answer["text"], derived.answer)
        if derived.by_hand is not None:
            by_hand = number_in(derived.by_hand, answer["unit"])
            if not abs(by_hand - answer["value"]) <= answer["tolerance"]:
                self._differs("answer from the printed numbers", answer["value"], f"{by_hand:.12g}")
        self._mistakes(derived, answer["unit"], answer["tolerance"])

    def number_among_choices(self, derived):
        options = {option["id"]: option for option in self._question["answer"]["options"]}
        self._right({"answer"})
        for name, option in options.items():
            if name == "answer":
                self._text("answer, printed", option["text"], derived.answer)
            elif name not in derived.mistakes:
                self._differs(f"choice {name}", option["text"], "nothing is derived")
            else:
                self._text(f"choice {name}", option["text"], derived.mistakes[name])
        unit = printed_in(options["answer"]["text"])[0]
        # there is no tolerance: half of the last place stands for it
        self._mistakes(derived, unit.unit, 0.5 * 10 ** -unit.places)

    def _right(self, expected):
        """The options marked as right, and the letters of the key, are the expected ones."""
        options = self._question["answer"]["options"]
        right = {option["id"] for option in options if option["right"]}
        if right != expected:
            self._differs("right options", sorted(right), sorted(expected))
        letters = {option["letter"]: option["id"] for option in options}
        by_letter = {letters[letter] for letter in self._question["answer"]["right"]}
        if by_letter != expected:
            self._differs("right letters", sorted(by_letter), sorted(expected))

    def _mistakes(self, derived, unit, tolerance):
        for mistake in self._question["mistakes"]:
            name = mistake["id"]
            if name not in derived.mistakes:
                self._differs(f"mistake {name}", mistake["text"], "nothing is derived")
                continue
            self._tally.mistakes[self._item] += 1
            value = derived.mistakes[name]
            self._number(f"mistake {name}", mistake["value"], value, unit, tolerance)
            self._text(f"mistake {name}, printed", mistake["text"], value)

    def choice(self, derived):
        options = self._question["answer"]["options"]
        expected = {derived.right} if isinstance(derived.right, str) else (
            derived.right & {option["id"] for option in options})
        self._right(expected)
        for option in options:
            name = option["id"]
            if name not in expected:
                self._tally.mistakes[self._item] += 1
            if derived.shown is not None:
                self._text(f"option {name}", option["text"], derived.shown.get(name, []))

    def order(self, derived):
        options = self._question["answer"]["options"]
        program = [option["id"] for option in sorted(options, key=lambda option: option["place"])]
        own = sorted((option["id"] for option in options), key=lambda name: derived.rank[name])
        if program != own:
            self._differs("order", program, own)
        letters = {option["letter"]: option["id"] for option in options}
        by_letter = [letters[letter] for letter in self._question["answer"]["right"]]
        if by_letter != own:
            self._differs("order of the letters", by_letter, own)


def compare(question, tally):
    """Derives the answer from the givens alone, then compares with what the question says."""
    derive = derivations().get(question["item"])
    if derive is None:
        tally.differences.append(f"{question['item']}: there is no independent answer")
        return
    comparison = _Comparison(question, tally)
    try:
        derived = derive(Givens(question))
        comparison.givens()
        if isinstance(derived, Order):
            comparison.order(derived)
        elif isinstance(derived, Choice):
            comparison.choice(derived)
        elif question["kind"] == "number":
            comparison.number(derived)
        else:
            comparison.number_among_choices(derived)
    except (KeyError, ValueError, ArithmeticError, IndexError) as error:
        tally.differences.append(f"{question['item']}: {type(error).__name__}: {error}")
    tally.questions[question["item"]] += 1


def compare_quiz(quiz):
    """Compares all questions of a quiz.json's content."""
    tally = Tally()
    for sheet in quiz["sheets"]:
        for question in sheet["questions"]:
            compare(question, tally)
    return tally
