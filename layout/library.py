"""What other programs call to draw a puzzle, and to make files of the picture.

What a function needs is imported when it is called, and nothing before: see `layout`.
"""

TYPE_CHECKING = False  # as typing's own, which would have to be imported
if TYPE_CHECKING:
    from os import PathLike

    from layout.picture.items import Picture
    from verify.pencil import Grid
    from verify.puzzle import Puzzle

__all__ = ["draw", "pdf", "svg"]


def draw(
    puzzle: "Puzzle",
    style: "str | PathLike[str]" = "paperback",
    *,
    width: float = 100.0,
    answer: "Grid | None" = None,
    helpers: bool = False,
) -> "Picture":
    """A puzzle's board as a picture, `width` millimetres wide.

    `style` is the name of a sheet that comes with the program, or the path of one of your own
    (`.yaml`). An `answer`, a digit for each cell, fills in the open cells; `helpers` prints all
    digits small in them. Whether the puzzle may be printed is not asked here: `verify.prove` tells.

    Raises Unreadable with every problem of the style sheet, CannotDraw for a symbol that no font
    has, for helper digits without room, or for a mark that the sheet leaves out, and ValueError for
    a width or an answer that is none.

        >>> from layout import draw
        >>> from verify import RULES, prove, read_puzzle
        >>> puzzle = read_puzzle(RULES[0].example)
        >>> picture = draw(puzzle, answer=prove(puzzle).answers[0])
        >>> picture.width, round(picture.height, 6)
        (100.0, 100.0)
    """
    from os import fspath

    from layout.board.board import draw_board
    from layout.style.style import named_style

    if not 0 < width < float("inf"):
        raise ValueError(f"found the width {width}, expected millimetres, more than 0")
    if answer is not None and len(answer) != len(puzzle.givens):
        expected = f"a digit for each of {len(puzzle.givens)} cells"
        raise ValueError(f"found an answer of {len(answer)} digits, expected {expected}")
    board = named_style(fspath(style)).board
    return draw_board(puzzle, board, width, answer=answer, helpers=helpers)


def svg(picture: "Picture") -> str:
    """A picture as the text of an SVG file; words go out as outlines, so that it needs no font.

    Raises CannotDraw for a character that a font does not have.

        >>> from layout import draw
        >>> from verify import RULES, read_puzzle
        >>> picture = draw(read_puzzle(RULES[0].example), width=50)
        >>> 'width="50mm"' in svg(picture)
        True
    """
    from layout.writers.svg import svg_of_picture

    return svg_of_picture(picture).decode("utf-8")


def pdf(picture: "Picture", language: str = "en") -> bytes:
    """A picture as a PDF file of one page, exactly as large; the same picture gives the same bytes.

    `language` (BCP 47) is what readers are told that its title and description are in. Raises
    CannotDraw for a character that a font does not have.

        >>> from layout import draw
        >>> from verify import RULES, read_puzzle
        >>> picture = draw(read_puzzle(RULES[0].example))
        >>> pdf(picture) == pdf(picture)
        True
    """
    from layout.writers.pdf import pdf_of_picture

    return pdf_of_picture(picture, language)
