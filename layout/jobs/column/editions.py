"""Editions: several papers that print one season, each in its own columns, style and language."""

from dataclasses import dataclass, replace
from typing import Any, Final, cast

from layout.jobs.column.column_job import ColumnJob, EditionJob
from layout.jobs.column.day_files import ColumnDesign
from layout.jobs.column.press_profile import profile_of
from layout.jobs.column.season import DayKind, kinds_of
from layout.jobs.common.job import Job
from layout.pages.column.column import ShowItem
from layout.style.style import read_style
from verify.reading.node import Fields, Node
from verify.reading.problems import Problem, Unreadable

SAID_ALIKE: Final = (
    "title",
    "depth",
    "language",
    "style",
    "arrange",
    "answer",
    "show",
    "note",
    "credit",
)
"""What an edition says as the job does."""


@dataclass(frozen=True, slots=True)
class Edition:
    """What one paper prints; `name` is empty where the job has no editions.

    `job` is the whole job as it is for this paper.
    """

    name: str
    job: Job[ColumnJob]
    kinds: tuple[DayKind, ...]
    design: ColumnDesign


def editions_of(job: Job[ColumnJob]) -> tuple[Edition, ...]:
    """The editions of a job; one without a name where it lists none.

    Raises Unreadable for what can't be used, and where their files would have the same names.
    """
    if not job.values.editions:
        return (_edition("", job),)
    if "{edition}" not in job.values.output.name:
        found = f'found "{job.values.output.name}", expected {{edition}} in it: there are several'
        raise Unreadable([Problem(job.place(("output", "name")), found)])
    return tuple(
        _edition(name, _told_for(job, name, own)) for name, own in job.values.editions.items()
    )


def _told_for(job: Job[ColumnJob], name: str, own: EditionJob) -> Job[ColumnJob]:
    """The job with what an edition has of its own in place of the rest."""
    values, output = _as_wide(job.values, own), job.values.output
    if own.formats is not None:
        output = replace(output, formats=own.formats)
    told: dict[str, Any] = {
        key: value for key in SAID_ALIKE if (value := getattr(own, key)) is not None
    }
    return Job(job.path, job.name, _tree(job.tree, name), replace(values, output=output, **told))


def _as_wide(values: ColumnJob, own: EditionJob) -> ColumnJob:
    """The job's values with the edition's own width: told directly, or in columns."""
    if own.width is not None:
        return replace(values, columns=own.columns, measure=own.measure, width=own.width)
    if own.columns is None and own.measure is None:
        return values
    columns, measure = own.columns or values.columns, own.measure or values.measure
    return replace(values, columns=columns, measure=measure, width=None)


def _tree(tree: Node, name: str) -> Node:
    """The job file with the edition's own keys in place, so that each slip is told where it is."""
    editions = tree.get("editions") if isinstance(tree, Fields) else None
    own = editions.get(name) if isinstance(editions, Fields) else None
    if not isinstance(tree, Fields) or not isinstance(own, Fields):
        return tree
    taken = {key.text for key, _ in own.entries}
    kept = (entry for entry in tree.entries if entry[0].text not in taken)
    return Fields(tree.place, (*own.entries, *kept))


def _edition(name: str, job: Job[ColumnJob]) -> Edition:
    return Edition(name, job, kinds_of(job), _design(job))


def _design(job: Job[ColumnJob]) -> ColumnDesign:
    """What all days of a paper have in common.

    Raises Unreadable for a style that can't be read, and for days without a grid.
    """
    values = job.values
    if "grid" not in values.show:
        message = "found no grid among what is shown, expected it in the list"
        raise Unreadable([Problem(job.place(("show",)), message)])
    output = values.output
    return ColumnDesign(
        read_style(values.style, job.folder, job.place(("style",))),
        values.language,
        cast(tuple[ShowItem, ...], values.show),
        output.dpi,
        output.one_bit,
        values.arrange,
        values.credit,
        profile_of(output.profile, job.folder, job.place(("output", "profile"))),
    )
