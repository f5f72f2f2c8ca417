"""A day for the web desk: valid HTML, readable on a phone without a script, and whole in words."""

import json
import re
import subprocess
from dataclasses import replace
from datetime import date
from html import escape, unescape
from io import BytesIO
from typing import Any

import html5lib
import pytest
from PIL import Image

from layout.language.words import read_words
from layout.pages.column.column import ColumnDay, Previous
from layout.pages.column.fragment import in_words, web_fragment
from layout.style.style import read_style
from tests.support.books import OPEN
from tests.support.browser import CHROMIUM, browser
from tests.support.seasons import BANK
from verify.manifest.read import puzzle_from_text
from verify.proof.verdict import prove
from verify.walk.report.grade import Band

PHONE = 360
"""The width of a small phone's page, in pixels."""

SMALL = "id: lock\nconstructor: Ida & Tam Marsh\nkind: sudoku\nsize: 4\nrules:\n"
SMALL += "  thermometer: [r3c1 n]\ngivens: |\n  " + "\n  ".join(OPEN) + "\n"

LARGE = BANK.read_text().splitlines()[1]
CLASSIC = "id: creek\nkind: sudoku\nsize: 9\ngivens: |\n"
CLASSIC += "\n".join(f"  {LARGE[at : at + 9]}" for at in range(0, 81, 9)) + "\n"


def day_of(text, language="en", heading="Slack Water"):
    puzzle = puzzle_from_text(text)
    (answer,) = prove(puzzle).answers
    note = "Answers < tomorrow." if language == "en" else ""
    return ColumnDay(heading, date(2027, 3, 7), 224, puzzle, Band.STEADY, answer, None, note)


def fragment(text, language="en", heading="Slack Water"):
    day = day_of(text, language, heading)
    return web_fragment(day, read_style("newsprint"), read_words(language), language, 108.0)


def parsed(text):
    """The elements of a fragment; html5lib raises for whatever the standard calls an error."""
    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parseFragment(text)


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("text", [SMALL, CLASSIC])
def test_a_fragment_is_valid(language, text):
    tree = parsed(fragment(text, language))
    (article,) = list(tree)
    assert (article.tag, article.get("lang")) == ("article", language)
    ids = [each.get("id") for each in tree.iter() if each.get("id")]
    assert len(ids) == len(set(ids))
    assert not [each for each in tree.iter() if each.tag in ("script", "style", "link")]


def test_two_days_on_one_page_share_no_id():
    pages = [fragment(text) for text in (SMALL, CLASSIC)]
    ids = [set(re.findall(r' id="([^"]+)"', page)) for page in pages]
    assert all(ids)
    assert not ids[0] & ids[1]


def test_the_answer_is_folded_away():
    tree = parsed(fragment(SMALL))
    (details,) = tree.iter("details")
    assert details.get("open") is None
    assert [child.tag.split("}")[-1] for child in details] == ["summary", "svg", "div"]
    shown = [each for each in tree.iter() if each.tag.endswith("}svg")]
    assert len(shown) == 2
    assert details.find("div").find("table") is not None


def table_of(table):
    """What stands in a table, by the words of its row and its column."""
    head, body = table.find("thead"), table.find("tbody")
    columns = [each.text for each in head.find("tr").findall("th")]
    assert all(each.get("scope") == "col" for each in head.iter("th"))
    found = {}
    for row in body.findall("tr"):
        (named,) = row.findall("th")
        assert named.get("scope") == "row"
        cells = row.findall("td")
        assert len(cells) == len(columns)
        for column, cell in zip(columns, cells, strict=True):
            if cell.text:
                found[named.text, column] = cell.text
    return found


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize(("text", "size"), [(SMALL, 4), (CLASSIC, 9)])
def test_tables_hold_every_digit_at_its_place(language, text, size):
    """The givens beside the puzzle; beside the answer, all of it."""
    day = day_of(text, language)
    row, column = {"en": ("row", "column"), "de": ("Zeile", "Spalte")}[language]
    puzzle, answer = map(table_of, parsed(fragment(text, language)).iter("table"))
    for grid, table in ((day.puzzle.givens, puzzle), (day.answer, answer)):
        wanted = {
            (f"{row} {at // size + 1}", f"{column} {at % size + 1}"): str(digit)
            for at, digit in enumerate(grid)
            if digit
        }
        assert table == wanted


def test_marks_are_told_and_their_cells_explained():
    (first, *_) = parsed(fragment(SMALL)).iter("div")
    told = [each.text for each in first.findall("p")]
    assert told[0] == "Thermometers: r3c1 r2c1."
    assert told[1].replace("\u00a0", " ") == "r3c1 is the cell in row 3, column 1."
    (classic, *_) = parsed(fragment(CLASSIC)).iter("div")
    assert classic.findall("p") == []
    assert "r3c1 is the cell in" in in_words(day_of(SMALL), read_words("en"))
    assert "is the cell in" not in in_words(day_of(CLASSIC), read_words("en"))


@pytest.mark.parametrize("due", ["same-day", "next-day", "none"])
def test_the_answer_that_is_due_is_there_and_no_other(due):
    """Of the day itself, of the day before, or neither; in the page and in words."""
    day, before = day_of(CLASSIC), day_of(SMALL)
    earlier = Previous(223, before.puzzle, before.answer, date(2027, 3, 6))
    day = replace(day, previous=earlier, due=due)
    words = read_words("en")
    page = web_fragment(day, read_style("newsprint"), words, "en", 108.0)
    told = in_words(day, words).replace("\u00a0", " ")
    sizes = [len(table_of(each)) for each in parsed(page).iter("table")]
    assert sizes[1:] == {"same-day": [81], "next-day": [16], "none": []}[due]
    assert ("Answer to no. 223, Saturday, 6 March" in told) == (due == "next-day")
    assert ("Row 1: 1 2 3 4." in told) == (due == "next-day")
    assert ("Answer:" in told) == (due == "same-day")


def test_what_stands_around_the_grid():
    text = fragment(SMALL, heading="Herons & <Sluices>")
    words = re.sub(r"\s+", " ", "".join(parsed(text).itertext()))
    for expected in (
        "Herons & <Sluices>, No. 224",
        "Sunday, 7 March 2027 · steady · by Ida & Tam Marsh",
        "the digits grow from the bulb",
        "Answers < tomorrow.",
    ):
        assert expected in words.replace("\u00a0", " ")
    assert 'datetime="2027-03-07"' in text


def test_a_puzzle_without_a_grade_is_said_to_have_none_by_no_word():
    day = replace(day_of(SMALL), grade=Band.UNGRADED)
    text = web_fragment(day, read_style("newsprint"), read_words("en"), "en", 108.0)
    words = re.sub(r"\s+", " ", "".join(parsed(text).itertext())).replace("\u00a0", " ")
    assert "Sunday, 7 March 2027 · by Ida" in words
    assert "Sunday, 7 March 2027, by Ida" in in_words(day, read_words("en")).replace("\u00a0", " ")


def test_pictures_bring_no_name_space_that_a_page_may_not_have():
    # HTML, 13.1.2.3 (from memory): of names with a colon only those of XLink and XML may stand.
    names = set(re.findall(r"\s([\w-]+:[\w-]+)=", fragment(SMALL)))
    assert names <= {"xmlns:xlink", "xlink:href", "xml:lang", "xml:space"}


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_day_in_words_tells_all_that_the_picture_shows(language):
    day = day_of(SMALL, language)
    text = in_words(day, read_words(language))
    for cell, digit in enumerate(day.puzzle.givens):
        row, column = divmod(cell, 4)
        line = next(line for line in text.splitlines() if re.match(rf"\w+ {row + 1}:", line))
        assert (re.search(rf"\b{digit} in \w+ {column + 1}\b", line) is not None) == bool(digit)
    assert "r3c1 r2c1" in text
    assert text.count(" ".join(day.puzzle.rows_of(day.answer)[3])) == 1


MEASURE = """\
<!doctype html><html lang="en"><head><meta charset="utf-8"><title>t</title></head><body>
<iframe width="{phone}" height="600" style="border: 0" srcdoc="{page}"></iframe>
<pre id="out"></pre><script>
addEventListener("load", () => {{
  const page = document.querySelector("iframe").contentDocument, view = page.defaultView;
  const measured = () => ({{
    wide: page.documentElement.scrollWidth,
    view: view.innerWidth,
    deep: page.documentElement.scrollHeight,
    sizes: [...page.querySelectorAll("h2, h3, p, time, span, summary, small")].map(
      each => parseFloat(view.getComputedStyle(each).fontSize)),
    tap: page.querySelector("summary").getBoundingClientRect().height,
    shown: [...page.querySelectorAll("svg")].map(each => each.checkVisibility()),
    pictures: [...page.querySelectorAll("svg")].map(
      each => [each.getBoundingClientRect().width, each.getBoundingClientRect().height]),
  }});
  const closed = measured();
  page.querySelector("details").open = true;
  document.getElementById("out").textContent = JSON.stringify([closed, measured()]);
}});
</script></body></html>
"""

PAGE = """\
<!doctype html><html lang="en" style="font-size: {size}"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width"><title>t</title></head><body>{body}</body></html>
"""


def looked_at(body, size, folder):
    """What a browser makes of a page on a phone, with the answer folded away and unfolded."""
    page = PAGE.format(size=size, body=body)
    path = folder / "page.html"
    path.write_text(MEASURE.format(phone=PHONE, page=escape(page)), encoding="utf-8")
    words = ["--headless", "--no-sandbox", "--disable-gpu", "--dump-dom", path.as_uri()]
    words += [f"--user-data-dir={folder / 'browser'}", "--virtual-time-budget=4000"]
    assert CHROMIUM
    run = subprocess.run([CHROMIUM, *words], capture_output=True, text=True, timeout=120)
    found = re.search(r'<pre id="out">(.+?)</pre>', run.stdout, re.DOTALL)
    assert found, run.stderr[-500:]
    return json.loads(unescape(found[1]))


@pytest.mark.skipif(CHROMIUM is None, reason="there is no browser to look with")
@pytest.mark.parametrize(("text", "size"), [(SMALL, "10px"), (CLASSIC, "16px")])
def test_a_phone_shows_it_whole_and_legible(text, size, tmp_path):
    closed, opened = looked_at(fragment(text), size, tmp_path)
    for state in (closed, opened):
        assert state["view"] == PHONE
        assert state["wide"] <= PHONE
        assert min(state["sizes"]) >= 14
        assert state["tap"] >= 24
    assert (closed["shown"], opened["shown"]) == ([True, False], [True, True])
    wide, high = closed["pictures"][0]
    assert wide == pytest.approx(high, rel=0.01)
    assert wide > 0.9 * PHONE
    assert opened["pictures"][1][0] == pytest.approx(wide, abs=1)
    assert opened["deep"] > closed["deep"] + 0.9 * wide


def drawn_grid(svg, size):
    """What is drawn in the cells of an inline picture: rows of outlines, by where each stands.

    Glyphs of one outline have one name, so that an answer can be told without the words beside it.
    """
    uses = [each for each in svg.iter() if each.tag.split("}")[-1] == "use"]
    width, height = (float(side) for side in svg.get("viewBox").split()[2:])
    found = {}
    for use in uses:
        x, y = map(float, re.findall(r"-?[\d.]+", use.get("transform"))[:2])
        href = next(value for key, value in use.attrib.items() if "href" in str(key))
        found[int(y / height * size), int(x / width * size)] = href.rsplit("-", 1)[-1]
    return found


@pytest.mark.parametrize(("text", "size"), [(SMALL, 4), (CLASSIC, 9)])
def test_the_answer_is_drawn_with_a_digit_in_every_cell(text, size):
    day = day_of(text)
    puzzle, answer = (
        drawn_grid(each, size)
        for each in parsed(fragment(text)).iter()
        if each.tag.endswith("}svg")
    )
    cells = {divmod(cell, size): digit for cell, digit in enumerate(day.puzzle.givens) if digit}
    assert set(puzzle) == set(cells)
    assert set(answer) == {(row, column) for row in range(size) for column in range(size)}
    shapes = {}
    for cell, digit in enumerate(day.answer):
        given = bool(day.puzzle.givens[cell])
        shapes.setdefault((digit, given), set()).add(answer[divmod(cell, size)])
    assert all(len(each) == 1 for each in shapes.values())
    assert len({name for each in shapes.values() for name in each}) == len(shapes)


def test_symbols_and_names_that_are_marks_of_html_are_printed_as_they_are():
    signs = dict(zip("1234", '<>&"', strict=True))
    text = SMALL.replace("constructor: Ida & Tam Marsh", 'constructor: <b>Ida</b> & "Tam"')
    text = text.replace("thermometer: [r3c1 n]", "diagonals: falling")
    rows = ["".join(signs.get(symbol, symbol) for symbol in row) for row in OPEN]
    text = text.replace("\n  ".join(OPEN), "\n  ".join(map(" ".join, rows)))
    text = text.replace("size: 4", "size: 4\nsymbols: ['<', '>', '&', '\"']")
    text = text.replace("rules:\n  diagonals: falling\n", "")
    page = fragment(text, heading="<i>Sluices</i>")
    tree = parsed(page)
    assert not [each for each in tree.iter() if each.tag in ("b", "i")]
    words = re.sub(r"\s+", " ", "".join(tree.itertext())).replace("\u00a0", " ")
    *_, answer = tree.iter("table")
    first = [value for (row, _), value in table_of(answer).items() if row == "row 1"]
    assert first == ["<", ">", "&", '"']
    for expected in ("<i>Sluices</i>", "<b>Ida</b> &", "symbols <, >, &"):
        assert expected in words, expected


LIT = [
    {"prefers_color_scheme": "light"},
    {"prefers_color_scheme": "dark"},
    {"prefers_color_scheme": "dark", "forced_colors": "active"},
]

BOTH = """\
<!doctype html><html lang="en"><head><meta charset="utf-8"><title>t</title>
<meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark">
</head><body>{body}</body></html>
"""


@pytest.fixture(scope="module")
def seen(tmp_path_factory):
    """A browser, and a page with the fragment of a day."""
    folder = tmp_path_factory.mktemp("seen")
    path = folder / "page.html"
    path.write_text(BOTH.format(body=fragment(SMALL)), encoding="utf-8")
    with browser(folder) as found:
        yield found, path


RECTANGLES = """\
[...document.querySelectorAll("h2, summary, article > p, svg")].filter(each =>
  each.checkVisibility()).map(each => {
    const box = each.getBoundingClientRect();
    return [each.tagName, {x: box.x, y: box.y, width: box.width, height: box.height}];
  })
"""


@pytest.mark.skipif(CHROMIUM is None, reason="there is no browser to look with")
@pytest.mark.parametrize("lit", LIT, ids=["light", "dark", "forced"])
@pytest.mark.parametrize("width", [320, 768, 1280])
def test_it_is_seen_whole_at_any_width_and_in_any_light(seen, width, lit):
    """All words stand out from what is behind them, and a drawing brings its white along."""
    page, path = seen
    page.look_at(path, width, **lit)
    assert page.value("document.documentElement.scrollWidth") <= width
    shown = page.value(RECTANGLES)
    assert {tag.lower() for tag, _ in shown} == {"h2", "summary", "p", "svg"}
    for tag, box in shown:
        levels: Any = Image.open(BytesIO(page.picture(box))).convert("L").getextrema()
        assert levels[1] - levels[0] > 110, (tag, levels)
        if tag == "svg":
            assert levels[1] > 240
            assert box["width"] <= width


@pytest.mark.skipif(CHROMIUM is None, reason="there is no browser to look with")
def test_a_screen_reader_is_given_every_digit_at_its_place(seen):
    page, path = seen
    page.look_at(path, 768)
    nodes = {each["nodeId"]: each for each in page.spoken()}

    def role(node):
        return node.get("role", {}).get("value")

    def under(node, wanted):
        for child in map(nodes.get, node.get("childIds", [])):
            if child is not None:
                if role(child) in wanted:
                    yield child
                else:
                    yield from under(child, wanted)

    (table,) = [each for each in nodes.values() if role(each) == "table"]
    head, *rows = under(table, {"row"})
    assert [each["name"]["value"] for each in under(head, {"columnheader"})] == [
        f"column {number}" for number in range(1, 5)
    ]
    givens = day_of(SMALL).puzzle.givens
    for index, row in enumerate(rows):
        (named,) = under(row, {"rowheader"})
        assert named["name"]["value"] == f"row {index + 1}"
        cells = [each.get("name", {}).get("value", "") for each in under(row, {"cell"})]
        assert cells == [str(given or "") for given in givens[4 * index : 4 * index + 4]]
    assert len(rows) == 4
