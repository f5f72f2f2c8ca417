"""Style sheets: the four shipped ones, sheets of one's own, and every slip told at its place."""

import pytest

from layout.shipped import shipped_styles, shipped_words
from layout.style.style import Style, read_style, shipped_style_names, style_of
from tests.support.drawn import STYLES
from verify.reading.node import Place
from verify.reading.problems import Unreadable


def own(tmp_path, text):
    (tmp_path / "mine.yaml").write_text(text)
    return style_of(tmp_path / "mine.yaml", "mine.yaml")


def problems(tmp_path, text):
    with pytest.raises(Unreadable) as error:
        own(tmp_path, text)
    return [str(problem) for problem in error.value.problems]


@pytest.mark.parametrize("name", STYLES)
def test_the_shipped_sheets_are_read(name):
    assert isinstance(read_style(name), Style)


def test_their_names():
    assert set(STYLES) <= set(shipped_style_names())
    assert shipped_words().parent == shipped_styles()


def test_a_sheet_like_another_changes_only_what_it_says(tmp_path):
    text = "like: paperback\nboard:\n  marks:\n    trails:\n      thermometer: {bulb: 70%}\n"
    mine, base = own(tmp_path, text), read_style("paperback")
    trails, theirs = mine.board.marks.trails, base.board.marks.trails
    assert trails["thermometer"].bulb == pytest.approx(0.7)
    assert trails["thermometer"].width == theirs["thermometer"].width
    assert trails["arrow"] == theirs["arrow"]
    assert mine.page == base.page


def test_an_unknown_key_is_told_with_its_place_and_the_nearest(tmp_path):
    text = "like: paperback\nboard:\n  digits:\n    given: Fira Sans Medium\n    hieght: 40%\n"
    (line,) = problems(tmp_path, text)
    assert line.startswith("mine.yaml:5:5: ")
    assert '"hieght"' in line
    assert '"height"' in line


def test_all_problems_are_told_at_once(tmp_path):
    text = """\
like: paperback
board:
  lines:
    hairline: {of-cell: much}
    box: {of-cell: 4%, least: 90mm}
  digits:
    given: Fira Sans Mediun
  marks:
    trails:
      thermometr: {bulb: 70%}
  colours: {}
"""
    lines = problems(tmp_path, text)
    places = [line.split(": ")[0] for line in lines]
    assert {f"mine.yaml:{n}" for n in (4, 5, 7, 10, 11)} <= {p.rsplit(":", 1)[0] for p in places}
    assert any('"Fira Sans Medium"' in line for line in lines)
    assert any('"thermometer"' in line for line in lines)


@pytest.mark.parametrize(
    ("key", "value", "expected"),
    [
        ("leaf", "12mm", "0.03mm to 0.4mm"),
        ("leaf", "0", "0.03mm to 0.4mm"),
        ("leaf", "thick", "0.03mm to 0.4mm"),
        ("hidden", "80%", "0% to 50%"),
        ("hidden", "-5%", "0% to 50%"),
        ("most", "9in", "0mm to 25mm"),
        ("most", ".inf", "0mm to 25mm"),
    ],
)
def test_an_absurd_binding_is_told_at_its_place(tmp_path, key, value, expected):
    text = f"like: paperback\npage:\n  binding:\n    {key}: {value}\n"
    (line,) = problems(tmp_path, text)
    assert line.startswith(f"mine.yaml:4:{7 + len(key)}: ")
    assert expected in line


def test_a_missing_key_is_told(tmp_path):
    assert any(
        "the key" in line and "missing" in line for line in problems(tmp_path, "board: {}\n")
    )


def test_a_sheet_that_is_a_list_is_told(tmp_path):
    assert problems(tmp_path, "- 1\n")


@pytest.mark.parametrize("like", ["paperbck", "[a]", "''"])
def test_a_sheet_like_none_that_is_known_is_told(tmp_path, like):
    lines = problems(tmp_path, f"like: {like}\n")
    assert any(line.startswith("mine.yaml:1:7: ") for line in lines)


def test_a_style_that_is_none_is_told_at_the_job_s_place():
    with pytest.raises(Unreadable) as error:
        read_style("paperbak", place=Place("book.yaml", 8, 8))
    (problem,) = error.value.problems
    assert str(problem).startswith("book.yaml:8:8: ")
    assert '"paperback"' in problem.message


def test_a_sheet_of_one_s_own_lies_within_the_job_s_folder(tmp_path):
    (tmp_path / "job").mkdir()
    (tmp_path / "mine.yaml").write_text("like: newsprint\n")
    (tmp_path / "job" / "mine.yaml").write_text("like: newsprint\n")
    assert read_style("mine.yaml", tmp_path / "job") == read_style("newsprint")
    for name in ("../mine.yaml", str(tmp_path / "mine.yaml")):
        with pytest.raises(Unreadable, match="outside the folder"):
            read_style(name, tmp_path / "job")


def test_a_link_out_of_the_job_s_folder_is_refused(tmp_path):
    (tmp_path / "job").mkdir()
    (tmp_path / "mine.yaml").write_text("like: newsprint\n")
    (tmp_path / "job" / "link.yaml").symlink_to(tmp_path / "mine.yaml")
    with pytest.raises(Unreadable, match="outside the folder"):
        read_style("link.yaml", tmp_path / "job")


def test_a_sheet_that_is_not_there_is_told(tmp_path):
    with pytest.raises(Unreadable, match=r"absent\.yaml"):
        read_style("absent.yaml", tmp_path)


def test_an_unknown_kind_of_mark_is_told_with_its_place_and_the_nearest(tmp_path):
    look = "thermometer: {bulb: 70%}"
    (line,) = problems(tmp_path, f"like: paperback\nboard:\n  marks:\n    trials:\n      {look}\n")
    assert line.startswith("mine.yaml:4:5: ")
    assert '"trails"' in line


@pytest.mark.parametrize(
    ("told", "line"),
    [
        ("{rgb: 336699}", '2:9: found the key "rgb", expected cyan, magenta, yellow and black'),
        ("{cyan: 90%, magenta: 90%, yellow: 80%, black: 50%}", "2:8: found 310% of ink in all"),
        ("{name: Mud}", "2:8: found 0% of ink in all"),
        ("{name: Black, cyan: 50%}", '2:8: found the name "Black", expected one that no plate'),
        ("{cyan: 120%}", "2:15: "),
    ],
)
def test_what_no_press_has_ink_for_is_told_at_its_line(tmp_path, told, line):
    (found,) = problems(tmp_path, f"board:\n  ink: {told}\nlike: paperback\n")
    assert found.startswith(f"mine.yaml:{line}")


@pytest.mark.parametrize("ink", ["", "board: {ink: {cyan: 60%, black: 40%}}\n"])
def test_titles_are_in_a_spot_ink_or_black(tmp_path, ink):
    """Of several inks edges show where plates shift."""
    (found,) = problems(tmp_path, f"like: paperback\npage:\n  heads-in-ink: true\n{ink}")
    assert found.startswith("mine.yaml:3:17: ")
    assert "a spot ink, with a name" in found
