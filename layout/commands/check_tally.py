"""How many puzzles got which verdict, and what the command's exit code is."""

from collections import Counter
from dataclasses import dataclass, field
from typing import Any


@dataclass(slots=True)
class Tally:
    """Counts verdicts; what is another puzzle in disguise counts as what may not be printed."""

    verdicts: Counter[str] = field(default_factory=Counter)
    barred: int = 0
    same: int = 0

    def add(self, verdict: str, printable: bool, same: bool) -> None:
        """Counts one more."""
        self.verdicts[verdict] += 1
        self.barred += not printable
        self.same += same

    @property
    def total(self) -> int:
        """How many were counted."""
        return self.verdicts.total()

    @property
    def exit_code(self) -> int:
        """0: all may be printed; 1: some may not; 2: some could not be read."""
        if self.verdicts["unreadable"]:
            return 2
        return 1 if self.barred or self.same else 0

    @property
    def words(self) -> str:
        """`5 checked: 1 many, 4 one`."""
        words = ", ".join(f"{count} {word}" for word, count in sorted(self.verdicts.items()))
        same = f"; {self.same} in disguise the same as another" if self.same else ""
        return f"{self.total} checked: {words}{same}"

    @property
    def document(self) -> dict[str, Any]:
        """The same for a JSON document."""
        from verify import __version__

        counts = {**dict(sorted(self.verdicts.items()))}
        return {"reglet": __version__, "checked": self.total, "verdicts": counts, "same": self.same}
