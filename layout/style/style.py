"""Style sheets: YAML -> Style, or every problem with its place.

A style sheet may say `like: paperback` and then only what it wants otherwise.
"""

from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Annotated, Final

from layout.shipped import shipped_styles
from layout.style.board import BoardStyle
from layout.style.column import ColumnStyle
from layout.style.hidden import check_looks
from layout.style.own_fonts import NO_FONTS, FontRoles, Fonts, found_fonts, with_fonts
from layout.style.page import PageStyle
from verify.manifest.source import lies_in, shown_path
from verify.manifest.yaml_text import read_tree
from verify.reading.node import Fields, Node, Place, Text, describe, shown
from verify.reading.problems import Problems, Unreadable
from verify.reading.record import Brief, read_record

MOST_LIKENESSES: Final = 4
"""How many style sheets one may build upon, one like the other."""

REFERENCE: Final = "paperback"
"""The shipped style sheet that says how every mark looks."""


@dataclass(frozen=True, slots=True)
class Style:
    """The whole look: of boards, of pages, and of a newspaper's column."""

    board: Annotated[BoardStyle, "how a puzzle's board looks"]
    page: Annotated[PageStyle, "how the pages of books and worksheets look"]
    column: Annotated[ColumnStyle, "how a newspaper's puzzle column looks"]
    fonts: Annotated[
        Fonts, Brief(Fonts, "text"), "fonts in place of those that the sheet names"
    ] = NO_FONTS

    def in_fonts(self, fonts: Fonts) -> "Style":
        """The same set in other fonts, which are known by the names that they are set by.

        Those that it was set in before go on where these name none.
        """
        fonts, prose = fonts.over(self.fonts), self.page.faces.prose
        words = FontRoles(prose.roman, prose.italic, prose.bold)
        return replace(
            self,
            board=with_fonts(self.board, fonts, replace(words, board=True)),
            page=with_fonts(self.page, fonts, words),
            column=with_fonts(self.column, fonts, words),
            fonts=fonts,
        )


def shipped_style_names() -> tuple[str, ...]:
    """The names of the style sheets that come with the program, sorted."""
    return tuple(sorted(path.stem for path in shipped_styles().glob("*.yaml")))


def read_style(name: str, folder: Path | None = None, place: Place | None = None) -> Style:
    """A shipped style sheet by its name, or a style sheet by its path (`.yaml`) within `folder`.

    Raises Unreadable with every problem of the style sheet, or with one at `place` (where the job
    names the style) where there is no such style sheet or its path leaves the folder.
    """
    at = place or Place(name, 1, 1)
    if name.endswith((".yaml", ".yml")):
        return style_of(*_own_style(name, folder or Path(), at))
    return _shipped_style(name) if name in shipped_style_names() else _unknown(name, at)


def named_style(name: str) -> Style:
    """A shipped style sheet by its name, or a style sheet by its path from the working folder."""
    own = name.endswith((".yaml", ".yml"))
    return style_of(Path(name), name) if own else read_style(name)


@cache
def _shipped_style(name: str) -> Style:
    return style_of(shipped_styles() / f"{name}.yaml", f"{name}.yaml")


def style_of(path: Path, name: str) -> Style:
    """The style that a style sheet's file tells; `name` is what problems call the file."""
    problems = Problems()
    node = _whole_style(path, name, problems, MOST_LIKENESSES)
    style = read_record(node, Style, problems)
    is_reference = path == shipped_styles() / f"{REFERENCE}.yaml"
    if not is_reference:
        _check_roles(node, problems)
    if style is not None:
        reference = style if is_reference else _shipped_style(REFERENCE)
        check_looks(_tables(node), style.board.marks, reference.board.marks, name, problems)
        _check_heads(node, style, problems)
        style = _in_own_fonts(style, path, node, problems)
    if style is None or problems.found:
        raise Unreadable(problems.found)
    return style


def _in_own_fonts(style: Style, path: Path, node: Node, problems: Problems) -> Style:
    """The style in the fonts that its sheet asks for."""
    told = node.get("fonts") if isinstance(node, Fields) else None

    def place(key: str) -> Place:
        inner = told.get(key) if isinstance(told, Fields) else None
        return node.place if inner is None else inner.place

    found = found_fonts(style.fonts, path.parent, place, problems)
    return replace(style, fonts=NO_FONTS).in_fonts(found)


def _own_style(name: str, folder: Path, place: Place) -> tuple[Path, str]:
    """A style sheet of the editor's own; it may not lie outside the folder."""
    path = folder / name
    if not lies_in(path, folder):
        raise _problem(place, f'the style "{shown(name)}" lies outside the folder of its job')
    return path, shown_path(Path(name))


def _unknown(name: str, place: Place) -> Style:
    problems = Problems()
    problems.unknown(place, "style", name, shipped_style_names())
    raise Unreadable(problems.found)


def _problem(place: Place, message: str) -> Unreadable:
    problems = Problems()
    problems.add(place, message)
    return Unreadable(problems.found)


def _whole_style(path: Path, name: str, problems: Problems, likenesses: int) -> Node:
    """The style sheet laid over the one that it is like, and so on."""
    node = read_tree(path, name, problems)
    like = node.get("like") if isinstance(node, Fields) else None
    if not isinstance(node, Fields) or like is None:
        return node
    own = Fields(node.place, tuple(entry for entry in node.entries if entry[0].text != "like"))
    other = like.text if isinstance(like, Text) else describe(like)
    if other not in shipped_style_names():
        problems.unknown(like.place, "style", other, shipped_style_names())
        return own
    if likenesses == 0:
        problems.add(like.place, f"more than {MOST_LIKENESSES} styles, each like the next")
        return own
    base = shipped_styles() / f"{other}.yaml"
    return laid_over(_whole_style(base, f"{other}.yaml", problems, likenesses - 1), own)


def laid_over(base: Node, own: Node) -> Node:
    """`own` with what it lacks taken from `base`, key by key, also in nested mappings."""
    if not (isinstance(base, Fields) and isinstance(own, Fields)):
        return own
    said = {key.text: (key, value) for key, value in own.entries}
    entries = []
    for key, value in base.entries:
        own_key, own_value = said.pop(key.text, (key, value))
        entries.append((own_key, laid_over(value, own_value)))
    return Fields(own.place, (*entries, *said.values()))


def _check_roles(node: Node, problems: Problems) -> None:
    """Every role of every kind of mark has a look, and none has one that no rule uses."""
    known = _tables(read_tree(shipped_styles() / f"{REFERENCE}.yaml", REFERENCE, Problems()))
    for kind, table in _tables(node).items():
        roles = known.get(kind)
        if roles is None:
            continue
        names = {key.text for key, _ in roles.entries}
        own = {key.text: key.place for key, _ in table.entries}
        for name in own.keys() - names:
            problems.unknown(own[name], "mark", name, names)
        for name in names - own.keys():
            problems.add(table.place, f'the key "{name}" is missing')


def _check_heads(node: Node, style: Style, problems: Problems) -> None:
    """Titles are in one ink: of several, edges would show where plates shift."""
    ink = style.board.ink
    if style.page.heads_in_ink and (ink is None or not ink.name):
        page = node.get("page") if isinstance(node, Fields) else None
        told = page.get("heads-in-ink") if isinstance(page, Fields) else None
        found = "an ink without a name" if ink else "no ink"
        expected = "a spot ink, with a name, for titles"
        problems.expected((told or node).place, f"{found} in board", expected)


def _tables(node: Node | None) -> dict[str, Fields]:
    """The tables of roles, by their kind of mark."""
    for name in ("board", "marks"):
        node = node.get(name) if isinstance(node, Fields) else None
    if not isinstance(node, Fields):
        return {}
    return {key.text: value for key, value in node.entries if isinstance(value, Fields)}
