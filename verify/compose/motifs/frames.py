"""Frames: rings inside one another, each of four sides that chase each other, or of corners."""

from random import Random

from verify.compose.motifs.strokes import Stroke, four_ways, line, pinwheel


def frames(size: int, most: int, chance: Random) -> list[Stroke]:
    """Sides or corners of at most so many cells."""
    outer = chance.choice((0, 1))
    margins = [at for at in (outer, outer + 2) if size - 2 * at >= 4]
    margins = margins[: chance.choice((1, 2, 2))]
    if chance.random() < 0.5:
        return [stroke for at in margins for stroke in four_ways([_corner(size, at, most)], size)]
    back = chance.random() < 0.3
    sides = [_side(size, at, most) for at in margins]
    return pinwheel([side[::-1] if back else side for side in sides], size)


def _corner(size: int, margin: int, most: int) -> Stroke:
    """The upper left corner, with arms that leave the middles of the sides free."""
    arm = min((most - 1) // 2, (size - 2 * margin - 1) // 2 - 1)
    down = tuple((margin + n, margin) for n in range(max(1, arm), 0, -1))
    return (*down, *line((margin, margin), (0, 1), max(1, arm) + 1))


def _side(size: int, margin: int, most: int) -> Stroke:
    """The upper side from its left corner, ended before it meets the next one."""
    return line((margin, margin), (0, 1), min(most, size - 2 * margin - 2))
