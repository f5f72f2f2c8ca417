"""Notes: how they are written, marked and set, and that each stands on the page of its mark."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.command import main
from layout.pages.common.book import Matter
from layout.type.face import Voices
from layout.type.fonts import font
from layout.type.markup import NOTED, read_markup
from layout.type.notes import marks
from layout.type.prose import Column, cut_pages
from layout.type.typography import Quotes
from tests.support.books import JOB, book_of, manifest, printed, write_job

VOICES = Voices("Spectral Regular", "Spectral Italic", "Spectral SemiBold", 3.5, 4.9)
COLUMN = Column(VOICES, 60.0, least=2.3)


def said(runs):
    return "".join(run.text for run in runs)


@pytest.mark.parametrize(
    ("text", "words", "notes"),
    [
        ("The tide ((twice a day)) turns.", f"The tide{NOTED} turns.", ["twice a day"]),
        ('"Out."((So (they) say (here).))', f"“Out.”{NOTED}", ["So (they) say (here)."]),
        ("*Ida((of\n  the lock))* and", f"Ida{NOTED} and", ["of the lock"]),
        (r"f\((x)) and ((a *word*))", f"f((x)) and{NOTED}", ["a word"]),
        ("((alone", "((alone", []),
        ("((no\n\nend))", "((no", []),
    ],
)
def test_a_note_is_words_in_two_brackets(text, words, notes):
    block, *_ = read_markup(text, Quotes(), noted=True)
    assert said(block.runs) == words
    assert [said(note) for note in block.notes] == notes
    assert read_markup(text, Quotes())[0].notes == ()


def test_marks_are_superior_figures_or_signs_where_a_font_has_too_few():
    assert marks(11, font("Spectral Regular"))[8:] == ("⁹", "¹⁰", "¹¹")
    assert marks(4, font("Atkinson Hyperlegible Regular")) == ("¹", "²", "³", "⁴")
    assert marks(6, font("Atkinson Hyperlegible Regular")) == ("*", "†", "‡", "§", "**", "††")


paragraphs = st.lists(
    st.lists(
        st.sampled_from(["tide", "m²", "*reed*", "10¹²", "((n))", "((" + "long " * 30 + "))"]),
        min_size=1,
        max_size=60,
    ),
    min_size=1,
    max_size=6,
)


@given(paragraphs, st.integers(16, 30), st.integers(6, 16))
def test_every_note_stands_on_the_page_of_its_mark(texts, room, first):
    blocks = read_markup("\n\n".join(map(" ".join, texts)), Quotes(), noted=True)
    rows = COLUMN.rows(blocks)
    wanted = marks(sum(len(block.notes) for block in blocks), font("Spectral Regular"))
    pages = cut_pages(rows, room, first, COLUMN.note_rows)
    told = [note.lines[0].text.split("\u00a0")[0] for row in rows for note in row.notes]
    assert told == list(wanted)
    for row in rows:
        line = "".join(line.text for _, line in row.lines)
        for note in row.notes:
            assert note.lines[0].text.split("\u00a0")[0] in line
    for at, page in enumerate(pages):
        used = len(page) + COLUMN.note_rows(page)
        # A row whose own notes are too many for a page stands alone on one.
        assert used <= (room if at else first) or len(page) == 1
    assert sum(bool(row.lines) for page in pages for row in page) == sum(
        bool(row.lines) for row in rows
    )


def test_notes_stand_small_at_the_foot_of_the_page():
    book = book_of([("Low Water", "", [manifest(1)], 1)])
    foreword = "Herons stand about.((Some are posts.)) " + "The sea goes out. " * 300
    pdf, laid = printed(replace(book, matter=Matter(foreword=f"{foreword}And in.((Late.))")))
    at = pdf.labels().index(laid.labels["foreword"])
    text = pdf.text(at)
    assert "about.¹ The" in text
    assert "¹ Some are posts." in text
    assert "Late" not in text
    chars = [char for char in pdf.chars(at) if char.text.isalpha() and char.origin[1] < 210]
    note = [char for char in chars if char.size == min(each.size for each in chars)]
    assert "".join(char.text for char in note).startswith("Somearepo")
    others = [char.origin[1] for char in chars if char not in note]
    assert min(char.origin[1] for char in note) > max(others) + 5
    later = [n for n in range(at + 1, len(pdf)) if "² Late." in pdf.text(n)]
    assert len(later) == 1


def test_a_note_that_is_too_long_is_told_at_its_words(tmp_path, capsys):
    intro = "      The creeks have drained.((" + "On and on. " * 200 + "))"
    old = "      The creeks have drained, and the herons stand about like posts."
    assert main(["make", str(write_job(tmp_path, JOB.replace(old, intro)))]) == 2
    said = capsys.readouterr().err
    assert 'book.yaml:10:12: the note "¹ On and on.' in said.replace("\u00a0", " ")
    assert "too long for the foot of a page" in said


@pytest.mark.parametrize(("per_page", "noted"), [(1, True), (2, False), (4, False)])
def test_notes_to_rules_stand_at_the_foot_of_a_page_of_one_and_else_in_brackets(per_page, noted):
    text = f"{manifest(1)}\nwords: Each row is a creek. ((Some creeks are *rows*.)) So be it.\n"
    pdf, laid = printed(book_of([("Low Water", "", [text, manifest(2)], per_page)]))
    at = pdf.labels().index(laid.labels["puzzle-reed-1"])
    said = " ".join(pdf.text(at).split())
    if not noted:
        assert "a creek. (Some creeks are *rows*.) So be it." in said
        return
    assert "a creek.¹ So be it." in said
    assert "¹ Some creeks are *rows*." in said
    sizes = {char.size for char in pdf.chars(at) if char.text == "¹"}
    assert len(sizes) == 2
    foot = max(char.origin[1] for char in pdf.chars(at) if char.text == "¹")
    assert foot > 190
