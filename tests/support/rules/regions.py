"""Irregular regions, for the tests."""

from tests.support.paths import around, walks
from verify.rules.workings.distinct import Distinct


def mark(draw, board):
    return Distinct("region", draw(walks(board, 2, board.digits)))


def _distinct(model, at, rule):
    model.add_all_different(at[cell] for cell in rule.cells)


MODELS = {Distinct: _distinct}


def before(board, dice):
    """Rows as regions, their cells exchanged at random while each still hangs together."""
    region = [row for row in range(board.rows) for _ in range(board.columns)]
    for _ in range(4000):
        one = dice.choice(board.cells)
        beyond = [cell for cell in around(board, one, edges=True) if region[cell] != region[one]]
        if not beyond:
            continue
        mine, other = region[one], region[dice.choice(beyond)]
        back = [
            cell
            for cell in board.cells
            if region[cell] == other
            and any(region[at] == mine for at in around(board, cell, edges=True))
        ]
        two = dice.choice(back)
        region[one], region[two] = other, mine
        if not all(board.hang_together(_cells(region, kind)) for kind in (mine, other)):
            region[one], region[two] = mine, other
    return tuple(Distinct("region", _cells(region, kind)) for kind in range(board.rows))


def _cells(region, kind):
    return tuple(cell for cell, of in enumerate(region) if of == kind)
