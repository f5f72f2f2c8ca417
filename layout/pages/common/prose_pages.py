"""Pages of prose: what opens a part of the book, with its words of introduction."""

from collections.abc import Iterator, Sequence
from math import ceil
from typing import Final

from layout.pages.common.book import Illustration
from layout.pages.common.design import Design, cap, fit, heading, stacked
from layout.pages.common.illustrated import illustrate
from layout.pages.common.misfit import JobPath, Misfit, Misfits
from layout.pages.common.page import Page, fixed
from layout.picture.items import Anchor, Item
from layout.type.face import Voices
from layout.type.markup import read_markup
from layout.type.paragraph import one_line
from layout.type.prose import Column, ProseRow, cut_pages

OPENING: Final = 0.16
"""Where the title of a part stands, as a share of the text area's depth from its top."""

WHITE: Final = 2.2
"""White under a title, in leadings of what follows."""

MOST_TITLE_LINES: Final = 3


def opener_pages(
    title: str,
    note: str,
    intro: str,
    anchor: str,
    design: Design,
    path: JobPath = (),
    *,
    words_path: JobPath = (),
    head: str = "",
    picture: Illustration | None = None,
) -> tuple[Page, ...]:
    """A title with a note and a picture under it, and as many pages as the introduction needs.

    At the head of these stands the title, unless another `head` is given. Raises Misfits, at the
    job's `path`, for a title that is too long, for a picture that has no room, and at `words_path`
    for a long note.
    """
    items, y = opening(title, note, design, path)
    voices = design.faces.prose
    above, room = rows_below(y, voices), rows_in(design.depth, voices)
    if picture is not None:
        top = above * voices.leading
        figure, height = illustrate(picture, top, design, alone=not intro)
        items.append(figure)
        above += ceil(height / voices.leading) + 1
    column = design.prose()
    rows = column.rows(read_markup(intro, design.words.quote_marks, noted=True))
    _check_notes(rows, room, column, words_path)
    first, *others = cut_pages(rows, room, max(room - above, 0), column.note_rows) or ((),)
    items += [*row_items(first, above, voices), *_note_items(first, room, column)]
    pages = ([*row_items(each, 0, voices), *_note_items(each, room, column)] for each in others)
    return (
        Page(fixed(items), (Anchor(anchor, 0.0),)),
        *(Page(fixed(page), head=head or title) for page in pages),
    )


def _check_notes(rows: Sequence[ProseRow], room: int, column: Column, path: JobPath) -> None:
    """Raises Misfits where the notes of a row would take more than half of a page."""
    for row in rows:
        if 2 * column.note_rows([row]) > room:
            words = row.notes[0].lines[0].text
            message = f'the note "{words[:24]}…" is too long for the foot of a page'
            raise Misfits([Misfit(message, path)])


def _note_items(rows: Sequence[ProseRow], room: int, column: Column) -> Iterator[Item]:
    """The notes of a page's rows, the last line of them on the last row of the page."""
    lines = [line for row in rows for note in row.notes for line in note.lines]
    foot = cap(column.voices) + (room - 1) * column.voices.leading
    leading = column.small.leading
    for index, line in enumerate(reversed(lines)):
        yield from line.at(0.0, foot - index * leading)


def opening(title: str, note: str, design: Design, path: JobPath = ()) -> tuple[list[Item], float]:
    """A title with a note under it, and the baseline of the note. Raises Misfits."""
    items, y = chapter_title(title, design, path)
    face = design.faces.note
    y += 1.7 * face.leading
    return [*items, *one_line(note, face).at(0.0, y)], y


def chapter_title(
    text: str, design: Design, path: JobPath = (), *, at_top: bool = False
) -> tuple[list[Item], float]:
    """The title of a part of the book, and the baseline of its last line.

    It stands some way down the page, or `at_top` of the text area.
    """
    lines, face = fit(text, design.faces.chapter, design, MOST_TITLE_LINES, path)
    y = cap(face) if at_top else OPENING * design.depth
    items: list[Item] = [heading(stacked(lines, face.leading, 0.0, y), "H1")]
    return items, y + (len(lines) - 1) * face.leading


def rows_in(depth: float, voices: Voices) -> int:
    """How many rows of the baseline grid a depth holds."""
    return int((depth - cap(voices)) / voices.leading + 1e-9) + 1


def rows_below(y: float, voices: Voices, white: float = WHITE) -> int:
    """The first row of the grid that lies so many leadings under a baseline."""
    return ceil((y + white * voices.leading - cap(voices)) / voices.leading)


def row_items(rows: Sequence[ProseRow], first: int, voices: Voices) -> Iterator[Item]:
    """Rows on the baseline grid of the text area, from its row `first` (0 is the topmost)."""
    for index, row in enumerate(rows, start=first):
        for x, line in row.lines:
            yield from line.at(x, cap(voices) + index * voices.leading)
