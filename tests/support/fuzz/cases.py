"""Cases: a desk with the files of an editor, one of them hostile, and a command that meets it.

A case is told by its kind, its number and the seed: `case_of` gives the same one each time.
"""

import random
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from tests.support.books import manifest
from tests.support.checkout import ROOT
from tests.support.fuzz.mutations import Dice, mutated
from tests.support.seasons import small_bank
from verify.rules import RULES

BOOK: Final = """\
job: book
title: The Small Almanac
subtitle: Puzzles for low tide
author: Edited by Ida Marsh
imprint:
  publisher: Tidewrack Press
  edition: First edition
  isbn: 979-4-1706-0345-1
  others: [Made up from first to last]
language: en
trim: 6x9in
bleed: 3mm
style: paperback
order: by-grade
ungraded: print
sections:
  - title: Low Water
    intro: |
      The creeks have *drained*, and the herons stand about.

      - like posts
    puzzles: [puzzles/one.yaml, puzzles/two.yaml]
    per-page: 1
  - title: High Water
    puzzles: [puzzles/th*.yaml]
    per-page: 2
back:
  hints: 2
  walk: [two]
  answers: {per-page: 4}
output:
  pdf: build/book.pdf
  standard: plain
"""

WORKSHEET: Final = """\
job: worksheet
title: Low water
class: Class 4
instructions: Fill in the grid.
reader: young
page: A4
style: classroom
puzzles: [puzzles/one.yaml, puzzles/t*.yaml]
per-page: 2
name-line: true
date-line: false
helpers: edges
symbols: as-written
forms: 2
ladder: 1
first-page: true
key: separate
output: {pdf: build/sheet.pdf, key: build/key.pdf}
"""

COLUMN: Final = """\
job: column
title: Small Water
style: newsprint
columns: 2
measure: {column: 40mm, gutter: 4mm}
puzzles: [bank/*.txt]
schedule:
  from: 2027-02-26
  issues: 4
  days: mon-sun
  except: [2027-02-27]
  grades: {mon-sat: calm}
  first-number: 7
specials:
  - {days: sun, title: Sunday, width: 70mm, puzzles: [puzzles/*.yaml]}
show: [heading, date, number, constructor, grade, grid, rules, previous-answer]
note: Answers tomorrow
output:
  folder: build
  name: "{date}-{id}"
  formats: [svg, html, txt]
  dpi: 300
  one-bit: true
"""

MADE: Final = "daily.yaml"
"""The job of a column that was made before."""

STYLE: Final = """\
like: paperback
board:
  lines:
    hairline: {of-cell: 2%, least: 0.8pt, most: 1.2pt}
  digits:
    given: Fira Sans Medium
    height: 49%
  marks:
    trails:
      thermometer: {ink: 20%, bulb: 80%}
page:
  margins: {inside: 12%, outside: 13%}
  binding: {leaf: 0.1mm, hidden: 20%, most: 5mm}
  cells: {smallest: 4mm}
  faces:
    title: {font: Spectral Light, size: 25pt, leading: 29pt}
column:
  gap: 2mm
  faces:
    heading: {font: Spectral Medium, size: 16pt, leading: 18pt}
"""

PLAIN: Final = {
    "puzzles/one.yaml": manifest(1, "One"),
    "puzzles/two.yaml": manifest(2, "Two"),
    "puzzles/three.yaml": manifest(3, "Three"),
    "bank/creeks.txt": "# creeks\n" + "\n".join(small_bank(8)) + "\n",
    "mine.yaml": STYLE,
}
"""What lies on every desk."""

OBSTACLES: Final = (
    *("build/book.pdf/", "build/sheet.pdf/", "build/key.pdf/x", "build/2027-02-26-creeks-2.svg/"),
    *("build > ../outside", "build/book.pdf > ../../outside/secret.yaml", "build > build"),
    *("build/ledger.csv/", "build/ledger.csv > ../../outside/secret.yaml", "build > job.yaml"),
)
"""What may stand where a file is to be written."""

NAMES: Final = (
    *("puzzles/th\n.yaml", "puzzles/th:1:1.yaml", "puzzles/th{date}.yaml", "puzzles/th\u202e.yaml"),
    *(
        "puzzles/th\udcff.yaml",
        "puzzles/th'\".yaml",
        "puzzles/th" + "x" * 240 + ".yaml",
        "bank/-.txt",
    ),
    *("puzzles/th .yaml", "puzzles/th\x1b[31m.yaml", "puzzles/Three.yaml", "bank/\udcff\n.txt"),
)
"""Names that a puzzle's file may have where the job lists it by a pattern."""


@dataclass(frozen=True, slots=True)
class Case:
    """A command, the files that it finds, and which of them is hostile.

    Where a column is `made` before, its job, files and ledger lie there, too. Where a file
    will be written an `obstacle` may stand: a folder, or a link (`from > to`).
    """

    kind: str
    number: int
    words: tuple[str, ...]
    hostile: str
    files: Mapping[str, bytes]
    made: bool = False
    obstacle: str = ""

    def __str__(self) -> str:
        return f"{self.kind} {self.number}: reglet {' '.join(self.words)} ({self.hostile})"


def case_of(kind: str, number: int, seed: int) -> Case:
    """The case of that number."""
    return replace(KINDS[kind](random.Random(f"{seed} {kind} {number}")), number=number)


def _case(
    kind: str, words: str, hostile: str, data: bytes, more: Mapping[str, str], made: bool = False
) -> Case:
    files = {name: text.encode() for name, text in {**PLAIN, **more}.items()}
    return Case(kind, 0, tuple(words.split()), hostile, files | {hostile: data}, made)


def _manifest_case(dice: Dice) -> Case:
    """A puzzle is checked, drawn or walked."""
    texts = manifests()
    data = mutated(dice.choice(texts), texts, dice)
    words = dice.choice(
        (
            *("check puzzle.yaml --conflicts 2000 --seconds 2 --jobs 1",) * 4,
            *("draw puzzle.yaml -o build/x.svg --draft --quiet --seconds 4",) * 3,
            "draw puzzle.yaml -o build/x.pdf --style large-print --seconds 4",
            "draw puzzle.yaml -o x.png --answer --dpi 72 --seconds 4",
            "draw puzzle.yaml -o x.svg --step 2 --seconds 4",
            "walk puzzle.yaml --seconds 4",
            "walk puzzle.yaml --report --json --seconds 4",
        )
    )
    return _case("manifests", words, "puzzle.yaml", data, {})


def _job_case(dice: Dice) -> Case:
    """A job of one of the three kinds; a column may have been made before."""
    texts = (BOOK, WORKSHEET, COLUMN, *demo_jobs())
    text = texts[dice.randrange(3)]
    made = text == COLUMN and dice.random() < 0.4
    more = {"job.yaml": text}
    more_words = dice.choice(("", "", "", "--json", "--quiet", "--puzzles ."))
    words = f"make job.yaml --jobs 1 --seconds 4 {more_words}"
    if text != COLUMN and dice.random() < 0.3:
        name = dice.choice(("puzzles/two.yaml", "puzzles/three.yaml"))
        case = _case("jobs", words, name, mutated(PLAIN[name], examples(), dice), more)
    else:
        case = _case("jobs", words, "job.yaml", mutated(text, texts, dice), more, made)
    if dice.random() < 0.1:
        case = replace(case, obstacle=dice.choice(OBSTACLES))
    if dice.random() < 0.1:
        name = dice.choice(NAMES)
        text = PLAIN["bank/creeks.txt"] if name.endswith(".txt") else manifest(0)
        case = replace(case, files={**case.files, name: text.encode()})
    return case


def _ledger_case(dice: Dice) -> Case:
    """A column whose ledger is not what it was; the ledger's text comes with the first run."""
    words = dice.choice(("", "", "--from 2027-03-01", "--json"))
    longer = COLUMN.replace("issues: 4", "issues: 5")
    more = {"job.yaml": longer if dice.random() < 0.7 else COLUMN}
    data = mutated(ledger_text(), (ledger_text(),), dice)
    command = f"make job.yaml --jobs 1 --seconds 4 {words}"
    return _case("ledgers", command, "build/ledger.csv", data, more, made=True)


def _bank_case(dice: Dice) -> Case:
    """A bank is checked, or the days of a column are chosen from it."""
    texts = banks()
    data = mutated(dice.choice(texts), texts, dice)
    if dice.random() < 0.3:
        return _case(
            "banks", "make job.yaml --jobs 1", "bank/creeks.txt", data, {"job.yaml": COLUMN}
        )
    words = "check bank/creeks.txt --conflicts 2000 --seconds 2 --jobs 1"
    return _case("banks", words, "bank/creeks.txt", data, {})


def _style_case(dice: Dice) -> Case:
    """A style sheet of one's own, for one image, a column, or a whole job."""
    texts = (STYLE, STYLE, STYLE, *shipped_sheets())
    data = mutated(dice.choice(texts), texts, dice)
    book, sheet = (
        BOOK.replace("paperback", "mine.yaml"),
        WORKSHEET.replace("classroom", "mine.yaml"),
    )
    column = COLUMN.replace("newsprint", "mine.yaml")
    show = "--show heading,grade,grid,rules --heading Tide"
    words, job = dice.choice(
        (
            *(("draw puzzle.yaml -o build/x.svg --style mine.yaml", ""),) * 3,
            ("draw puzzle.yaml -o build/x.pdf --style mine.yaml --answer", ""),
            ("draw puzzle.yaml -o x.png --style mine.yaml --step 1 --dpi 72", ""),
            (f"draw puzzle.yaml -o x.svg --style mine.yaml {show}", ""),
            *(("make job.yaml --jobs 1", each) for each in (book, book, sheet, column)),
        )
    )
    more = {"puzzle.yaml": dice.choice(examples()), "job.yaml": job}
    return _case("styles", words, "mine.yaml", data, more)


KINDS: Final[Mapping[str, Callable[[Dice], Case]]] = {
    "manifests": _manifest_case,
    "jobs": _job_case,
    "ledgers": _ledger_case,
    "banks": _bank_case,
    "styles": _style_case,
}


@cache
def examples() -> tuple[str, ...]:
    """A small puzzle for every rule."""
    return tuple(rule.example for rule in RULES)


@cache
def manifests() -> tuple[str, ...]:
    """Every manifest of the demo books, and the examples twice: they are quicker."""
    demo = (_texts("books/*/puzzles/*/*.yaml"), _texts("books/daily/sundays/*.yaml"))
    return (*examples(), *examples(), *demo[0], *demo[1])


@cache
def demo_jobs() -> tuple[str, ...]:
    """The jobs of the demo books."""
    return _texts("books/*/*.yaml")


@cache
def shipped_sheets() -> tuple[str, ...]:
    """The style sheets that come with the program."""
    return _texts("styles/*.yaml")


@cache
def banks() -> tuple[str, ...]:
    """Small banks of every size."""
    creeks = (ROOT / "books/daily/bank/creeks.txt").read_text("utf-8").splitlines()
    return (PLAIN["bank/creeks.txt"], "\n".join(creeks[:5]) + "\n", "\n".join(small_bank(3)))


@cache
def ledger_text() -> str:
    """The ledger of the column, as its first run writes it."""
    from tests.support.fuzz.trial import made_column

    return made_column()["build/ledger.csv"].decode()


def _texts(pattern: str) -> tuple[str, ...]:
    return tuple(path.read_text("utf-8") for path in sorted(ROOT.glob(pattern)))
