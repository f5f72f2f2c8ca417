"""How a file tells inks: black as grey, others by their plates, or as a screen shows them.

A spot ink is a Separation colour space with what it is made of as its alternate (ISO 32000-1,
8.6.6.4), which presses that want PDF/X-1a take.
"""

from typing import TYPE_CHECKING

from layout.picture.ink import shade
from layout.picture.items import Ink
from layout.writers.pdf_numbers import plain

if TYPE_CHECKING:
    import pikepdf


class Inks:
    """The inks of one file, by the names that its pages call them; `for_screen` all are RGB."""

    def __init__(self, *, for_screen: bool = False) -> None:
        self.for_screen = for_screen
        self._spots: dict[Ink, str] = {}
        self._overprints = False

    def fill(self, grey: float, ink: Ink | None) -> str:
        """The operator for areas and text."""
        return self._operator(grey, ink, "g", "rg", "k", "cs", "scn")

    def stroke(self, grey: float, ink: Ink | None) -> str:
        """The operator for lines."""
        return self._operator(grey, ink, "G", "RG", "K", "CS", "SCN")

    def _operator(self, grey: float, ink: Ink | None, *names: str) -> str:
        of_grey, of_rgb, of_cmyk, of_space, of_spot = names
        if ink is None:
            return f"{plain(grey)} {of_grey}"
        if self.for_screen:
            shown = shade(ink, grey)
            return f"{_all(shown.red, shown.green, shown.blue)} {of_rgb}"
        if not ink.name:
            return f"{_all(*(part * (1 - grey) for part in ink.parts))} {of_cmyk}"
        spot = self._spots.setdefault(ink, f"Ink{len(self._spots) + 1}")
        return f"/{spot} {of_space} {_all(1 - grey)} {of_spot}"

    def over(self, told: bool) -> str:
        """The operator that lets what comes leave other plates as they are, or clear them."""
        self._overprints = True
        return "/Over gs" if told else "/Apart gs"

    def add_to(self, resources: "pikepdf.Object") -> None:
        """Adds what pages name to their resources: spot inks, and how black lies over them."""
        from pikepdf import Dictionary

        if self._spots:
            resources.ColorSpace = Dictionary(self._spaces())
        if self._overprints:
            states = {"/Over": True, "/Apart": False}
            resources.ExtGState = Dictionary(
                {name: Dictionary(OP=told, op=told, OPM=0) for name, told in states.items()}
            )

    def _spaces(self) -> "dict[str, pikepdf.Array]":
        """The colour spaces of the spot inks."""
        from pikepdf import Array, Dictionary, Name

        return {
            f"/{called}": Array(
                [
                    Name.Separation,
                    Name(f"/{ink.name}"),
                    Name.DeviceCMYK,
                    Dictionary(
                        FunctionType=2,
                        Domain=Array([0, 1]),
                        C0=Array([0, 0, 0, 0]),
                        C1=Array([round(part, 4) for part in ink.parts]),
                        N=1,
                    ),
                ]
            )
            for ink, called in self._spots.items()
        }


def _all(*shares: float) -> str:
    return " ".join(plain(round(share, 4)) for share in shares)
