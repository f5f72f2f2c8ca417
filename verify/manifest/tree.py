"""YAML events -> nodes with places, within bounds of depth and number.

Nothing is composed before it is checked: each event passes the bounds as it comes.
"""

from collections.abc import Iterator
from typing import Any, Final, NoReturn, TypeAlias

import yaml

from verify.manifest.mistakes import yaml_slip
from verify.reading.node import Fields, Items, Node, Place, Text, describe, shown
from verify.reading.problems import Problems

DEEPEST: Final = 20
"""Lists and mappings inside one another."""

MOST_NODES: Final = 20_000
"""Words, lists and mappings of one file."""

_Event: TypeAlias = Any
"""One of yaml's events; its own types leave open whether an event has marks. They all do."""

_LOADER: Final = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _Stop(Exception):  # noqa: N818 - no error of its own: the problem is noted already
    """Nothing behind this place can be understood."""


def compose(text: str, name: str, problems: Problems) -> Node | None:
    """The one document of a text; None with problems where there is none to be read.

    Anchors and tags are noted and passed over, and of two equal keys the first counts.
    """
    try:
        return _Composer(text, name, problems).document()
    except yaml.MarkedYAMLError as error:
        problems.add(*yaml_slip(error, text, name))
    except yaml.YAMLError:
        problems.add(Place(name, 1, 1), "the text is not YAML")
    except _Stop:
        pass
    return None


class _Composer:
    """Builds the nodes of one text from its events."""

    def __init__(self, text: str, name: str, problems: Problems) -> None:
        self.name = name
        self.lines = text.split("\n")
        self.problems = problems
        self.count = 0
        self.events: Iterator[_Event] = yaml.parse(text, Loader=_LOADER)

    def document(self) -> Node:
        """The root node of the first document, which must be the last."""
        next(self.events)
        start = next(self.events)
        if not isinstance(start, yaml.DocumentStartEvent):
            message = "found an empty file, expected fields such as title: and size:"
            self.problems.add(Place(self.name, 1, 1), message)
            raise _Stop
        root = self._node(next(self.events), 0)
        next(self.events)
        following = next(self.events)
        if not isinstance(following, yaml.StreamEndEvent):
            self._stop(following, "found a second document, expected one puzzle or job in a file")
        return root

    def _node(self, event: _Event, depth: int) -> Node:
        """The node that begins with an event."""
        self.count += 1
        if self.count > MOST_NODES:
            self._stop(event, f"found more than {MOST_NODES} words, expected a shorter file")
        if isinstance(event, yaml.AliasEvent):
            self._stop(
                event, f'found an alias "*{shown(str(event.anchor))}", expected the text itself'
            )
        if event.anchor is not None:
            anchor = f'an anchor "&{shown(event.anchor)}"'
            self.problems.expected(self._place(event), anchor, "text without one")
        if event.tag is not None:
            tag = f'a tag "{shown(event.tag.replace("tag:yaml.org,2002:", "!!"))}"'
            self.problems.expected(self._place(event), tag, "text without one")
        if isinstance(event, yaml.ScalarEvent):
            return self._text(event)
        if depth == DEEPEST:
            self._stop(event, f"found more than {DEEPEST} lists or mappings inside one another")
        if isinstance(event, yaml.SequenceStartEvent):
            return Items(self._place(event), tuple(self._items(depth + 1)))
        return Fields(self._place(event), tuple(self._entries(depth + 1)))

    def _items(self, depth: int) -> Iterator[Node]:
        """The items of a list, to its end."""
        for event in self.events:
            if isinstance(event, yaml.SequenceEndEvent):
                return
            yield self._node(event, depth)

    def _entries(self, depth: int) -> Iterator[tuple[Text, Node]]:
        """The entries of a mapping, to its end, without those that are noted as problems."""
        first_lines: dict[str, int] = {}
        for event in self.events:
            if isinstance(event, yaml.MappingEndEvent):
                return
            key, value = self._node(event, depth), self._node(next(self.events), depth)
            if self._is_new_key(key, first_lines) and isinstance(key, Text):
                first_lines[key.text] = key.place.line
                yield key, value

    def _is_new_key(self, key: Node, first_lines: dict[str, int]) -> bool:
        """Whether a key is a word that did not stand in the mapping before."""
        if not isinstance(key, Text):
            self.problems.expected(key.place, describe(key) + " as a key", "a word")
        elif key.text == "<<" and not key.quoted:
            self.problems.expected(key.place, 'a merge key "<<"', "the fields themselves")
        elif key.text in first_lines:
            first = f"it stands in line {first_lines[key.text]} already"
            self.problems.add(key.place, f'found "{shown(key.text)}" a second time; {first}')
        else:
            return True
        return False

    def _text(self, event: _Event) -> Text:
        """A word or a block of text, with the place of each of its lines."""
        place = self._place(event)
        style = event.style
        if style == "|":
            return Text(place, event.value, tuple(self._literal_lines(event)), quoted=True)
        quoted = bool(style)
        if event.start_mark.line == event.end_mark.line or (style == '"' and "\n" in event.value):
            first = place.right(1) if quoted else place
            lines = tuple((first, line) for line in event.value.split("\n"))
            return Text(place, event.value, lines, quoted)
        return Text(place, event.value, tuple(self._folded_lines(event)), quoted)

    def _literal_lines(self, event: _Event) -> Iterator[tuple[Place, str]]:
        """The lines of a `|` block: each is the end of its line in the file."""
        value = event.value[:-1] if event.value.endswith("\n") else event.value
        for number, line in enumerate(value.split("\n"), event.start_mark.line + 1):
            source = self.lines[number] if number < len(self.lines) else ""
            yield Place(self.name, number + 1, max(0, len(source) - len(line)) + 1), line

    def _folded_lines(self, event: _Event) -> Iterator[tuple[Place, str]]:
        """The lines of text that runs over several, as they stand in the file, unfolded."""
        start, end = event.start_mark, event.end_mark
        for number in range(start.line, end.line + 1):
            until = end.column if number == end.line else len(self.lines[number])
            since = start.column if number == start.line else 0
            line = self.lines[number][since:until]
            if event.style == ">" and number == start.line:
                continue
            bare = line.strip().strip(event.style or "")
            if bare:
                yield Place(self.name, number + 1, since + line.index(bare) + 1), bare

    def _place(self, event: _Event) -> Place:
        """Where an event begins; an empty one at the end may be told a line too low."""
        mark = event.start_mark
        if mark.line < len(self.lines):
            return Place(self.name, mark.line + 1, mark.column + 1)
        return Place(self.name, len(self.lines), len(self.lines[-1]) + 1)

    def _stop(self, event: _Event, message: str) -> NoReturn:
        """Notes a problem behind which nothing can be understood."""
        self.problems.add(self._place(event), message)
        raise _Stop
