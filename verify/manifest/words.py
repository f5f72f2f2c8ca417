"""The words of a manifest: titles, credits, notes and its id."""

import re
import unicodedata
from pathlib import PurePath
from typing import Final

from verify.manifest.fields import WORDS_FIELDS
from verify.puzzle import Credits
from verify.reading.node import Fields, Place, Text, describe
from verify.reading.problems import Problems

_ID: Final = re.compile(r"\w[\w.-]*")
_NOT_ID: Final = re.compile(r"[^\w.-]+")
_JOINERS: Final = "\u00ad\u200c\u200d"
"""Format characters that spelling needs: the soft hyphen and the two joiners."""


def read_words(fields: Fields, name: str, problems: Problems) -> str:
    """The text of one of `WORDS_FIELDS`; empty where it is missing or has a problem."""
    node = fields.get(name)
    if node is None:
        return ""
    if not isinstance(node, Text):
        problems.expected(node.place, describe(node), f"the words of {name}")
        return ""
    field = WORDS_FIELDS[name]
    text = node.text.strip() if field.lines else " ".join(node.text.split())
    if len(text) > field.longest:
        found = f"{len(text)} characters in {name}"
        problems.expected(node.place, found, f"at most {field.longest}")
        return ""
    return text if _is_clean(text, node.place, problems) else ""


def read_credits(fields: Fields, problems: Problems) -> Credits:
    """Title, constructor, theme, date and note."""
    return Credits(
        title=read_words(fields, "title", problems),
        constructor=read_words(fields, "constructor", problems),
        theme=read_words(fields, "theme", problems),
        date=read_words(fields, "date", problems),
        note=read_words(fields, "note", problems),
    )


def read_id(fields: Fields, file: str, problems: Problems) -> str:
    """The manifest's id, or one made from its file's name."""
    text = read_words(fields, "id", problems)
    node = fields.get("id")
    if node is None or not text:
        return id_from(file)
    if not _ID.fullmatch(text):
        expected = "letters, digits, - _ and . only, a letter or digit first"
        problems.expected(node.place, f"id {describe(node)}", expected)
    return text


def id_from(file: str) -> str:
    """An id from a file's name without its suffix; what no id may hold becomes a dash."""
    stem = unicodedata.normalize("NFC", PurePath(file).stem)
    return _NOT_ID.sub("-", stem).strip("-.")[: WORDS_FIELDS["id"].longest] or "puzzle"


def _is_clean(text: str, place: Place, problems: Problems) -> bool:
    """Whether every character can be printed."""
    if text.isprintable():
        return True
    for character in text:
        if unicodedata.category(character)[0] == "C" and character not in _JOINERS + "\n\t":
            found = f"the control character U+{ord(character):04X}"
            problems.expected(place, found, "printable text")
            return False
    return True
