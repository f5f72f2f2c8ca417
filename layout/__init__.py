"""How a puzzle looks, and every file that is written for print.

As a library: `draw` makes a picture of a puzzle, `svg` and `pdf` make files of a picture.

    >>> from layout import draw, pdf, svg
    >>> from verify import RULES, read_puzzle
    >>> picture = draw(read_puzzle(RULES[0].example), style="newsprint", width=60)
    >>> svg(picture).startswith("<?xml"), pdf(picture)[:5]
    (True, b'%PDF-')

Nothing else is imported before it is asked for: `layout.start` sees to signals first.
"""

from layout.library import draw, pdf, svg

TYPE_CHECKING = False  # as typing's own, which would have to be imported
if TYPE_CHECKING:
    from layout.picture.cannot import CannotDraw
    from layout.picture.items import Picture

__all__ = ["CannotDraw", "Picture", "draw", "pdf", "svg"]


if not TYPE_CHECKING:  # a checker sees the imports above, and tells of names that there are not

    def __getattr__(name: str) -> object:
        """A name that is no function, from its own file."""
        homes = {"CannotDraw": "layout.picture.cannot", "Picture": "layout.picture.items"}
        if name not in homes:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module(homes[name]), name)
