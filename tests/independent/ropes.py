"""Ropes of neighbours that change places, by Artin's action of the braid group on a free group.

The action is faithful: the ropes lie free just when it moves no generator (E. Artin, 1925; from
memory). Words of the free group are tuples of +-1, +-2 ...; the minus is the inverse.
"""

import re


def _reduced(word):
    kept = []
    for letter in word:
        if kept and kept[-1] == -letter:
            kept.pop()
        else:
            kept.append(letter)
    return tuple(kept)


class Crew:
    """Workers side by side, named 1, 2, 3 ... from the left, each on a line of their own."""

    def __init__(self, workers):
        self.places = list(range(1, workers + 1))
        self._images = {n: (n,) for n in self.places}

    def _image(self, word):
        image = []
        for letter in word:
            moved = self._images[abs(letter)]
            image += moved if letter > 0 else [-other for other in reversed(moved)]
        return _reduced(image)

    def change_places(self, one, other, on_top):
        """Two neighbours change places; the line of one of them lies on top."""
        left = min(self.places.index(one), self.places.index(other))
        if {self.places[left], self.places[left + 1]} != {one, other}:
            raise ValueError(f"{one} and {other} are no neighbours in {self.places}")
        if on_top not in (one, other):
            raise ValueError(f"{on_top} does not change places")
        i, j = left + 1, left + 2
        if self.places[left] == on_top:  # the one that comes from the left
            acted = {i: (i, j, -i), j: (i,)}
        else:
            acted = {i: (j,), j: (-j, i, j)}
        self._images.update({place: self._image(word) for place, word in acted.items()})
        self.places[left], self.places[left + 1] = self.places[left + 1], self.places[left]

    @property
    def free(self):
        """Whether all stand below their own anchors and no line is wound around another."""
        return (self.places == sorted(self.places) and
                all(word == (n,) for n, word in self._images.items()))


def passes_in(text):
    """Pairs and the line on top, from a text: each pass names three numbers, in any language."""
    return [tuple(int(number) for number in numbers)
            for numbers in re.findall(r"(\d)\D+(\d)\D+(\d)[^\d.;]*(?:[.;]|$)", text)]


def lie_free(workers, passes):
    crew = Crew(workers)
    for passed in passes:
        crew.change_places(*passed)
    if crew.places != sorted(crew.places):
        raise ValueError(f"the crew does not come home: {crew.places}")
    return crew.free


def wound_pairs(passes):
    """The pairs that stay wound around each other when all other lines are taken away."""
    pairs = {tuple(sorted(passed[:2])) for passed in passes}

    def alone(pair):  # these two lines, named 1 and 2
        return [tuple(pair.index(name) + 1 for name in passed) for passed in passes
                if tuple(sorted(passed[:2])) == pair]

    return {pair for pair in pairs if not lie_free(2, alone(pair))}
