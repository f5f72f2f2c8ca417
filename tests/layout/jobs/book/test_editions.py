"""Files beside a book's pages: the cover, and the booklet."""

import pypdfium2
import pytest

from layout.command import main
from tests.support.books import JOB, write_job

POINT = 72 / 25.4
BESIDE = JOB + "  cover: build/cover.pdf\n  booklet: build/booklet.pdf\n"


def words_of(page):
    return page.get_textpage().get_text_range().split()


def made(tmp_path, capsys, job):
    code = main(["make", str(write_job(tmp_path, job))])
    return code, capsys.readouterr().err


def test_cover_and_booklet_are_of_the_book_and_its_paper(tmp_path, capsys):
    code, said = made(tmp_path, capsys, BESIDE + "  caliper: 0.2mm\n  signature: 8\n")
    assert code == 0
    assert "beside it cover.pdf, booklet.pdf" in said
    book, cover, booklet = (
        pypdfium2.PdfDocument(tmp_path / "build" / f"{name}.pdf")
        for name in ("book", "cover", "booklet")
    )
    left, _, right, _ = cover[0].get_trimbox()
    # two pages and a spine: half as many leaves as pages, of 0.2 mm each
    assert (right - left) / POINT == pytest.approx(2 * 152.4 + len(book) / 2 * 0.2, abs=0.01)
    assert "The Small Almanac" in " ".join(words_of(cover[0]))
    assert len(booklet) == -(-len(book) // 4) * 2
    # the first gathering of eight: pages 8 and 1 outside, 2 and 7 on its back
    for side, (left, right) in enumerate(((8, 1), (2, 7))):
        slug = ["gathering", "1,", "sheet", "1,", ("front", "back")[side]]
        placed = words_of(book[left - 1]) + words_of(book[right - 1])
        assert sorted(words_of(booklet[side])) == sorted(placed + slug)


@pytest.mark.parametrize(
    ("job", "message"),
    [
        (
            JOB + "  cover: build/book.pdf\n",
            '21:10: found "build/book.pdf", expected another file than the others',
        ),
        (
            BESIDE + "cover: {picture: reed-11}\n",
            '23:18: unknown puzzle "reed-11"; did you mean "reed-1"?',
        ),
        (
            BESIDE + f"cover: {{words: {'marsh ' * 600}}}\n",
            "23:16: the words take more room than the cover has",
        ),
        (BESIDE + "  signature: 6\n", '23:14: found "6", expected 4, 8'),
        (BESIDE + "  caliper: 2mm\n", '23:12: found "2mm", expected a length'),
    ],
)
def test_what_can_not_be_is_told_at_its_place_before_anything_is_proved(
    tmp_path, capsys, monkeypatch, job, message
):
    monkeypatch.setattr("layout.jobs.book.make_book.prove_all", None)
    code, said = made(tmp_path, capsys, job)
    assert code == 2
    assert message in said
    assert not list(tmp_path.glob("build/*.pdf"))
