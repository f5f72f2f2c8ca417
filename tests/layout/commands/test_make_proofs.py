"""`reglet make` before the book: what is refused at once, drafts, some pages, the plan of pages."""

import json

import pytest

from layout.command import main
from layout.jobs.book import make_book as making
from layout.jobs.book.page_plan import SIGNATURE
from tests.support.books import JOB, Printed, manifest, write_job

DRAFT = "Draft: nothing on this page is proved"


def told(capsys, *words):
    code = main(["make", *map(str, words)])
    out, err = capsys.readouterr()
    assert "Traceback" not in err
    return code, out, err


@pytest.fixture
def unproving(monkeypatch):
    """Proofs that must not be asked for."""

    def refuse(*_):
        raise AssertionError("a proof was asked for")

    monkeypatch.setattr(making, "prove_all", refuse)


def written(job, name):
    return Printed((job.parent / "build" / name).read_bytes())


def texts(pdf):
    return [pdf.text(at) for at in range(len(pdf))]


def test_what_has_no_room_is_told_before_anything_is_proved_and_all_at_once(
    tmp_path, capsys, unproving
):
    job = write_job(tmp_path, JOB.replace("{per-page: 4}", "{per-page: 12}"))
    wide = "kind: latin\nsize: 25\ntitle: Broad\nconstructor: Ida Marsh\n"
    for folder in ("low", "high"):
        for number in range(3):
            text = wide + f"rules: {{}}\nid: {folder}-{number}\n"
            (job.parent / folder / f"wide-{number}.yaml").write_text(text)
    code, _, err = told(capsys, job)
    assert code == 2
    lines = [line for line in err.splitlines() if "mm" in line]
    assert any("book.yaml" in line and "answers" in line for line in lines)
    assert any("high/wide-1.yaml" in line for line in lines)
    assert not (job.parent / "build" / "book.pdf").exists()


def test_a_draft_is_marked_on_every_page_and_needs_no_proof(tmp_path, capsys, unproving):
    job = write_job(tmp_path, JOB.replace("answers: {per-page", "hints: 2\n  answers: {per-page"))
    (job.parent / "low" / "many.yaml").write_text(manifest(9, "Many", answers=2))
    code, _, err = told(capsys, job, "--draft")
    assert code == 0
    assert "not proved" in err
    draft = written(job, "book-draft.pdf")
    assert all(DRAFT in text for text in texts(draft))
    assert any("Many" in text for text in texts(draft))
    assert not (job.parent / "build" / "book.pdf").exists()


def test_a_draft_prints_no_answer(tmp_path, capsys):
    job = write_job(tmp_path, JOB.replace("6x9in", "A5"))
    told(capsys, job)
    told(capsys, job, "--draft")
    book, draft = written(job, "book.pdf"), written(job, "book-draft.pdf")
    at = next(at for at, text in enumerate(texts(book)) if "puzzle on page" in text)
    there = next(at for at, text in enumerate(texts(draft)) if "puzzle on page" in text)
    digits = [sum(map(text.count, "1234")) for text in (book.text(at), draft.text(there))]
    assert digits[0] - digits[1] >= 2 * 8  # two 4x4 boards under the title, half of them open


def test_some_pages_are_those_of_the_book_by_their_numbers(tmp_path, capsys):
    job = write_job(tmp_path)
    told(capsys, job)
    code, _, err = told(capsys, job, "--pages", "3-6")
    assert code == 0
    assert "4 pages" in err
    book, some = written(job, "book.pdf"), written(job, "book-3-6.pdf")
    assert some.labels() == ["3", "4", "5", "6"]
    first = book.labels().index("3")
    assert texts(some) == texts(book)[first : first + 4]


def test_front_matter_is_found_by_its_roman_number(tmp_path, capsys):
    job = write_job(tmp_path)
    assert told(capsys, job, "--pages", "iii", "--draft")[0] == 0
    assert written(job, "book-draft-iii.pdf").labels() == ["iii"]


@pytest.mark.parametrize(
    ("pages", "said"),
    [
        ("400", "there is no page 400; they go from i to "),
        ("6-3", "page 3 stands before page 6"),
    ],
)
def test_pages_that_are_not_there_are_told(tmp_path, capsys, pages, said):
    job = write_job(tmp_path)
    code, _, err = told(capsys, job, "--pages", pages)
    assert code == 2
    assert f"found --pages {pages}" in err
    assert said in err


@pytest.mark.parametrize("pages", ["", "-", "3-", "x-y z", "3-6-9", "../3", "9" * 40])
def test_what_names_no_pages_is_refused(tmp_path, capsys, pages):
    code, _, err = told(capsys, write_job(tmp_path), f"--pages={pages}")
    assert code == 2
    assert "expected pages such as" in err


def test_a_draft_is_for_a_book(tmp_path, capsys):
    job = tmp_path / "sheet.yaml"
    (tmp_path / "reed.yaml").write_text(manifest(1))
    job.write_text(
        "job: worksheet\ntitle: Reeds\npuzzles: [reed.yaml]\noutput: {pdf: build/sheet.pdf}\n"
    )
    code, _, err = told(capsys, job, "--draft")
    assert code == 2
    assert "they are for a book" in err


def test_the_plan_of_pages_is_that_of_the_file(tmp_path, capsys):
    job = write_job(tmp_path)
    code, out, err = told(capsys, job, "--json")
    assert code == 0
    facts = json.loads(out)
    plan, book = facts["plan"], written(job, "book.pdf")
    labels = book.labels()
    at = plan["front_matter"]
    for part in plan["parts"]:
        assert labels[at] == part["first_page"]
        assert part["title"] in book.text(at)
        at += part["pages"]
    assert at == len(book)
    assert plan["blank"] == sum(not text.strip() for text in texts(book))
    sheets = plan["signatures"]
    assert sheets["count"] * SIGNATURE - sheets["pages_left"] == len(book)
    assert f"{sheets['count']} signature" in err
