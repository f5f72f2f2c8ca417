"""`reglet walk --slides`: the images and the notes, read back."""

import json
import re
from io import BytesIO

import pypdfium2
import pytest
from PIL import Image
from pypdf import PdfReader

from layout.command import main
from layout.language.words import read_words
from layout.telling.telling import tell_walk
from tests.layout.commands.test_walk import MANY
from tests.support.drawn import glyphs, svg_of
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.rules import BY_NAME
from verify.walk.told.path import told_path

TEXT = BY_NAME["skyscraper"].example
POINT = 25.4 / 72


@pytest.fixture
def slides(tmp_path, capsys):
    def run(text, *more, place="wall"):
        (tmp_path / "puzzle.yaml").write_text(text, encoding="utf-8")
        out = tmp_path / place
        code = main(["walk", str(tmp_path / "puzzle.yaml"), "--slides", str(out), *more])
        return code, out, capsys.readouterr()

    return run


def notes_of(folder, name="notes.json"):
    return json.loads((folder / name).read_text(encoding="utf-8"))["slides"]


def answer_of(text):
    puzzle = puzzle_from_text(text)
    answer = prove(puzzle).answers[0]
    return {
        puzzle.board.name(cell): puzzle.symbol(answer[cell])
        for cell in puzzle.board.cells
        if not puzzle.givens[cell]
    }


@pytest.mark.parametrize("each", ["paragraph", "sentence"])
@pytest.mark.parametrize("language", ["en", "de"])
def test_the_notes_place_every_digit_once_and_name_every_image(slides, each, language):
    code, folder, told = slides(TEXT, "--each", each, "--language", language)
    notes = notes_of(folder)
    assert (code, told.out) == (0, "")
    assert f"wall: {len(notes)} slides" in told.err
    assert [note["number"] for note in notes] == list(range(1, len(notes) + 1))
    images = [note["image"] for note in notes]
    assert sorted(path.name for path in folder.iterdir() if path.name[0] != ".") == sorted(
        [*images, "notes.json"]
    )
    places = [place for note in notes for place in note["places"].items()]
    assert len(places) == len(dict(places))
    assert dict(places) == answer_of(TEXT)


def test_the_words_are_those_of_the_walk(slides):
    _, folder, _ = slides(TEXT)
    puzzle = puzzle_from_text(TEXT)
    telling = tell_walk(puzzle, told_path(puzzle), read_words("en"))
    words = " ".join(note["words"] for note in notes_of(folder)).replace("\u00a0", " ")
    assert telling.summary in words
    assert all(told.said in words for told in telling.steps if not told.step.places)


def test_each_image_is_16_to_9_and_shows_its_words_large(slides):
    _, folder, _ = slides(TEXT)
    for note in notes_of(folder):
        root = svg_of((folder / note["image"]).read_bytes())
        left, top, width, height = (float(each) for each in root.get("viewBox").split())
        assert width / height == pytest.approx(16 / 9, abs=0.001)
        for box in glyphs(root):
            assert left <= box[0] <= box[2] <= left + width
            assert top <= box[1] <= box[3] <= top + height


def test_in_one_document_words_stand_right_of_the_board_and_no_letter_is_small(slides):
    code, path, _ = slides(TEXT, place="wall.pdf")
    assert code == 0
    notes = notes_of(path.parent, "wall.notes.json")
    pdf = pypdfium2.PdfDocument(path)
    assert len(pdf) == len(notes)
    for page, note in zip(pdf, notes, strict=True):
        assert note["image"] == f"wall.pdf#page={note['number']}"
        assert page.get_size() == pytest.approx((960, 540), abs=0.1)
        text = page.get_textpage()
        said = re.sub(r"\s+", " ", text.get_text_bounded().replace("\ufffe", "-"))
        assert note["words"].split()[-1] in said
        sizes = []
        for at in range(text.count_chars()):
            x = text.get_charbox(at)[0]
            if x > 540 and text.get_text_range(at, 1).strip():
                sizes.append(pypdfium2.raw.FPDFText_GetFontSize(text, at))
        assert min(sizes) >= 15
    reader = PdfReader(path)
    assert reader.metadata.title == puzzle_from_text(TEXT).title


def test_as_pixels_a_slide_is_as_large_as_a_wall_shows(slides):
    _, folder, _ = slides(TEXT, "--images", "png")
    names = {note["image"] for note in notes_of(folder)}
    for name in names:
        assert Image.open(BytesIO((folder / name).read_bytes())).size == (1920, 1080)


def test_slides_of_a_run_before_go_and_nothing_else_does(slides):
    _, folder, _ = slides(TEXT, "--each", "sentence")
    (folder / "slide-001-mine.svg").write_text("kept")
    before = len(notes_of(folder))
    slides(TEXT, "--level", "moments", "--images", "png")
    notes = notes_of(folder)
    assert len(notes) < before
    found = {path.name for path in folder.iterdir() if path.name[0] != "."}
    assert found == {"notes.json", "slide-001-mine.svg", *(note["image"] for note in notes)}


def test_a_folder_without_notes_loses_nothing(slides, tmp_path):
    (tmp_path / "wall").mkdir()
    (tmp_path / "wall" / "slide-999.svg").write_text("mine")
    slides(TEXT)
    assert (tmp_path / "wall" / "slide-999.svg").read_text() == "mine"


def test_two_runs_write_the_same_bytes(slides):
    def bytes_of(folder):
        return {each.name: each.read_bytes() for each in folder.iterdir() if each.is_file()}

    _, folder, _ = slides(TEXT)
    first = bytes_of(folder)
    _, folder, _ = slides(TEXT)
    assert bytes_of(folder) == first


def test_what_has_not_one_answer_leaves_the_folder_as_it_is(slides, tmp_path):
    code, folder, told = slides(MANY)
    assert code == 1
    assert not folder.exists()
    assert "expected one answer" in told.err


def test_no_image_is_written_over_the_manifest(slides, tmp_path):
    (tmp_path / "wall").mkdir()
    (tmp_path / "wall" / "slide-003.svg").symlink_to(tmp_path / "puzzle.yaml")
    code, _, told = slides(TEXT)
    assert code == 2
    assert "it is what is read" in told.err
    assert (tmp_path / "puzzle.yaml").read_text() == TEXT


def test_the_manifest_is_never_written_over(slides, tmp_path):
    (tmp_path / "wall.pdf").symlink_to(tmp_path / "puzzle.yaml")
    code, _, told = slides(TEXT, place="wall.pdf")
    assert code == 2
    assert "it is what is read" in told.err
    assert (tmp_path / "puzzle.yaml").read_text() == TEXT


def test_a_long_sentence_shrinks_and_a_long_paragraph_is_told_in_parts(slides):
    text = BY_NAME["whisper"].example
    for each in ("paragraph", "sentence"):
        _, path, _ = slides(text, "--each", each, place="wall.pdf")
        for page in pypdfium2.PdfDocument(path):
            chars = page.get_textpage()
            boxes = [chars.get_charbox(at) for at in range(chars.count_chars())]
            assert min(box[1] for box in boxes) > 18
