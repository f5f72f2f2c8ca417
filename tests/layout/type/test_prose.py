"""Prose on a baseline grid, cut into pages without widows and orphans."""

from itertools import count, pairwise

from hypothesis import given
from hypothesis import strategies as st

from layout.type.face import Voices
from layout.type.markup import MarkupBlock, VoicedText, read_markup
from layout.type.prose import BULLET, Column, ProseRow, cut_pages
from layout.type.typography import Quotes

VOICES = Voices("Spectral Regular", "Spectral Italic", "Spectral SemiBold", 3.5, 4.9)
COLUMN = Column(VOICES, 60.0)

kinds = st.sampled_from(["paragraph", "paragraph", "paragraph", "item"])
parts = st.one_of(st.tuples(kinds, st.integers(1, 90)), st.just(("heading", 2)))
shapes = st.lists(parts, max_size=12).filter(
    lambda shape: "hhh" not in "".join(kind[0] for kind, _ in shape)
)


def prose(shape):
    """Blocks whose words tell which block they belong to."""
    return [
        MarkupBlock(kind, (VoicedText(" ".join([f"tide{number}"] * words)),))
        for number, (kind, words) in zip(count(), shape, strict=False)
    ]


def block_of(row):
    """The number of the block that a row belongs to; None for an empty row."""
    words = " ".join(line.text for _, line in row.lines).replace(BULLET, "").split()
    return int(words[0].removeprefix("tide").split("-")[0]) if words else None


@given(shapes, st.integers(8, 30), st.integers(4, 30))
def test_no_line_of_a_paragraph_is_left_alone(shape, room, first):
    # The Chicago Manual of Style, from memory: no page begins with the last line of a
    # paragraph, none ends with its first line or with a heading
    rows = Column(VOICES, 60.0, "ragged").rows(prose(shape))
    pages = cut_pages(rows, room, min(first, room))
    told = [block_of(row) for page in pages for row in page]
    assert [at for at in told if at is not None] == [
        block_of(row) for row in rows if block_of(row) is not None
    ]
    printed = pages if pages and pages[0] else pages[1:]
    for page in printed:
        assert 0 < len(page) <= room
        assert page[0].lines
        assert page[-1].lines
    for page, following in pairwise(printed):
        last, next_ = block_of(page[-1]), block_of(following[0])
        assert shape[last][0] != "heading"
        if last == next_:
            assert sum(block_of(row) == last for row in page) >= 2
            assert sum(block_of(row) == last for row in following) >= 2


def test_paragraphs_are_told_apart_by_an_indent_but_a_first_one_has_none():
    blocks = read_markup("# Head\n\nOne.\n\nTwo.\n\n- item\n\nThree.", Quotes())
    starts = [(row.lines[0][0], row.lines[-1][1].text) for row in COLUMN.rows(blocks) if row.lines]
    assert starts == [
        (0.0, "Head"),
        (0.0, "One."),
        (VOICES.size, "Two."),
        (0.0, "item"),
        (0.0, "Three."),
    ]


def test_no_page_begins_with_an_empty_row():
    line = COLUMN.rows(prose([("paragraph", 1)]))[0]
    assert cut_pages([ProseRow(), line, ProseRow(), line], 2) == ((line,), (line,))
    assert cut_pages([ProseRow(), ProseRow()], 2) == ()
