"""What a walk shows: a diagram for each paragraph, but for plain placements before the next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from layout.telling.telling import Paragraph, Telling
from verify.puzzle import Puzzle
from verify.walk.report.replay import Scene, replay


@dataclass(frozen=True, slots=True)
class StepPicture:
    """A diagram with the paragraphs beside it; `number` is that of the one which it shows."""

    number: int
    scene: Scene
    paragraphs: tuple[Paragraph, ...]


def step_pictures(puzzle: Puzzle, telling: Telling) -> tuple[StepPicture, ...]:
    """All paragraphs of a walk in their order, each beside one diagram."""
    scenes = paragraph_scenes(puzzle, telling)
    return tuple(
        StepPicture(group[-1].number, scenes[group[-1].number], group)
        for group in _grouped(telling.paragraphs)
    )


def paragraph_scenes(puzzle: Puzzle, telling: Telling) -> dict[int, Scene]:
    """The scene of each paragraph by its number, also of those that the telling leaves out."""
    groups = [
        (number, [told.kept.based for told in steps])
        for number, steps in groupby(telling.steps, key=lambda told: told.paragraph)
    ]
    scenes = replay(puzzle, (steps for _, steps in groups))
    return {number: scene for (number, _), scene in zip(groups, scenes, strict=True)}


def _grouped(paragraphs: Sequence[Paragraph]) -> Iterator[tuple[Paragraph, ...]]:
    """Plain placements with what comes next; the last paragraph always has a diagram."""
    waiting: list[Paragraph] = []
    for each in paragraphs:
        waiting.append(each)
        if not _is_plain(each) or each is paragraphs[-1]:
            yield tuple(waiting)
            waiting = []


def _is_plain(paragraph: Paragraph) -> bool:
    """Whether it only places digits."""
    return all(step.places for step in paragraph.steps)
