"""Fonts of an editor's own: files, those of the machine, what may be embedded, single letters."""

import pytest
from fontTools.ttLib import TTFont, newTable

from layout.command import main
from layout.picture.items import Picture
from layout.style.style import style_of
from layout.type import system_fonts
from layout.type.face import Face
from layout.type.fonts import OWN_FILE, find_font, font, split_by_font
from layout.type.own_fonts import UnfitFont, font_data
from layout.type.paragraph import one_line, set_words
from layout.writers.pdf import pdf_of_picture
from tests.support.books import JOB, Printed, write_job
from tests.support.otf import otf
from verify.reading.problems import Unreadable

ELSE = "Spectral Regular else Fira Sans Regular"


def saved(folder, data, name="Creek.otf"):
    path = folder / name
    path.write_bytes(data)
    return path


def test_cubic_outlines_become_quadratic_ones_of_the_same_shape(tmp_path):
    own = font(f"{OWN_FILE}{saved(tmp_path, otf())}")
    of = font("Spectral Regular")
    assert own.name == "Creek Regular"
    for char in "agQ&8%":
        assert own.width(char) == of.width(char)
        assert own.bounds(char) == pytest.approx(of.bounds(char), abs=0.002)
    line = one_line("Wading", Face(f"{OWN_FILE}{own.path}", 5.0, 6.0))
    pdf = pdf_of_picture(Picture(60, 10, tuple(line.at(5, 7))))
    shown = Printed(pdf)
    assert shown.text(0).strip() == "Wading"
    assert shown.chars(0)[0].font.endswith("Creek-Regular")
    assert pdf == pdf_of_picture(Picture(60, 10, tuple(line.at(5, 7))))


def variable(data, folder):
    path = saved(folder, data)
    with TTFont(path) as file:
        file["fvar"] = newTable("fvar")
        file["fvar"].axes, file["fvar"].instances = [], []
        file.save(path)
    return path


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda folder: saved(folder, otf(fs_type=2)), "does not allow it to be embedded"),
        (lambda folder: saved(folder, otf(fs_type=0x100)), "only be embedded whole"),
        (lambda folder: saved(folder, otf(fs_type=0x200)), "only bitmaps"),
        (lambda folder: variable(otf(), folder), "variable"),
        (lambda folder: saved(folder, b"OTTO"), "can't be read"),
        (lambda folder: saved(folder, otf()[:900]), "can't be read"),
    ],
)
def test_what_may_not_or_cannot_be_embedded_is_refused(tmp_path, make, said):
    with pytest.raises(UnfitFont, match=said):
        font_data(make(tmp_path))


@pytest.mark.parametrize("kind", [0, 4, 8])
def test_what_may_be_printed_is_embedded(tmp_path, kind):
    assert font_data(saved(tmp_path, otf(fs_type=kind)))[:4] == b"\0\1\0\0"


def test_single_letters_come_from_the_fallback_and_no_others():
    assert split_by_font(ELSE, "an Ω here") == (
        (ELSE, "an "),
        ("Fira Sans Regular", "Ω"),
        (ELSE, " here"),
    )
    assert split_by_font("Spectral Regular", "an Ω here") == (("Spectral Regular", "an Ω here"),)
    face = Face(ELSE, 4.0, 5.0)
    lines = set_words("So is ΩΩΩ in words of several lines " * 3, face, 40.0)
    assert all(line.width <= 40.0 for line in lines)
    fonts = {span.font for line in lines for span in line.spans if "Ω" in span.text}
    assert fonts == {"Fira Sans Regular"}
    assert find_font(ELSE) == find_font("Spectral Regular")
    assert font(ELSE).shows("Ω")
    assert not font(ELSE).has("Ω")


def test_a_book_is_set_in_the_fonts_of_its_job(tmp_path, capsys):
    saved(tmp_path, otf())
    fonts = "fonts: {text: ./Creek.otf, digits: Fira Sans Bold, fallback: Fira Sans Regular}\n"
    words = JOB.replace("like posts.", "like Ω.").replace("trim:", f"{fonts}trim:")
    assert main(["make", str(write_job(tmp_path, words, low=1, high=1))]) == 0
    err = capsys.readouterr().err
    assert 'is set in "Fira Sans Regular", the fallback, first on page' in err
    assert err.count("the fallback") == 1
    pdf = Printed((tmp_path / "build/book.pdf").read_bytes())
    chars = [char for at in range(len(pdf)) for char in pdf.chars(at)]
    used = {char.font.rpartition("+")[2] for char in chars}
    assert {"Creek-Regular", "FiraSans-Bold", "FiraSans-Regular"} <= used
    assert not {"Spectral-Regular", "Spectral-Light"} & used
    omegas = {char.font for char in chars if char.text == "Ω"}
    assert {each.rpartition("+")[2] for each in omegas} == {"FiraSans-Regular"}


@pytest.mark.parametrize(
    ("fonts", "said"),
    [
        ("fonts: ./Nowhere.otf", '6:8: there is no file "./Nowhere.otf"'),
        ("fonts: ../Creek.otf", "expected a font inside the folder"),
        ("fonts: {bold: Locked.otf}", '"Locked.otf": the font\'s maker does not allow'),
        ("fonts: {text: Spectrel Regular}", 'did you mean "Spectral Regular"'),
        ("fonts: {words: Spectral Regular}", 'unknown key "words"'),
    ],
)
def test_a_font_that_can_not_be_had_is_told_at_its_line(tmp_path, capsys, fonts, said):
    saved(tmp_path, otf(fs_type=2), "Locked.otf")
    path = write_job(tmp_path, JOB.replace("trim:", f"{fonts}\ntrim:"))
    assert main(["make", str(path)]) == 2
    err = capsys.readouterr().err
    assert said in err
    assert "book.yaml:6:" in err


def test_a_sheet_has_fonts_too_and_those_of_the_machine_where_it_says_so(tmp_path, monkeypatch):
    (tmp_path / "machine").mkdir()
    path = saved(tmp_path / "machine", otf(name="Reed"), "some-name.otf")
    monkeypatch.setattr(system_fonts, "folders", lambda: (tmp_path / "machine",))
    system_fonts._known.cache_clear()
    sheet = tmp_path / "mine.yaml"
    sheet.write_text("like: paperback\nfonts: {text: Reed, system: true}\n")
    style = style_of(sheet, "mine.yaml")
    assert style.page.faces.prose.roman == style.page.faces.title.font == f"{OWN_FILE}{path}"
    assert style.page.faces.prose.italic == "Spectral Italic"
    assert style.board.digits.given == style.page.faces.number.font == "Fira Sans Medium"
    sheet.write_text("like: paperback\nfonts: {text: Reed}\n")
    with pytest.raises(Unreadable, match="system: true looks among the fonts of this machine"):
        style_of(sheet, "mine.yaml")
    system_fonts._known.cache_clear()
