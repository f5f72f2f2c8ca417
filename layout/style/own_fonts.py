"""Fonts that a job or a style sheet takes in place of those of the sheet: files, packages, the
machine's own.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from pathlib import Path
from typing import Annotated, Any, Final, TypeVar

from layout.type.font_name import Installed
from layout.type.fonts import OWN_FILE, FontError, family, find_font, font
from layout.type.own_fonts import ENDINGS, UnfitFont
from layout.type.system_fonts import system_font
from verify.manifest.source import lies_in
from verify.reading.node import Place, shown
from verify.reading.problems import Problems
from verify.reading.record import Flag, Word, frozen, keys_of

T = TypeVar("T")

ROLES: Final = ("text", "italic", "bold", "titles", "digits", "fallback")
"""The keys that name a font."""

_SPACED: Final = " spaced "
_ELSE: Final = " else "


@dataclass(frozen=True, slots=True)
class Fonts:
    """Fonts by what they are for: a file (./Creek.otf) or a name; what is not named stays.

    With `system` a name may be that of a font of the machine.
    """

    text: Annotated[str, Word(300), "plain words: a file such as ./Creek.otf, or a name"] = ""
    italic: Annotated[str, Word(300), "what emphasis is set in"] = ""
    bold: Annotated[str, Word(300), "strong words"] = ""
    titles: Annotated[str, Word(300), "titles; the font of text unless told"] = ""
    digits: Annotated[str, Word(300), "digits, sums and all else on boards"] = ""
    fallback: Annotated[str, Word(300), "single letters of words that the others have not"] = ""
    system: Annotated[bool, Flag(), "whether names may be those of this machine's fonts"] = False

    def __bool__(self) -> bool:
        return any(getattr(self, role) for role in ROLES)

    def over(self, other: "Fonts") -> "Fonts":
        """The same, with those of another where this one names none."""
        return self.by(lambda role: getattr(self, role) or getattr(other, role))

    def by(self, name_of: Callable[[str], str]) -> "Fonts":
        """The same with other names for its roles."""
        text, italic, bold, titles, digits, fallback = map(name_of, ROLES)
        return Fonts(text, italic, bold, titles, digits, fallback, self.system)


NO_FONTS: Final = Fonts()


def found_fonts(
    fonts: Fonts, folder: Path, place: Callable[[str], Place], problems: Problems
) -> Fonts:
    """The same by the names that fonts are set by; files are looked for from `folder`.

    Notes at the place of a key what is not there, lies outside the folder, or can't be embedded.
    """

    def found(role: str) -> str:
        wanted = getattr(fonts, role)
        return _found(wanted, fonts.system, folder, place(role), problems) if wanted else ""

    return fonts.by(found)


def font_file(wanted: str, folder: Path) -> Path | None:
    """The file that a font is, if it is named by one."""
    return folder / wanted if wanted.lower().endswith(ENDINGS) else None


def _found(wanted: str, system: bool, folder: Path, place: Place, problems: Problems) -> str:
    path = font_file(wanted, folder)
    if path is not None and not lies_in(path, folder):
        problems.add(place, f'found "{shown(wanted)}", expected a font inside the folder')
        return ""
    if path is not None and not path.is_file():
        problems.add(place, f'there is no file "{shown(wanted)}"')
        return ""
    try:
        name = _named(wanted, system) if path is None else f"{OWN_FILE}{path.resolve()}"
        font(name)
    except UnfitFont as unfit:
        problems.add(place, f'"{shown(wanted)}": {unfit}')
        return ""
    except FontError as missing:
        hint = "" if system else "; system: true looks among the fonts of this machine, too"
        problems.add(place, f"{missing}{hint}")
        return ""
    return name


def _named(wanted: str, system: bool) -> str:
    """A font of a package, or with `system` of the machine. Raises MissingFontError."""
    try:
        find_font(wanted)
    except FontError:
        path = system_font(wanted) if system else None
        if path is None:
            raise
        return f"{OWN_FILE}{path}"
    return wanted


def told_of_fonts(fonts: Fonts, wanted: Fonts) -> Iterator[str]:
    """Which fonts are this machine's, so that another one may set the book otherwise."""
    for role in ROLES:
        name, asked = getattr(fonts, role), getattr(wanted, role)
        if name.startswith(OWN_FILE) and font_file(asked, Path()) is None:
            path = name.removeprefix(OWN_FILE)
            yield (
                f'the font "{asked}" is this machine\'s ({path}): another machine may have another '
                "one of that name, and lines that end elsewhere"
            )


def with_fonts(style: T, fonts: Fonts, roles: "FontRoles") -> T:
    """A style set in these fonts, by what each of its own is for."""
    return _renamed(style, lambda name: roles.instead(name, fonts)) if fonts else style


@dataclass(frozen=True, slots=True)
class FontRoles:
    """What the fonts of a style are for: those of words by the voices of prose, those of boards."""

    roman: str
    italic: str
    bold: str
    board: bool = False

    def instead(self, name: str, fonts: Fonts) -> str:
        """The name of what stands in the place of a font of the style."""
        base, spaced, part = _alone(name).partition(_SPACED)
        own = (fonts.digits if self.board else self._of_words(base, fonts)) or base
        whole = f"{own}{spaced}{part}"
        return whole if self.board or not fonts.fallback else f"{whole}{_ELSE}{fonts.fallback}"

    def _of_words(self, base: str, fonts: Fonts) -> str:
        roman, italic, bold = (
            _alone(each).partition(_SPACED)[0] for each in (self.roman, self.italic, self.bold)
        )
        if base == bold:
            return fonts.bold
        if base == italic:
            return fonts.italic
        if base == roman:
            return fonts.text
        if family(base) != family(roman):
            return fonts.digits
        return fonts.italic if base.endswith("Italic") else fonts.titles or fonts.text


def _alone(name: str) -> str:
    """A font's name without that of its fallback."""
    return name.partition(_ELSE)[0]


def _renamed(value: Any, rename: Callable[[str], str]) -> Any:
    """A record with every font in it by another name."""
    if isinstance(value, Mapping):
        return frozen({key: _renamed(each, rename) for key, each in value.items()})
    if not is_dataclass(value) or isinstance(value, type):
        return value
    names = {key.field.name for key in keys_of(type(value)).values() if _is_font(key.value)}
    changes = {
        each.name: rename(now) if each.name in names else _renamed(now, rename)
        for each in fields(value)
        for now in (getattr(value, each.name),)
    }
    return replace(value, **changes)


def _is_font(readable: Any) -> bool:
    return isinstance(readable, Installed)
