"""The sheets that an editor signs, with the days' own pictures laid over them."""

from collections.abc import Mapping, Sequence
from datetime import date
from io import BytesIO
from typing import Final

from layout.jobs.column.day_files import day_picture
from layout.jobs.column.issues import Issue
from layout.language.words import words_for
from layout.pages.column.sign_off import SignedDay, Slot, sign_off
from layout.picture.items import Picture
from layout.writers.pdf import pdf_of_document, pdf_of_picture, saved

POINT: Final = 72 / 25.4
"""Points in a millimetre."""


def signing_sheets(
    title: str, issues: Sequence[Issue], files: Mapping[int, Sequence[str]]
) -> bytes:
    """A PDF of the days of a run as the first paper prints them.

    `files` are all names of a day's files, by its number. Raises Misfits and CannotDraw as the days
    themselves do.
    """
    first = {issue.date: issue.prints[0] for issue in issues}
    pictures = {
        day: day_picture(each.day, each.kind, each.edition.design) for day, each in first.items()
    }
    days = [
        SignedDay(
            issue.date,
            issue.number,
            issue.known.puzzle,
            issue.known.answer,
            issue.prints[0].day.grade,
            pictures[issue.date].width,
            pictures[issue.date].height,
            tuple(files.get(issue.number, ())),
        )
        for issue in issues
    ]
    design = issues[0].prints[0].edition.design
    document, slots = sign_off(title, days, design.style, words_for(design.language))
    return _laid_over(pdf_of_document(document), slots, pictures)


def _laid_over(sheets: bytes, slots: Sequence[Slot], pictures: Mapping[date, Picture]) -> bytes:
    """The sheets with each day in its places."""
    import pikepdf

    with pikepdf.open(BytesIO(sheets)) as pdf:
        for slot in slots:
            page = pdf.pages[slot.leaf]
            high = float(page.mediabox[3])
            box = pikepdf.Rectangle(
                slot.x * POINT,
                high - (slot.y + slot.height) * POINT,
                (slot.x + slot.width) * POINT,
                high - slot.y * POINT,
            )
            with pikepdf.open(BytesIO(pdf_of_picture(pictures[slot.day]))) as day:
                page.add_overlay(day.pages[0], box)
        return saved(pdf)
