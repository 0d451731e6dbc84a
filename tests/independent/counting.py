"""Counting by laying out one after the other."""


def pieces_over(length, width):
    """How many pieces of a width, laid end to end, reach over a length.

    Pieces that just reach the end do reach it, whatever the last bits of their sum.
    """
    pieces, reached, end = 0, 0 * width, length * (1 - 1e-9)
    while reached < end:
        pieces, reached = pieces + 1, reached + width
    return pieces


def all_together(count, each):
    """The sum of equal values, one by one."""
    return sum([each] * count, 0 * each)
