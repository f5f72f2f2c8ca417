"""The quotes, dashes and spaces of the trade, from what a keyboard has."""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

TIE: Final = "\u00a0"
"""A space that no line is broken at and that is never stretched."""

EN_DASH: Final = "–"
EM_DASH: Final = "—"
APOSTROPHE: Final = "’"


@dataclass(frozen=True, slots=True)
class Quotes:
    """Opening and closing quotes of a language, double and single.

    `counted` are its words for things that are counted: a number after one of them goes with it.
    """

    double: tuple[str, str] = ("“", "”")
    single: tuple[str, str] = ("‘", "’")
    counted: tuple[str, ...] = ()


@lru_cache(maxsize=8192)
def polish(text: str, quotes: Quotes) -> str:
    """Typed text as it is to be printed, on one line.

    Straight quotes turn by what stands before them, asterisks aside; `--`, `---` and `...` are
    an en dash, an em dash and an ellipsis; a hyphen between two numbers and one between spaces,
    or a space and a comma, are en dashes; a dash between spaces does not start a line, nor does
    a sign that belongs to the number before it ("5 %"), nor the next letter of an abbreviation
    or a name ("z. B."), nor the number of something that is counted ("row 6").
    """
    text = unicodedata.normalize("NFC", text.replace("\u00ad", ""))
    text = re.sub(r"[^\S\u00a0]+", " ", text).strip()
    text = text.replace("...", "…").replace("---", EM_DASH).replace("--", EN_DASH)
    text = re.sub(r"(?<![\w-])(\d+)-(\d+)(?![\w-])", rf"\1{EN_DASH}\2", text)
    text = re.sub(rf" [-{EN_DASH}](?=[ ,;:.!?])", f"{TIE}{EN_DASH}", text)
    text = re.sub(r"(?<=\d) (?=[%‰°])", TIE, text)
    text = re.sub(r"(?<!\w)([^\W\d_]\.) (?=[^\W\d_]\.)", rf"\1{TIE}", text)
    if quotes.counted:
        text = re.sub(rf"(?i)\b({'|'.join(quotes.counted)}) (?=\d)", rf"\1{TIE}", text)
    return _turn_quotes(text, quotes)


def _turn_quotes(text: str, quotes: Quotes) -> str:
    """Each straight quote opens at a start, after a space, a bracket, a dash or an opening quote.

    Else it closes; but a single one within a word, or with none open, is an apostrophe.
    """
    openings = _BEFORE_OPENING + quotes.double[0] + quotes.single[0]
    turned: list[str] = []
    before = " "
    single = False
    for index, char in enumerate(text):
        opens = before in openings
        if char == '"':
            char = quotes.double[0 if opens else 1]
        elif char == "'" and opens and not _elides(text, index):
            char, single = quotes.single[0], True
        elif char == "'" and single and not text[index + 1 : index + 2].isalnum():
            char, single = quotes.single[1], False
        elif char == "'":
            char = APOSTROPHE
        if char != "*":
            before = char
        turned.append(char)
    return "".join(turned)


_BEFORE_OPENING: Final = " \u00a0([{–—"


def _elides(text: str, index: int) -> bool:
    """Whether a single quote stands for missing figures, as in the summer of '87."""
    return re.match(r"\d\ds?\b", text[index + 1 : index + 4]) is not None
