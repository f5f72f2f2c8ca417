"""The colophon: what it tells, and that anybody can work out its checksum."""

import hashlib
import json

import pypdfium2
import pytest

from layout.command import main
from layout.type.fonts import family
from tests.support.books import JOB, write_job

WITH = JOB.replace("back:\n", "back:\n  colophon: true\n")


def made(tmp_path, capsys, *options):
    assert main(["make", str(write_job(tmp_path, WITH)), "--json", "--quiet", *options]) == 0
    facts = json.loads(capsys.readouterr().out)
    (written,) = facts["written"]
    pdf = pypdfium2.PdfDocument(written)
    texts = [" ".join(page.get_textpage().get_text_range().split()) for page in pdf]
    (at,) = [at for at, text in enumerate(texts) if "SHA-256" in text]
    return facts, texts, at


def test_it_tells_fonts_proofs_and_a_checksum_that_anybody_can_work_out(tmp_path, capsys):
    facts, texts, at = made(tmp_path, capsys)
    whole = ""
    for puzzle, shift in zip(facts["puzzles"], range(1, 7), strict=True):
        data = (tmp_path / puzzle["file"].rpartition("/")[0] / puzzle["file"]).read_bytes()
        order = "1234"[shift % 4 :] + "1234"[: shift % 4]
        answer = "1234341223414123".translate(str.maketrans("1234", order))
        whole += f"{hashlib.sha256(data).hexdigest()} {answer}\n"
    assert facts["checksum"] == hashlib.sha256(whole.encode()).hexdigest()
    assert facts["checksum"] in texts[at].replace(" ", "")
    assert "6 puzzles have been proved to have exactly one answer each." in texts[at]
    assert "Set in Spectral and Fira Sans." in texts[at]


def test_it_is_the_last_page_with_words_and_takes_a_verso_that_is_free(tmp_path, capsys):
    _, texts, at = made(tmp_path, capsys)
    assert at == len(texts) - 1
    assert texts[at - 1].startswith("Constructors")


def test_a_draft_has_nothing_to_tell_the_sum_of(tmp_path, capsys):
    main(["make", str(write_job(tmp_path, WITH)), "--draft", "--quiet"])
    pdf = pypdfium2.PdfDocument(tmp_path / "build" / "book-draft.pdf")
    assert "00000000 00000000" in pdf[len(pdf) - 1].get_textpage().get_text_range()


@pytest.mark.parametrize(
    ("name", "wanted"),
    [
        ("Spectral Medium Italic", "Spectral"),
        ("Atkinson Hyperlegible Regular", "Atkinson Hyperlegible"),
        ("Bold", "Bold"),
    ],
)
def test_a_family_is_what_is_left_without_weight_and_slope(name, wanted):
    assert family(name) == wanted
