"""What a walk shows: a diagram for each paragraph, but for small placements before the next."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from layout.telling.telling import Paragraph, Telling
from verify.puzzle import Puzzle
from verify.walk.report.replay import Scene, replay

FEW: Final = 3
"""Placements that are told beside the diagram of what comes next."""


@dataclass(frozen=True, slots=True)
class StepPicture:
    """A diagram with the paragraphs beside it; `number` is that of the one which it shows."""

    number: int
    scene: Scene
    paragraphs: tuple[Paragraph, ...]


def step_pictures(puzzle: Puzzle, telling: Telling) -> tuple[StepPicture, ...]:
    """All paragraphs of a walk in their order, each beside one diagram."""
    paragraphs = telling.paragraphs
    scenes = list(replay(puzzle, [each.steps for each in paragraphs]))
    return tuple(
        StepPicture(group[-1].number, scenes[group[-1].number - 1], group)
        for group in _grouped(paragraphs)
    )


def _grouped(paragraphs: Sequence[Paragraph]) -> Iterator[tuple[Paragraph, ...]]:
    """Small placements with what comes next; the last paragraph always has a diagram."""
    waiting: list[Paragraph] = []
    for each in paragraphs:
        waiting.append(each)
        if not _is_small(each) or each is paragraphs[-1]:
            yield tuple(waiting)
            waiting = []


def _is_small(paragraph: Paragraph) -> bool:
    places = [place for step in paragraph.steps for place in step.places]
    return 0 < len(places) <= FEW
