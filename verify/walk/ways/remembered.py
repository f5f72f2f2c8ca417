"""A mark of a rule that is asked about many sheets: what it struck once is remembered."""

from verify.board import Cell
from verify.budget import NEVER, Deadline
from verify.walk.facts.arrays import Masks, Numbers
from verify.walk.ways.striker import Striker


class RememberedStriker:
    """Remembers what a striker strikes, by what its cells hold.

    After `most` looks it forgets them all, and remembers anew.
    """

    def __init__(self, striker: Striker, most: int) -> None:
        self.cells = list(striker.cells)
        self._most = most
        self._strikes_of = striker.strikes
        self._scratch = [0] * (1 + max(self.cells, default=0))
        self._known: dict[bytes, list[int] | None] = {}

    def struck(
        self, sheets: Masks, rows: Numbers, deadline: Deadline = NEVER
    ) -> list[list[int] | None]:
        """What leaves each of its cells, on some sheets; None where nothing does.

        `sheets` has a row for each sheet and a column for each cell of the board; `rows` is a list
        of those that are asked about.

        Raises BudgetSpent after the deadline.
        """
        marks = sheets[rows[:, None], self.cells]
        held, width = marks.tobytes(), 4 * len(self.cells)
        keys = [held[at : at + width] for at in range(0, len(held), width)]
        if len(self._known) > self._most:
            self._known.clear()
        for at, key in enumerate(keys):
            if key not in self._known:
                deadline.check()
                self._known[key] = self._strikes(marks[at].tolist())
        return [self._known[key] for key in keys]

    def _strikes(self, held: list[int]) -> list[int] | None:
        """The same where its cells hold so much; of other cells it knows nothing."""
        pencil = self._scratch
        for cell, mask in zip(self.cells, held, strict=True):
            pencil[cell] = mask
        struck: dict[Cell, int] = dict.fromkeys(self.cells, 0)
        for strike in self._strikes_of(pencil):
            for cell, mask in strike.removes:
                struck[cell] |= mask
        return list(struck.values()) if any(struck.values()) else None
