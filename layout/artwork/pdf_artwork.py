"""A PDF of one page as artwork: lines and letters are kept as they are, colours become greys."""

from io import BytesIO
from typing import TYPE_CHECKING, Final

from layout.artwork.artwork import Artwork, CannotPlace
from layout.artwork.pdf_greys import Greys
from layout.picture.items import Insert

if TYPE_CHECKING:
    import pikepdf

POINT: Final = 25.4 / 72

TURNS: Final = {
    0: (1, 0, 0, 1),
    90: (0, -1, 1, 0),
    180: (-1, 0, 0, -1),
    270: (0, 1, -1, 0),
}
"""How a page is turned clockwise when it is shown, as the linear part of a matrix."""


def pdf_artwork(data: bytes) -> Artwork:
    """The picture of a PDF of one page, as large as its trim. Raises CannotPlace."""
    import pikepdf

    try:
        with pikepdf.open(BytesIO(data)) as source:
            return _artwork(source)
    except pikepdf.PasswordError:
        raise CannotPlace("it is locked by a password") from None
    except CannotPlace:
        raise
    except Exception as error:  # a damaged file may be anything
        raise CannotPlace(f"it is no PDF, or is damaged: {error}") from None


def _artwork(source: "pikepdf.Pdf") -> Artwork:
    if len(source.pages) != 1:
        raise CannotPlace(f"it has {len(source.pages)} pages, expected one")
    if "/OCProperties" in source.Root:
        raise CannotPlace("it has layers; flatten them")
    page = source.pages[0]
    if "/UserUnit" in page.obj:
        raise CannotPlace("its page has a unit of its own")
    left, bottom, right, top = (float(edge) for edge in page.trimbox)
    width, height = abs(right - left), abs(top - bottom)
    greys = Greys(source)
    form = greys.form_of_page(page)
    turn = page.rotation % 360
    across, up = (height, width) if turn in (90, 270) else (width, height)
    a, b, c, d = TURNS[turn]
    low, foot = min(left, right), min(bottom, top)
    corners = [(a * x + c * y, b * x + d * y) for x in (0, width) for y in (0, height)]
    e, f = (-min(values) for values in zip(*corners, strict=True))
    # First to the corner of the trim, then turned, then back into the quadrant of the page.
    form.BBox = pikepdf_box(low, foot, low + width, foot + height)
    matrix = (a, b, c, d, e - a * low - c * foot, f - b * low - d * foot)
    form.Matrix = pikepdf_box(*matrix)
    sized = Insert(0, 0, across * POINT, up * POINT, _alone(form, across, up))
    return Artwork(sized.width, sized.height, (sized,), coloured=greys.coloured)


def pikepdf_box(*numbers: float) -> "pikepdf.Array":
    """Numbers as a PDF holds them, to a tenth of a thousandth."""
    from pikepdf import Array

    return Array([round(number, 4) for number in numbers])


def _alone(form: "pikepdf.Object", width: float, height: float) -> bytes:
    """A file with one page, which shows the form and nothing else."""
    import pikepdf
    from pikepdf import Dictionary, Name

    with pikepdf.new() as pdf:
        content = pdf.make_stream(b"/Picture Do")
        resources = Dictionary(XObject=Dictionary(Picture=pdf.copy_foreign(form)))
        box = pikepdf_box(0, 0, width, height)
        page = Dictionary(Type=Name.Page, MediaBox=box, Resources=resources, Contents=content)
        pdf.pages.append(pikepdf.Page(page))
        file = BytesIO()
        pdf.save(file, deterministic_id=True)
    return file.getvalue()
