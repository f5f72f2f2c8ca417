"""The sheets that an editor signs, with the days' own pictures laid over them."""

from collections.abc import Mapping, Sequence
from datetime import date
from io import BytesIO
from typing import TYPE_CHECKING, Final

from layout.jobs.column.day_files import day_picture
from layout.jobs.column.issues import Issue
from layout.language.words import words_for
from layout.pages.column.sign_off import SignedDay, Slot, sign_off
from layout.picture.items import Picture
from layout.writers.pdf import pdf_of_document, pdf_of_picture, saved

if TYPE_CHECKING:
    import pikepdf

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
    """The sheets with each day in its places, each day once in the file.

    Their names are made of their dates: pikepdf's own overlays have names by chance.
    """
    import pikepdf

    with pikepdf.open(BytesIO(sheets)) as pdf:
        forms = {day: _form(pdf, picture) for day, picture in pictures.items()}
        for slot in slots:
            page, name = pdf.pages[slot.leaf], pikepdf.Name(f"/Day{slot.day:%Y%m%d}")
            page.add_resource(forms[slot.day], pikepdf.Name.XObject, name)
            part = slot.width / pictures[slot.day].width
            x = slot.x * POINT
            y = float(page.mediabox[3]) - (slot.y + slot.height) * POINT
            placed = f"q {part:.5f} 0 0 {part:.5f} {x:.3f} {y:.3f} cm {name} Do Q"
            page.contents_add(placed.encode())
        return saved(pdf)


def _form(pdf: "pikepdf.Pdf", picture: Picture) -> "pikepdf.Object":
    """A picture as something that pages of a file can paint."""
    import pikepdf

    with pikepdf.open(BytesIO(pdf_of_picture(picture))) as drawn:
        return pdf.copy_foreign(drawn.pages[0].as_form_xobject())
