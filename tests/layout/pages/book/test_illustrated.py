"""A picture on the page that opens a section: where it stands, what a press and a reader get."""

import json

import pikepdf
import pytest
from PIL import Image

from layout.command import main
from layout.preflight.reading.opening import read_bytes
from tests.support.books import JOB, Printed, write_job

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">'
    '<rect width="200" height="100" fill="#336699"/></svg>'
)


def job_with(folder, low, high="", output=""):
    job = JOB.replace(
        "    puzzles: [low/*.yaml]\n", f"    picture: {low}\n    puzzles: [low/*.yaml]\n"
    )
    if high:
        job = job.replace("    puzzles: [high", f"    picture: {high}\n    puzzles: [high")
    path = write_job(folder, job.rstrip() + output + "\n", low=1, high=1)
    (folder / "art").mkdir()
    (folder / "art/creek.svg").write_text(SVG)
    Image.new("L", (300, 100), 99).save(folder / "art/sun.png")
    return path


def test_pictures_stand_under_the_title_and_a_press_takes_them(tmp_path, capsys):
    path = job_with(
        tmp_path,
        "{file: art/creek.svg, words: A creek at noon}",
        "art/sun.png",
        "\n  standard: pdfx-1a\n  screen: build/screen.pdf",
    )
    assert main(["make", str(path), "--json"]) == 0
    told = capsys.readouterr()
    assert "book.yaml:12:14: the picture's colours are printed as greys" in told.err
    assert "the picture has 66 pixels an inch at its width of 115 mm; 300 are wanted" in told.err
    assert json.loads(told.out)["pages"]
    data = (tmp_path / "build/book.pdf").read_bytes()
    pdf = Printed(data)
    at = next(n for n in range(4, len(pdf)) if pdf.text(n).startswith("Low Water"))
    file = read_bytes(data, "book")
    area = max(file.leaves[at].marks.paints, key=lambda paint: paint.box.width)
    left = min(letter.box.left for letter in file.leaves[at].marks.letters if letter.box)
    title, words = (next(each for each in pdf.chars(at) if each.text == letter) for letter in "LT")
    top, bottom = ((234.6 - 3 - edge * 25.4 / 72) for edge in (area.box.top, area.box.bottom))
    assert area.box.left == pytest.approx(left, abs=1)
    assert area.box.width == pytest.approx(2 * area.box.height, rel=1e-3)
    assert title.bottom < top - 5 < bottom - 40
    assert words.top > bottom + 3
    assert not {"DeviceRGB", "DeviceCMYK"} & {
        ink for leaf in file.leaves for ink in leaf.marks.inks
    }
    with pikepdf.open(tmp_path / "build/screen.pdf") as screen:
        kids = screen.Root.StructTreeRoot.K.K
        alts = [str(kid.Alt) for kid in kids if kid.S == "/Figure"]
    assert "A creek at noon" in alts


@pytest.mark.parametrize(
    ("picture", "said"),
    [
        ("art/none.svg", 'there is no file "art/none.svg"'),
        ("../creek.svg", "inside the folder of the job"),
        ("art/creek.gif", "ends in .svg or .pdf or .png"),
        ("{file: art/creek.svg, width: 130mm}", "found a picture of 130 x 65 mm, expected at most"),
        ("{file: art/broken.svg}", "the picture can't be printed: it is no SVG"),
        ("{width: 30mm}", 'the key "file" is missing'),
    ],
)
def test_a_picture_that_can_not_be_is_told_at_its_line(tmp_path, capsys, picture, said):
    path = job_with(tmp_path, picture)
    (tmp_path / "art/broken.svg").write_text("<svg")
    assert main(["make", str(path)]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert "book.yaml:12:" in err
    assert not (tmp_path / "build").exists()


def test_a_picture_is_not_written_over(tmp_path, capsys):
    path = job_with(tmp_path, "build/book.pdf")
    (tmp_path / "build").mkdir()
    (tmp_path / "build/book.pdf").write_bytes(b"mine")
    assert main(["make", str(path)]) == 2
    assert "expected another file than one that is read" in capsys.readouterr().err
    assert (tmp_path / "build/book.pdf").read_bytes() == b"mine"
