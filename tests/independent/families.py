"""What an independent answer is, and the list of the families that have one."""

from dataclasses import dataclass, field

_derivations = {}


@dataclass
class Number:
    """The answer of kind number, or of kind one-of with the mistakes as choices."""
    answer: object
    mistakes: dict  # id: what the mistake gives
    # What a student gets where the question prints a rounded value to go on with.
    by_hand: object = None


@dataclass
class Choice:
    """The id of the right option, and the numbers that options show, by option id.

    A single value, or a list where an option shows several, in the order in which they stand.
    None: numbers in options are names, as of workers, and stand for no quantity.
    """
    right: object  # an id, or for several-of a set of all ids that would be right if offered
    shown: object = field(default_factory=dict)


@dataclass
class Order:
    """Option ids with the value that sets their place, the least first."""
    rank: dict


def family(item):
    """Registers the function that derives an item's answer from its givens."""

    def register(derive):
        if item in _derivations:
            raise ValueError(f"two independent answers for {item}")
        _derivations[item] = derive
        return derive

    return register


def derivations():
    """All independent answers, by the item's id."""
    return dict(_derivations)
