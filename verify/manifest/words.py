"""The words of a manifest: titles, credits, notes and its id."""

import re
import unicodedata
from pathlib import PurePath
from typing import Final

from verify.manifest.fields import WORDS_FIELDS
from verify.puzzle import Credits
from verify.reading.node import Fields, describe
from verify.reading.problems import Problems

_ID: Final = re.compile(r"\w[\w.-]*")
_NOT_ID: Final = re.compile(r"[^\w.-]+")


def read_words(fields: Fields, name: str, problems: Problems) -> str:
    """The text of one of `WORDS_FIELDS`; empty where it is missing or has a problem."""
    node = fields.get(name)
    return "" if node is None else WORDS_FIELDS[name].read(node, problems) or ""


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
