"""Puzzles that share a page: where the constructor's name and the answer's page stand."""

import pytest

from tests.support.books import book_of, manifest, printed


def lines_of_a_page(constructor):
    """The lines of a page of four puzzles, without spaces."""
    texts = [manifest(n, constructor=constructor) for n in range(4)]
    pdf, laid = printed(book_of([("Low Water", "", texts, 4)]))
    return pdf.lines(pdf.labels().index(laid.labels["puzzle-reed-1"]))


@pytest.mark.parametrize(
    ("constructor", "shared"),
    [("Ida Marsh", True), ("The Ebb and Flow Society of the Lower Sluice", False)],
)
def test_name_and_reference_share_a_line_where_it_holds_both(constructor, shared):
    lines = [text for text, _ in lines_of_a_page(constructor)]
    named = [line for line in lines if constructor.replace(" ", "") in line]
    assert [line.count("answeronpage") for line in named] == [2 if shared else 0] * 2
    assert sum(line.count("answeronpage") for line in lines) == 4


def test_a_reference_on_a_line_of_its_own_starts_where_the_name_does():
    lines = lines_of_a_page("The Ebb and Flow Society of the Lower Sluice")
    name, reference = (
        next(row for text, row in lines if text.startswith(start)) for start in ("The", "answer")
    )
    assert reference[0].origin[0] == pytest.approx(name[0].origin[0], abs=0.01)
