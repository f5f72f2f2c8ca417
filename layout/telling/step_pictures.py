"""What a walk shows: a diagram for each paragraph, but for plain placements before the next."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from layout.telling.telling import Telling, Told
from verify.pencil import bit
from verify.puzzle import Puzzle
from verify.walk.facts.step import Technique
from verify.walk.report.replay import Scene, replay
from verify.walk.told.event import cost_of
from verify.walk.told.head import head_of
from verify.walk.told.reach import reach

PLACED: Final = 0.2
"""What a digit that is placed adds to the need of a diagram, beside the costs of strikes."""

MATTERS_MOST: Final = 1000.0
"""What the break-in and the crux add to that."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A paragraph, or one of several parts of it; `part` counts them from 0."""

    number: int
    part: int
    words: str


@dataclass(frozen=True, slots=True)
class StepPicture:
    """Pieces of a walk with the diagram of the last of them, or with none."""

    pieces: tuple[Piece, ...]
    scene: Scene | None

    @property
    def last(self) -> Piece:
        """The piece that the diagram shows."""
        return self.pieces[-1]


@dataclass(frozen=True, slots=True)
class _Part:
    """Steps that are told together, with their words."""

    piece: Piece
    told: tuple[Told, ...]
    shown: bool


@dataclass(frozen=True, slots=True)
class Cut:
    """Every part of a walk with its scene, before it is known which have diagrams."""

    parts: tuple[tuple[_Part, Scene], ...]

    def pictures(self, without: Collection[int] = ()) -> tuple[StepPicture, ...]:
        """All of it in order, each part beside one diagram.

        Plain placements, and paragraphs `without` a diagram, stand beside the next one.
        """
        return tuple(_grouped(self.parts, without))

    def each(self) -> tuple[StepPicture, ...]:
        """All of it, each part with a diagram of its own."""
        return tuple(StepPicture((part.piece,), scene) for part, scene in self.parts)


def cut_walk(
    puzzle: Puzzle,
    telling: Telling,
    parts: Mapping[int, int] | None = None,
    *,
    by_sentence: bool = False,
) -> Cut:
    """A telling in its paragraphs; `parts` says which of them, by number, are told in how many.

    `by_sentence` each push is told by itself. Digits that are placed one after the other stay
    together then, and so does what is told in one sentence of many.
    """
    cut = list(_parts(puzzle, telling, parts or {}, by_sentence=by_sentence))
    scenes = replay(puzzle, ([each.kept.based for each in part.told] for part in cut))
    shown = zip(cut, scenes, strict=True)
    return Cut(tuple((part, scene) for part, scene in shown if part.shown))


def paragraph_scenes(puzzle: Puzzle, telling: Telling) -> dict[int, Scene]:
    """The scene of each paragraph by its number, also of those that the telling leaves out."""
    cut = list(_parts(puzzle, telling, {}))
    scenes = replay(puzzle, ([each.kept.based for each in part.told] for part in cut))
    return {part.piece.number: scene for part, scene in zip(cut, scenes, strict=True)}


def least_needed(telling: Telling) -> tuple[int, ...]:
    """The numbers of paragraphs with diagrams, those first that are done without most easily."""
    head = head_of([told.kept for told in telling.steps])
    wanted = {each for each in (head.break_in, head.crux) if each is not None}
    need: dict[int, float] = {}
    for told in telling.steps:
        worth = PLACED if told.step.places else cost_of(told.step)
        if told.number - 1 in wanted:
            worth += MATTERS_MOST
        need[told.paragraph] = need.get(told.paragraph, 0.0) + worth
    plain = {each.number for each in telling.paragraphs[:-1] if all(s.places for s in each.steps)}
    numbers = (each.number for each in telling.paragraphs if each.number not in plain)
    return tuple(sorted(numbers, key=lambda number: (need[number], -number)))


def _parts(
    puzzle: Puzzle, telling: Telling, parts: Mapping[int, int], *, by_sentence: bool = False
) -> Iterator[_Part]:
    """All steps of the path, by the paragraphs in which they are told, or by their parts."""
    digits = puzzle.board.digits
    words = {each.number: each.words for each in telling.paragraphs}
    for number, steps in groupby(telling.steps, key=lambda told: told.paragraph):
        told = tuple(steps)
        whole = words.get(number, "")
        if _is_summed_up(told, whole):
            cut = [told]
        else:
            cut = (
                _by_sentence(told, digits)
                if by_sentence
                else _cut(told, parts.get(number, 1), digits)
            )
        for part, some in enumerate(cut):
            said = whole if len(cut) == 1 else " ".join(_words(some, digits))
            yield _Part(Piece(number, part, said), some, number in words)


def _words(told: Sequence[Told], digits: int) -> Iterator[str]:
    """What steps say; digits that a push has left alone in their cells need no more words."""
    for at, each in enumerate(told):
        if each.said and not any(_leaves(push, each, digits) for push in told[:at]):
            yield each.said


def _leaves(push: Told, placement: Told, digits: int) -> bool:
    """Whether a step says that nothing but this digit is left in its cell."""
    places = {(cell, bit(digit)) for cell, digit in placement.step.places}
    if not places or push.step.places:
        return False
    if push.step.technique is Technique.MARK:
        return not places.isdisjoint(reach(push.kept.based, digits).items())
    return not places.isdisjoint(push.left)


def divisible(puzzle: Puzzle, telling: Telling) -> dict[int, int]:
    """In how many parts at most each paragraph can be told, by its number."""
    words = {each.number: each.words for each in telling.paragraphs}
    found: dict[int, int] = {}
    for number, steps in groupby(telling.steps, key=lambda told: told.paragraph):
        told = tuple(steps)
        if number in words and not _is_summed_up(told, words[number]):
            found[number] = len(_units(told, puzzle.board.digits))
    return found


def _is_summed_up(told: Sequence[Told], words: str) -> bool:
    """Whether a paragraph says in one sentence what its steps say in many: the singles at the end.

    Else it begins with the words of its first step.
    """
    return bool(words) and len(told) > 1 and not words.startswith(told[0].said.rstrip("."))


def _by_sentence(told: Sequence[Told], digits: int) -> list[tuple[Told, ...]]:
    """Each push with the digits that it leaves, other placements in a row together."""
    found: list[list[Told]] = []
    for unit in _units(told, digits):
        if found and found[-1][0].step.places and unit[0].step.places:
            found[-1] += unit
        else:
            found.append(unit)
    return [tuple(each) for each in found]


def _cut(told: Sequence[Told], parts: int, digits: int) -> list[tuple[Told, ...]]:
    """Steps in so many parts of about as many words, or as many as there can be."""
    units = _units(told, digits)
    parts = min(parts, len(units))
    lengths = [sum(map(len, _words(unit, digits))) for unit in units]
    share = sum(lengths) / parts
    found: list[list[Told]] = [[]]
    so_far = 0
    for index, (unit, length) in enumerate(zip(units, lengths, strict=True)):
        enough = so_far + length / 2 > share * len(found)
        needed = len(units) - index <= parts - len(found)
        if found[-1] and len(found) < parts and (enough or needed):
            found.append([])
        found[-1] += unit
        so_far += length
    return [tuple(each) for each in found]


def _units(told: Sequence[Told], digits: int) -> list[list[Told]]:
    """Steps one by one, but a push with those told with it, and with the digits that it leaves."""
    units: list[list[Told]] = []
    for each in told:
        if each.joined or (units and any(_leaves(push, each, digits) for push in units[-1])):
            units[-1].append(each)
        else:
            units.append([each])
    return units


def _grouped(
    shown: Sequence[tuple[_Part, Scene]], without: Collection[int]
) -> Iterator[StepPicture]:
    """Plain placements with what comes next; the last part has a diagram if any has."""
    waiting: list[Piece] = []
    for index, (part, scene) in enumerate(shown):
        waiting.append(part.piece)
        is_last = index == len(shown) - 1
        if part.piece.number not in without and (is_last or not _is_plain(part.told)):
            yield StepPicture(tuple(waiting), scene)
            waiting = []
    if waiting:
        yield StepPicture(tuple(waiting), None)


def _is_plain(told: Sequence[Told]) -> bool:
    """Whether they only place digits."""
    return all(each.step.places for each in told)
