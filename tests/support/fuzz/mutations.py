"""Seeded mutations of the files that an editor writes: slips, accidents, and ill will.

`mutated` changes a text a few times: as lines, as words, by what the grammar of YAML allows, by
pieces of other files of its kind; and now and then the bytes that it is saved as.
"""

import random
import re
from collections.abc import Callable, Sequence
from typing import Final, TypeAlias

Dice: TypeAlias = random.Random
Change: TypeAlias = Callable[[list[str], Sequence[str], Dice], None]
"""Changes the lines of a text in place; is given other texts of its kind."""

OFTEN: Final = (1, 1, 1, 1, 2, 2, 3, 5)
"""How often a text is changed: mostly once, so that not all is refused at the first look."""

BYTES_TOO: Final = 0.15
"""Share of the texts whose bytes are changed as well."""

NUMBERS: Final = (
    *("0", "-1", "-0", "1", "2", "3.5", "26", "99", "1000000", "1_000", "+5", "1.", ".5", "1e3"),
    *("99999999999999999999", "9" * 400, "1" * 5000, "1e999", "-1e999", "1e-320", "0x1F", "0o17"),
    *("nan", ".nan", ".inf", "-.inf", "inf", "٣", "３", "²", "½", "Ⅳ", "1,5", "5%", "-5%", "1e9%"),
)
LENGTHS: Final = ("0mm", "-3mm", "1e9mm", "1e400mm", "nanmm", "5 parsecs", "mm", "3 mm", "9" * 30)
EMPTY: Final = ("", "~", "null", "true", "false", "no", "[]", "{}", "''", '""', "|", ">", "-", "?")
STRUCTURES: Final = (
    *("[" * 40 + "]" * 40, "{a: " * 40 + "}" * 40, "[" * 3000, "[1, [2, [3]]]", "[,]", "{,}"),
    *("&a x", "*a", "&a [*a]", "{<<: *a}", "{<<: {a: b}}", "&a {b: &c {d: *c}}", "{? a : b}"),
    *("!!python/object/apply:os.system ['true']", "!!binary aGk=", "!!set {a}", "!own x", "!"),
    *("{a: 1, a: 2}", "{[a]: b}", "{}: {}", "[a, a, a]", "{1: 2}", "[null, ~]"),
)
STRINGS: Final = (
    *(
        "x" * 300,
        "x " * 3000,
        "{date}",
        "{0}",
        "{",
        "}",
        "%s",
        "$HOME",
        "<b>&amp;</b>",
        "*a*",
        "**",
    ),
    *("---", "...", "# c", ": ", "- -", "@x", "`x`", "%YAML 1.2", "'", '"', "\t", "\\", "\\n"),
    *('"\\0"', '"\\u202e x"', '"\\ud800"', '"\\U0010ffff"', '"\\x1b[31m"', '"\\n\\n"', '"\\u2028"'),
    *("a\x00b", "\x07", "\x1b[31m", "\u202eabc", "\u2028", "\ufeff", "e\u0301" * 50, "🌊" * 20),
    *("潮", "ﬁ", "İ", "ß", "\u200b", "\u00a0", "𝟗", "a\u00adb"),
)
PATHS: Final = (
    *(
        "../outside/x.pdf",
        "../outside/secret.yaml",
        "../outside",
        "{ROOT}/outside/x.pdf",
        "~/x.pdf",
    ),
    *("{ROOT}/outside/secret.yaml", "/etc/passwd", "/", ".", "..", "./", "link/x.pdf", "link"),
    *("link/secret.yaml", "links/*.yaml", "loop", "loop/x.pdf", "puzzles", "puzzles/../../x.pdf"),
    *("puzzles/**/*.yaml", "**/**/*.yaml", "*", "**", "[", "[!a]*", "puzzles/[", "?", "bank/*.txt"),
    *(
        "job.yaml",
        "mine.yaml",
        "puzzles/one.yaml",
        ".pdf",
        "a/.pdf",
        ".hidden/x.pdf",
        "x.pdf/y.pdf",
    ),
    *("job.yaml/x.pdf", "con.pdf", "a:b.pdf", "x" * 300 + ".pdf", "d/" * 200 + "x.pdf", "//x.pdf"),
    *("file:///x.pdf", "\\\\host\\x.pdf", "C:\\x.pdf", "build/\u202ex.pdf", "build", "build/a.PDF"),
)
CELLS: Final = (
    *("r0c0", "r1c99", "r99999999999c1", "r1c1..r25c25", "r9c9..r1c1", "r1c1..", "..", "R1C1"),
    *(
        "r1c1 1000000000e",
        "r1c1 0e",
        "r1c1 e w e w",
        "r1c1 " + "e " * 500,
        "r1c1 " * 500,
        "e",
        "r1",
    ),
    *(
        "r-1c1",
        "r１c１",
        "r1c1e",
        "r1c1 ne sw",
        "r1c1 r1c1",
        "top c1: 5",
        "[r1c1, [r1c2]]",
        "r01c01",
    ),
)
DATES: Final = (
    *("0000-00-00", "0001-01-01", "9999-12-31", "9999-W53", "2027-02-30", "2027-W00", "2027-13-01"),
    *("2027-03-01T00:00:00Z", "20270301", "2027-W09-8", "mon-mon", "sun-sat", "monday", "27-3-1"),
)
HOSTILE: Final = (
    *(NUMBERS, LENGTHS, EMPTY, STRUCTURES, STRINGS, PATHS, CELLS, DATES),
)  # a family is drawn first, so that each weighs the same

_WORD: Final = re.compile(r"[^\s,\[\]{}|:#]+")
_VALUE: Final = re.compile(r"(?<=:\s)[^\n]*$|(?<=- )[^\n]*$")


def mutated(text: str, others: Sequence[str], dice: Dice) -> bytes:
    """The bytes of a text that was changed as often as `OFTEN` says."""
    lines = text.split("\n")
    for _ in range(dice.choice(OFTEN)):
        dice.choice(GENTLE if dice.random() < 0.5 else CHANGES)(lines, others, dice)
    data = "\n".join(lines).encode("utf-8", "surrogatepass")
    return dice.choice(SAVINGS)(data, dice) if dice.random() < BYTES_TOO else data


def hostile(dice: Dice) -> str:
    """A value that stands where another was meant."""
    return dice.choice(dice.choice(HOSTILE))


def _at(lines: list[str], dice: Dice) -> int:
    """Any line; there always is one."""
    if not lines:
        lines.append("")
    return dice.randrange(len(lines))


def _swap_lines(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    one, two = _at(lines, dice), _at(lines, dice)
    lines[one], lines[two] = lines[two], lines[one]


def _drop_lines(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    at = _at(lines, dice)
    del lines[at : at + dice.choice((1, 1, 1, 2, 5))]


def _repeat_lines(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    at = _at(lines, dice)
    lines[at:at] = lines[at : at + dice.choice((1, 1, 2, 4))] * dice.choice((1, 1, 1, 2, 60, 2000))


def _indent(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    at = _at(lines, dice)
    lines[at] = dice.choice((" ", "  ", "\t", "      ")) + lines[at].lstrip(dice.choice((" ", "")))


def _cut_line(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    at = _at(lines, dice)
    lines[at] = lines[at][: dice.randrange(len(lines[at]) + 1)]


def _replace(pattern: re.Pattern[str]) -> Change:
    """Puts a hostile value in the place of something that matches."""

    def change(lines: list[str], others: Sequence[str], dice: Dice) -> None:
        at = _at(lines, dice)
        matches = list(pattern.finditer(lines[at]))
        if matches:
            match = dice.choice(matches)
            lines[at] = lines[at][: match.start()] + hostile(dice) + lines[at][match.end() :]

    return change


def _swap_words(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """Exchanges two words of the text, or takes one of another text."""
    one, two = _at(lines, dice), _at(lines, dice)
    source = lines[two] if dice.random() < 0.5 else dice.choice(others)
    here, there = list(_WORD.finditer(lines[one])), _WORD.findall(source)
    if here and there:
        match = dice.choice(here)
        lines[one] = lines[one][: match.start()] + dice.choice(there) + lines[one][match.end() :]


def _edit_character(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    at = _at(lines, dice)
    column = dice.randrange(len(lines[at]) + 1)
    new = dice.choice(("", "", *"0123456789.,:;-_|[]{}()<>&*!%@#'\"`~^$?/\\ \tabcrexyzZ", "é", "٣"))
    lines[at] = lines[at][:column] + new + lines[at][column + dice.choice((0, 1)) :]


def _anchor(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """An anchor at one value, and an alias or a merge key elsewhere."""
    one, two = _at(lines, dice), _at(lines, dice)
    lines[one] = re.sub(r": ", ": &a ", lines[one], count=1)
    margin = lines[two][: len(lines[two]) - len(lines[two].lstrip())]
    lines.insert(two, margin + dice.choice(("<<: *a", "other: *a", "- *a", "<<: [*a, *a]")))


def _nest(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """Some lines go under a new key, or a long ladder of keys."""
    at = _at(lines, dice)
    deep = dice.choice((1, 2, 19, 20, 21, 300))
    end = min(len(lines), at + dice.choice((1, 3, 1000)))
    lines[at:end] = [" " * n + "k:" for n in range(deep)] + [" " * deep + x for x in lines[at:end]]


def block_at(lines: Sequence[str], at: int) -> int:
    """Where the piece of YAML ends that begins in a line: with the next that is not deeper."""
    margin = _margin(lines[at])
    end = at + 1
    while end < len(lines) and (not lines[end].strip() or _margin(lines[end]) > margin):
        end += 1
    return end


def _margin(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _graft(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A piece of another file of the kind, beside a piece of this one or in its place."""
    theirs = dice.choice(others).split("\n")
    since = dice.randrange(len(theirs))
    piece = theirs[since : block_at(theirs, since)]
    at = _at(lines, dice)
    shift = _margin(lines[at]) - _margin(piece[0])
    moved = [" " * max(0, _margin(x) + shift) + x.lstrip(" ") for x in piece]
    lines[at : block_at(lines, at) if dice.random() < 0.6 else at] = moved


def _move_piece(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A piece moves elsewhere in its file, as deep as what stands there."""
    at = _at(lines, dice)
    end = block_at(lines, at)
    piece = lines[at:end]
    if dice.random() < 0.7:
        del lines[at:end]
    to = _at(lines, dice)
    shift = _margin(lines[to]) - _margin(piece[0])
    lines[to:to] = [" " * max(0, _margin(x) + shift) + x.lstrip(" ") for x in piece]


def _nudge(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """Another number in the place of one, mostly a near one."""
    at = _at(lines, dice)
    numbers = list(re.finditer("[0-9]+", lines[at]))
    if numbers:
        match = dice.choice(numbers)
        value = int(match[0][:9])
        new = dice.choice((value + 1, max(0, value - 1), 2 * value, dice.randrange(30), 10 * value))
        lines[at] = f"{lines[at][: match.start()]}{new}{lines[at][match.end() :]}"


def _open_cell(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A digit in a grid, or a number elsewhere, becomes an open cell; or an open one a digit."""
    at = _at(lines, dice)
    cells = list(re.finditer(r"(?<=[ .0-9])[.0-9](?=[ .0-9]|$)", lines[at]))
    if cells:
        match = dice.choice(cells)
        new = dice.choice("..123456789")
        lines[at] = lines[at][: match.start()] + new + lines[at][match.end() :]


def _turn(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A word of the language of cells, of yes and no, or of a choice becomes another."""
    at = _at(lines, dice)
    for family in dice.sample(FAMILIES, len(FAMILIES)):
        words = list(re.finditer(rf"(?<![\w-])({'|'.join(family)})(?![\w-])", lines[at]))
        if words:
            match = dice.choice(words)
            lines[at] = lines[at][: match.start()] + dice.choice(family) + lines[at][match.end() :]
            return


def _extreme(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A key gets a value at the end of what it may have."""
    keys = [(at, key) for at, line in enumerate(lines) for key in EXTREMES if f"{key}:" in line]
    if keys:
        at, key = dice.choice(keys)
        value = dice.choice(EXTREMES[key])
        lines[at] = re.sub(rf"(?<![\w-]){key}: *[^,}}\n]*", lambda _: f"{key}: {value}", lines[at])


def _other_size(lines: list[str], others: Sequence[str], dice: Dice) -> None:
    """A board of another size, without the grids that would not fit it."""
    for at, line in enumerate(lines):
        if line.startswith("size:"):
            lines[at] = f"size: {dice.choice((1, 2, 3, 4, 5, 6, 8, 9, 10, 12, 16, 20, 25))}"
    for at in [n for n, line in enumerate(lines) if line.startswith(("givens:", "answer:"))][::-1]:
        del lines[at : block_at(lines, at)]


EXTREMES: Final = {
    "dpi": (300, 2400),
    "width": ("10mm", "1000mm", "25mm"),
    "depth": ("10mm", "60mm", "5000mm"),
    "issues": (1, 2000),
    "forms": (1, 3, 26),
    "ladder": (2, 3),
    "per-page": (1, 2, 4, 6, 9, 12),
    "hints": (0, 5),
    "bleed": ("0mm", "10mm"),
    "columns": (1, 16),
    "measure": ("us-standard", "{column: 5mm, gutter: 30mm}", "{column: 200mm, gutter: 0mm}"),
    "trim": ("88x88mm", "500x500mm", "88x500mm", "500x88mm", "A6", "legal"),
    "name": ('"{date}"', '"{id}"', '"{number}-{grade}"', '"{week}{day}"', "one", '"{id}{id}"'),
    "folder": ("bank", "puzzles", "build/deep/er", "builds", "build/ledger.csv"),
    "pdf": ("build/key.pdf", "x.pdf", "puzzles/one.yaml.pdf", "build/build/b.pdf"),
    "first-number": (1, 9_999_999),
    "from": ("0001-01-01", "9999-12-31", "9999-W52", "2027-W09"),
    "until": ("9999-12-31", "2027-02-25", "2027-12-31"),
    "symbols": ("shapes", "ABCD", "ÄÖÜß", "IIII", "1111", '"a b "', "♠♥♦♣", "אבגד", '"1 2 10 x"'),
    "title": ("W" * 200, '"a\nb"', "ﷺ" * 20, "éﬁ", "⁧x", "M " * 99, '"<x>&"]]>"'),
    "language": ("de", "de-AT", "en-US"),
    "size": (1, 2, 3, 5, 7, 16, 25),
    "sum": (0, 1, 45, 999, 10**9),
    "leaf": ("0.4mm",),
    "hidden": ("50%",),
    "most": ("25mm",),
    "inside": ("30%", "2%"),
    "outside": ("30%", "2%"),
    "smallest": ("1mm", "50mm"),
    "height": ("5%", "100%"),
    "leading": ("1pt", "200pt", "60pt"),
}
"""What a key may have at the most or the least, or what sits strangely there."""

FAMILIES: Final = (
    ("n", "ne", "e", "se", "s", "sw", "w", "nw"),
    ("true", "false"),
    ("sudoku", "latin", "blank"),
    ("calm", "steady", "stiff", "steep", "severe"),
    ("mon", "tue", "wed", "thu", "fri", "sat", "sun"),
    ("svg", "pdf", "png", "tiff", "html", "txt"),
    ("separate", "last-page", "none"),
    ("edges", "none", "shapes", "as-written"),
    ("paperback", "newsprint", "large-print", "classroom", "mine.yaml"),
    ("thermometer", "slow-thermometer", "arrow", "palindrome", "renban", "whisper", "between"),
    ("cage", "equal-cages", "calculation", "extra-region", "clone"),
    ("en", "de"),
    ("A4", "A5", "letter", "6x9in", "90x90mm", "500x500mm"),
)

GENTLE: Final[tuple[Change, ...]] = (
    *(_nudge, _nudge, _open_cell, _turn, _swap_words, _extreme, _extreme, _other_size),
)
"""What may well be meant."""

CHANGES: Final[tuple[Change, ...]] = (
    *(_swap_lines, _drop_lines, _repeat_lines, _indent, _cut_line, _edit_character, _swap_words),
    *(_replace(_WORD), _replace(_WORD), _replace(_VALUE), _replace(_VALUE), _replace(_VALUE)),
    *(_anchor, _nest, _graft, _graft, _move_piece),
)


def _flip(data: bytes, dice: Dice) -> bytes:
    changed = bytearray(data or b" ")
    for _ in range(dice.choice((1, 1, 3, 20))):
        changed[dice.randrange(len(changed))] ^= 1 << dice.randrange(8)
    return bytes(changed)


def _insert(data: bytes, dice: Dice) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + dice.randbytes(dice.choice((1, 1, 4, 200))) + data[at:]


def _drop(data: bytes, dice: Dice) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + data[at + dice.choice((1, 1, 10, 1000)) :]


def _repeat(data: bytes, dice: Dice) -> bytes:
    at = dice.randrange(len(data) + 1)
    return data[:at] + data[at : at + 40] * dice.choice((2, 50)) + data[at:]


def _recoded(encoding: str) -> Callable[[bytes, Dice], bytes]:
    def recode(data: bytes, dice: Dice) -> bytes:
        return data.decode("utf-8", "replace").encode(encoding, "replace")

    return recode


SAVINGS: Final[tuple[Callable[[bytes, Dice], bytes], ...]] = (
    *(_flip, _flip, _insert, _drop, _repeat),
    *(_recoded("utf-16"), _recoded("utf-8-sig"), _recoded("latin-1"), _recoded("utf-32-be")),
    lambda data, dice: data.replace(b"\n", b"\r\n"),
    lambda data, dice: data.replace(b"\n", b"\r"),
    lambda data, dice: data.replace(b"  ", b"\t"),
    lambda data, dice: data.replace(b"\n", b""),
    lambda data, dice: data[: dice.randrange(len(data) + 1)],
    lambda data, dice: data + b"\n...\n" + data,
    lambda data, dice: b"",
)
"""What an editor's program, a mail or a disk may do to a file."""
