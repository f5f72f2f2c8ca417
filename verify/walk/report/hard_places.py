"""The hard places of a walk: where a solver who is stuck wants to be told where to look."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from verify.walk.facts.step import Step, Technique
from verify.walk.report.grade import hardest_of, is_as_hard
from verify.walk.report.needed import needed_steps
from verify.walk.walk import Round, Walk


def hard_places(walk: Walk, most: int) -> tuple[Step, ...]:
    """A step for each of the first hard places, in the order of the walk; `most` of them.

    Hard is what is in the band of the hardest technique; easier strikes are taken where there
    are too few. A walk that only places digits is hardest where it has the fewest ways on.
    """
    strikes = [step for step in _apart(needed_steps(walk)) if not step.places]
    if not strikes:
        return _tightest(walk.rounds, most)
    hardest = hardest_of(walk)
    order = sorted(
        range(len(strikes)),
        key=lambda at: (not is_as_hard(strikes[at].technique, hardest), at),
    )
    return tuple(strikes[at] for at in sorted(order[:most]))


def _apart(steps: Sequence[Step]) -> Iterator[Step]:
    """One step of each run that shares a technique, as all of it is seen at one look.

    It is the first one in a place of which nothing was said yet.
    """
    seen: set[object] = set()
    for technique, run in groupby(steps, key=lambda step: step.technique):
        step = next((each for each in run if (technique, _spot(each)) not in seen), None)
        if step is not None:
            seen.add((technique, _spot(step)))
            yield step


def _spot(step: Step) -> object:
    """Where a step is seen: the cell where its mark or itself begins, or its house."""
    because = step.because
    if step.rule:
        return because.links[0].constraint.cells[0]
    if step.chain:
        return step.chain[0].cell
    return because.houses[:1] or because.cells[:1]


def _tightest(rounds: Sequence[Round], most: int) -> tuple[Step, ...]:
    """Placements of the rounds with the fewest ways on; no last cells where there is more."""
    worth = [each for each in rounds if each.technique is not Technique.LAST_CELL] or rounds
    order = sorted(range(len(worth)), key=lambda at: (worth[at].ways, at))
    return tuple(worth[at].steps[0] for at in sorted(order[:most]))
