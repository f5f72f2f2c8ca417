"""Pages of other files as forms of a document: each once, however often it is shown."""

import hashlib
from collections.abc import Mapping
from io import BytesIO
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pikepdf


def insert_name(page: bytes) -> str:
    """What a document calls a page that is inserted, by what is in it."""
    return f"Insert{hashlib.sha256(page).hexdigest()[:16]}"


def insert_forms(pdf: "pikepdf.Pdf", pages: Mapping[str, bytes]) -> "pikepdf.Dictionary":
    """A form for each page by its name, each as large as a unit square."""
    from pikepdf import Dictionary

    return Dictionary({f"/{name}": _form(pdf, page) for name, page in sorted(pages.items())})


def _form(pdf: "pikepdf.Pdf", page: bytes) -> "pikepdf.Object":
    import pikepdf
    from pikepdf import Array

    with pikepdf.open(BytesIO(page)) as source:
        own = source.pages[0]
        left, bottom, right, top = (float(edge) for edge in own.mediabox)
        form = pdf.copy_foreign(own.as_form_xobject())
    across, up = 1 / (right - left), 1 / (top - bottom)
    form.Matrix = Array([round(each, 10) for each in (across, 0, 0, up)] + [0, 0])
    return form
