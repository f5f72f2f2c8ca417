"""Files with a puzzle a line -> their lines, one after the other, whatever their format.

By the ending of the name: `.csv` is a table whose first line names its columns, one of them
`puzzle`; `.jsonl` has a JSON object a line, with the key `puzzle`; anything else is plain text,
where blank lines and those that begin with `#` are passed over. No record goes on over the end
of its line, so that a slip costs its own line alone.

A puzzle's id is the file's stem and the number of the line, unless the line says another: columns
and keys may be named `id`, `title` and `constructor`, and in plain text they may follow the cells
in this order, each behind a tab.
"""

import csv
import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final, NoReturn, TypeAlias

from verify.manifest.source import source_lines
from verify.manifest.words import id_from, read_id, read_words
from verify.reading.node import Fields, Items, Node, Place, Text, shown
from verify.reading.problems import Problem, Problems, nearest

LONGEST_LINE: Final = 1000
"""Characters of one line of text; past that it holds no puzzle."""

LONGEST_RECORD: Final = 100_000
"""Characters of one line of a table, or of one JSON object."""

COLUMN: Final = "puzzle"
"""The column of a table, and the key of an object, that holds the cells."""

WORDS: Final = ("id", "title", "constructor")
"""What else a line may say of its puzzle, in the order of the columns of plain text."""

DELIMITERS: Final = ",;\t"
"""What may stand between the columns of a table; its first line shows which."""

Kept: TypeAlias = str | dict[str, Any]
"""What stands beside the cells: words of a line, or the other columns by their names."""


@dataclass(frozen=True, slots=True)
class BankLine:
    """A line that should hold a puzzle: its words, and what stands beside them.

    `place` is where `text` begins. `kept` is filled here for tables and objects; in plain text
    what is beside the cells is known when they are. `title` and `constructor` are empty where the
    line is silent.
    """

    place: Place
    id: str
    text: str
    kept: Kept = ""
    title: str = ""
    constructor: str = ""


Lines: TypeAlias = Iterator[BankLine | Problem]


def bank_lines(path: Path, name: str) -> Lines:
    """The lines of a file, each read as it is asked for; what is wrong with one in its stead.

    Raises Unreadable where the file can't be read at all.
    """
    reader = _READERS.get(path.suffix.lower())
    if reader is None:
        return text_lines(source_lines(path, name, LONGEST_LINE), name)
    return reader(source_lines(path, name, LONGEST_RECORD), name)


def text_lines(lines: Iterable[str], name: str) -> Lines:
    """The lines of a text that are not blank and no remarks."""
    stem = id_from(name)
    for number, line in enumerate(lines, start=1):
        if line.strip() and not line.lstrip().startswith("#"):
            found = BankLine(Place(name, number, 1), f"{stem}-{number}", line)
            columns = (word.strip() for word in line.split("\t")[1:]) if "\t" in line else ()
            yield _with_words(found, dict(zip(WORDS, columns, strict=False)))


def _with_words(line: BankLine, words: Mapping[str, object]) -> BankLine | Problem:
    """The line with the id, title and constructor that it says itself, or what is wrong there."""
    said = [name for name in WORDS if words.get(name) not in (None, "")]
    if not said:
        return line
    place, problems = line.place, Problems()
    nodes = ((Text(place, name, ()), _node(place, words[name])) for name in said)
    fields = Fields(place, tuple(nodes))
    title, constructor = (read_words(fields, name, problems) for name in WORDS[1:])
    its_id = read_id(fields, line.id, problems) if "id" in said else line.id
    if problems.found:
        return problems.found[0]
    return replace(line, id=its_id, title=title, constructor=constructor)


def _node(place: Place, value: object) -> Node:
    """A word of a line; what is no word is a list."""
    return Text(place, str(value), ()) if isinstance(value, str | int | float) else Items(place, ())


def _table(lines: Iterable[str], name: str) -> Lines:
    """The lines below the head of a table."""
    numbered = enumerate(lines, start=1)
    head = next(numbered, (1, ""))[1]
    delimiter = next((each for each in DELIMITERS if COLUMN in _split(head, each)), None)
    if delimiter is None:
        near = nearest(COLUMN, [word[:80] for word in _split(head, ",")])
        message = f'found no column "{COLUMN}" in the first line, expected one; {near}'
        yield Problem(Place(name, 1, 1), message)
        return
    names = _split(head, delimiter)

    def fields_of(line: str) -> dict[str, Any]:
        fields = next(csv.reader([line], delimiter=delimiter, strict=True))
        if len(fields) != len(names):
            raise ValueError(f"found {len(fields)} columns, expected {len(names)}")
        return dict(zip(names, fields, strict=True))

    yield from _records(numbered, name, fields_of)


def _split(line: str, delimiter: str) -> list[str]:
    """The names of the columns in the first line of a table."""
    return [word.strip() for word in next(csv.reader([line], delimiter=delimiter), [])]


def _objects(lines: Iterable[str], name: str) -> Lines:
    """The objects of a file with one a line."""
    return _records(enumerate(lines, start=1), name, _object)


def _object(line: str) -> dict[str, Any]:
    try:
        found = json.loads(line, parse_constant=_refuse_constant)
    except RecursionError:
        raise ValueError("found too many brackets, expected a flat object") from None
    except json.JSONDecodeError as error:
        raise ValueError(f"found no JSON ({error.msg}), expected an object") from None
    if not isinstance(found, dict):
        raise ValueError("found no object, expected one a line")
    if COLUMN not in found:
        raise ValueError(f'found no key "{COLUMN}"; {nearest(COLUMN, found or [""])}'[:300])
    if not isinstance(found[COLUMN], str):
        raise ValueError(f'found no text behind "{COLUMN}", expected the cells in quotes')
    return found


def _refuse_constant(word: str) -> NoReturn:
    raise ValueError(f"found {word}, expected a number")


def _records(
    numbered: Iterable[tuple[int, str]], name: str, fields_of: Callable[[str], dict[str, Any]]
) -> Lines:
    stem = id_from(name)
    for number, line in numbered:
        if not line.strip():
            continue
        place = Place(name, number, 1)
        try:
            if len(line) > LONGEST_RECORD:
                raise ValueError(f"found more than {LONGEST_RECORD} characters, expected fewer")
            fields = fields_of(line)
        except (ValueError, csv.Error) as error:
            yield Problem(place, shown(str(error)))
            continue
        text = fields.pop(COLUMN)
        at = place.right(max(0, line.find(text)))
        yield _with_words(BankLine(at, f"{stem}-{number}", text, fields), fields)


_READERS: Final[dict[str, Callable[[Iterable[str], str], Lines]]] = {
    ".csv": _table,
    ".jsonl": _objects,
}
