"""YAML's own errors -> what an editor did, where, and what to write instead.

The parsers (libyaml and PyYAML's own) word one error in two ways, and often notice it lines
behind the slip. Each entry of `_SLIPS` names a part of their wordings.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

import yaml

from verify.reading.node import Place, shown

_Told: TypeAlias = tuple[int, int, str]
"""Line and column, both from 0, and the message."""

_DECORATED: Final = re.compile(r"[\s.|+\-\w]*")


@dataclass(frozen=True, slots=True)
class _Slip:
    """An error as the parser saw it: where it stopped, and where that part began."""

    lines: list[str]
    line: int
    column: int
    start_line: int
    start_column: int

    def rest(self) -> str:
        """The text from where the parser stopped to the end of its line."""
        return self.lines[self.line][self.column :]

    def opening(self) -> str:
        """The character that began the part in which the parser stopped."""
        return self.lines[self.start_line][self.start_column : self.start_column + 1]

    def starts_line(self) -> bool:
        """Whether nothing but blanks stands before where the parser stopped."""
        return not self.lines[self.line][: self.column].strip()

    def here(self, message: str) -> _Told:
        """A message where the parser stopped."""
        return self.line, self.column, message

    def at_start(self, message: str) -> _Told:
        """A message where the part began."""
        return self.start_line, self.start_column, message


def yaml_slip(error: yaml.MarkedYAMLError, text: str, name: str) -> tuple[Place, str]:
    """The place of a slip and the message about it."""
    mark = error.problem_mark or error.context_mark
    if mark is None:
        return Place(name, 1, 1), "the text is not YAML"
    start = error.context_mark or mark
    lines = text.split("\n")
    last = len(lines) - 1  # an open end may be told a line behind the last
    slip = _Slip(lines, min(mark.line, last), mark.column, min(start.line, last), start.column)
    problem = error.problem or ""
    tell = next((tell for wording, tell in _SLIPS if re.search(wording, problem)), _anything)
    line, column, message = tell(slip)
    return Place(name, line + 1, column + 1), message


def _no_token(slip: _Slip) -> _Told:
    """A character that YAML keeps for itself, or a tab."""
    if slip.rest().startswith("\t"):
        return _tab(slip)
    character = shown(slip.rest()[:1])
    return slip.here(f'found "{character}" before a text, expected quotes around the text')


def _tab(slip: _Slip) -> _Told:
    """A tab that indents."""
    return slip.here("found a tab, expected spaces")


def _colon(slip: _Slip) -> _Told:
    """A colon where no name can stand: after a value, or below a line that has no colon."""
    line = slip.lines[slip.line]
    earlier = line[: slip.column]
    if re.search(r":\s", earlier):
        message = 'found a second ": " in one line, expected quotes around a text that has a colon'
        return slip.here(message)
    above = _line_above(slip)
    if above is not None:
        content = slip.lines[above]
        indent = len(content) - len(content.lstrip())
        if re.search(r":(\s|$)", content) and indent < len(line) - len(line.lstrip()):
            message = "this line stands further right than the one above, which ends in a value"
            return slip.line, len(line) - len(line.lstrip()), message
        if not re.search(r":(\s|$)", content):
            return above, indent, _no_colon_message(content)
    return slip.here('found a ":" that belongs to no name')


def _line_above(slip: _Slip) -> int | None:
    """The nearest line above that holds more than a comment."""
    for number in range(slip.line - 1, -1, -1):
        content = slip.lines[number].strip()
        if content and not content.startswith("#"):
            return number
    return None


def _no_colon(slip: _Slip) -> _Told:
    """A line that should have been `name: value`, or one of a block that is not indented."""
    return slip.at_start(_no_colon_message(slip.lines[slip.start_line]))


def _no_colon_message(line: str) -> str:
    """What a line without a colon and a space was probably meant to be."""
    text = line.strip()
    found = f'found "{shown(text)}", expected'
    if re.match(r"(- +)?[\w-]+:\S", text):
        return f'{found} a space after the colon, as in "title: Low Water"'
    if _DECORATED.fullmatch(text) and len(text) > 1 and re.search(r"[.|]|--", text):
        return f"{found} a grid's lines further right than the name above them"
    return f'{found} a name, a colon and a space, as in "title: Low Water"'


def _bracket(slip: _Slip) -> _Told:
    """A list or mapping in brackets that is not closed, or lacks a comma."""
    closing = {"[": "]", "{": "}"}.get(slip.opening(), "a bracket")
    if slip.line > slip.start_line:
        return slip.at_start(
            f'found "{slip.opening()}" that is not closed, expected "{closing}" or a comma '
            f"by line {slip.line + 1}"
        )
    column, rest = slip.column, slip.rest()
    if rest.startswith(":"):
        column = len(slip.lines[slip.line][:column].rstrip().rpartition(" ")[0]) + 1
        rest = slip.lines[slip.line][column:]
    return slip.line, column, f'found "{shown(rest)}", expected a comma or "{closing}" before it'


def _quote(slip: _Slip) -> _Told:
    """A quote that is not closed."""
    return slip.at_start(f"found a quote {slip.opening()} that is not closed")


def _escape(slip: _Slip) -> _Told:
    """A backslash in double quotes."""
    message = "found a backslash in double quotes, expected single quotes around such a text"
    line = slip.lines[slip.line]
    return slip.line, max(line.rfind("\\", 0, slip.column + 1), 0), message


def _indicator(slip: _Slip) -> _Told:
    """A star or an ampersand before a text."""
    message = f'found "{slip.opening()}" before a text, expected quotes around the text'
    return slip.at_start(message)


def _no_field(slip: _Slip) -> _Told:
    """Something else than the next field of a mapping."""
    rest = slip.rest()
    if not slip.starts_line():
        message = f'found "{shown(rest)}" behind a text that has ended'
        return slip.here(f"{message}, expected quotes around the whole or a new line")
    if rest.startswith(":"):
        return slip.here('found ":" without a name before it')
    if slip.column == slip.start_column and re.match(r"-(\s|$)", rest):
        return slip.here('found a list\'s "- ", expected a field such as "title: Low Water"')
    found = f'found "{shown(rest)}" in column {slip.column + 1}, where nothing above it begins'
    return slip.here(f"{found}; expected it in line with its neighbours")


def _no_item(slip: _Slip) -> _Told:
    """Something else than the next item of a list."""
    column = slip.start_column + 1
    return slip.here(f'found "{shown(slip.rest())}", expected "- " in column {column}')


def _dash(slip: _Slip) -> _Told:
    """A list that begins behind a name."""
    return slip.here('found "- " behind a name, expected the list to begin in a new line')


def _block(slip: _Slip) -> _Told:
    """Text right behind the sign of a block."""
    message = f'found "{shown(slip.rest())}" behind "{slip.opening()}"'
    return slip.here(f"{message}, expected the text to begin in the next line")


def _tag(slip: _Slip) -> _Told:
    """A tag that YAML does not know either."""
    return slip.at_start('found "!" before a text, expected quotes around the text')


def _second_document(slip: _Slip) -> _Told:
    """Text behind the end of the document, or below a line that has no colon."""
    above = _line_above(slip)
    if above is not None and re.fullmatch(r"\s*[\w-]+(:\S| ).*", slip.lines[above]):
        content = slip.lines[above]
        return above, len(content) - len(content.lstrip()), _no_colon_message(content)
    return slip.here(f'found "{shown(slip.rest())}" behind the end of the text')


def _directive(slip: _Slip) -> _Told:
    """A line that begins with a percent sign."""
    return slip.at_start('found "%" at the start of a line, expected a field')


def _anything(slip: _Slip) -> _Told:
    """Any other error."""
    found = f'found "{shown(slip.rest())}"'
    return slip.here(f"{found}, expected a field; look for a missing quote, bracket or space")


_SLIPS: Final[tuple[tuple[str, Callable[[_Slip], _Told]], ...]] = (
    ("cannot start any token", _no_token),
    ("tab character", _tab),
    ("mapping values are not allowed", _colon),
    ("could not find expected ':'", _no_colon),
    ("',' or '[\\]}]'", _bracket),
    ("unexpected end of stream|unexpected document", _quote),
    ("escape|hexdec|hexadec|UTF-8", _escape),
    ("alphabetic or numeric", _indicator),
    ("expected key|expected <block end>", _no_field),
    ("'-' indicator", _no_item),
    ("sequence entries are not allowed", _dash),
    ("comment or (a )?line break|chomping", _block),
    ("tag|URI", _tag),
    ("directive|incompatible", _directive),
    ("document start", _second_document),
)
