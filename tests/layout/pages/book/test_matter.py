"""Words around the puzzles: where they stand, how they are found, what stands at their head."""

from dataclasses import replace

import pytest

from layout.command import main
from layout.pages.common.book import Matter
from tests.support.books import JOB, book_of, manifest, printed, write_job

LONG = "\n\n".join(
    f"The creek {n} has drained, and herons stand about like posts." for n in range(120)
)

MATTER = Matter(
    dedication="*For all who wait for the tide*",
    foreword="Twice a day the sea goes out.",
    afterword="1. It comes back.\n2. It always does.",
    about="Ida Marsh keeps a lock.",
    running_title="Almanac",
)


@pytest.fixture(scope="module")
def made():
    book = book_of(
        [
            ("Low Water", "", [manifest(n) for n in range(3)], 1),
            ("On Waiting", LONG, [], 1),
            ("High Water", "", [manifest(n) for n in range(3, 5)], 1),
        ]
    )
    waiting = replace(book.sections[1], running_title="Waiting")
    sections = (book.sections[0], waiting, book.sections[2])
    imprint = replace(book.imprint, copyright="© 2027 Ida Marsh")
    return printed(replace(book, matter=MATTER, sections=sections, imprint=imprint))


def first_page(made, anchor):
    pdf, laid = made
    return pdf.labels().index(laid.labels[anchor])


def test_words_stand_where_readers_look_for_them(made):
    pdf, _ = made
    names = ("dedication", "foreword", "how-to-solve", "section-1", "section-2", "section-3")
    pages = [first_page(made, name) for name in (*names, "afterword", "answers", "about")]
    assert pages == sorted(pages)
    assert all(at % 2 == 0 for at in pages)
    assert pdf.label(first_page(made, "foreword")).strip("ivx") == ""
    assert "For all who wait" in pdf.text(first_page(made, "dedication"))
    assert any("© 2027 Ida Marsh" in pdf.text(at) for at in range(pages[0]))


def test_contents_lead_to_them_and_to_sections_of_words(made):
    pdf, _ = made
    said = pdf.text(first_page(made, "contents"))
    for title in ("Foreword", "On Waiting", "Afterword", "About the constructors"):
        assert title in said
    assert "Foreword" not in pdf.text(first_page(made, "dedication"))


def test_running_titles_may_be_their_own(made):
    pdf, _ = made
    start, end = first_page(made, "section-2"), first_page(made, "section-3")
    heads = {pdf.lines(at)[0][0] for at in range(start + 1, end) if pdf.chars(at)}
    assert heads == {"Almanac", "Waiting"}


def test_a_numbered_list_has_its_numbers(made):
    pdf, _ = made
    said = pdf.text(first_page(made, "afterword"))
    assert "1." in said
    assert "2." in said
    assert said.index("It comes back") < said.index("2.") < said.index("It always does")


@pytest.mark.parametrize(
    ("puzzles", "said"),
    [("", "a section has one of them"), ("    intro: Words.\n", "found no puzzles in any section")],
)
def test_a_book_has_puzzles_and_no_empty_section(tmp_path, capsys, puzzles, said):
    head, _, tail = JOB.partition("sections:\n")
    job = write_job(
        tmp_path,
        f"{head}sections:\n  - title: Low Water\n{puzzles}back:" + tail.partition("back:")[2],
    )
    assert main(["make", str(job)]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert "book.yaml:" in err
