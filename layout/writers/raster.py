"""PNG and TIFF bytes from a picture, at a resolution that the file tells.

Drawn from the picture's PDF by pdfium, so that every output shows the same vectors: in greys
with smooth edges, or with one bit a pixel for presses that want line art. A PNG shows other inks
than black as a screen does; a TIFF is for a press that has but one.
"""

from dataclasses import replace
from io import BytesIO
from typing import Any, Final, Literal

from layout.picture.cannot import CannotDraw
from layout.picture.ink import in_ink, is_coloured
from layout.picture.items import Picture
from layout.writers.pdf import pdf_of_picture
from layout.writers.pixel_grid import PixelGrid
from layout.writers.screen import screened

MILLIMETRES_PER_INCH: Final = 25.4
LEAST_DPI: Final = 30
MOST_DPI: Final = 2400
MOST_PIXELS: Final = 400_000_000
"""A page of 13 by 19 inches at 1200 dpi has 356 million."""


class TooLarge(CannotDraw):
    """More pixels than can be drawn."""


def png_of_picture(picture: Picture, dpi: int, *, one_bit: bool = False) -> bytes:
    """A PNG, grey, in colour, or in black and white.

    Its pHYs chunk tells the resolution (ISO/IEC 15948).
    """
    return _saved(picture, dpi, one_bit, "PNG", optimize=False)


def tiff_of_picture(picture: Picture, dpi: int, *, one_bit: bool = False) -> bytes:
    """A TIFF, packed without loss; its tags tell the resolution (TIFF 6.0).

    One in black and white is packed as faxes are, by CCITT's group 4 (ITU-T T.6).
    """
    packing = "group4" if one_bit else "tiff_lzw"
    return _saved(picture, dpi, one_bit, "TIFF", compression=packing)


def pixels(millimetres: float, dpi: int) -> int:
    """How many pixels a length takes, at least one."""
    return max(1, round(millimetres / MILLIMETRES_PER_INCH * dpi))


def _saved(
    picture: Picture, dpi: int, one_bit: bool, kind: Literal["PNG", "TIFF"], **options: Any
) -> bytes:
    width, height = pixels(picture.width, dpi), pixels(picture.height, dpi)
    if width * height > MOST_PIXELS:
        raise TooLarge(f"{width} x {height} pixels are too many; ask for fewer dots per inch")
    if one_bit:
        image = _in_two_values(picture, width, height, dpi)
    elif kind == "PNG" and is_coloured(picture.items):
        image = _in_colour(picture, width, height)
    else:
        image = _drawn(pdf_of_picture(_in_black(picture)), width, height, smooth=True)
    data = BytesIO()
    image.save(data, kind, dpi=(dpi, dpi), **options)
    return data.getvalue()


def _in_black(picture: Picture) -> Picture:
    """The picture as a press prints it that has no other ink."""
    if not is_coloured(picture.items):
        return picture
    return replace(picture, items=tuple(in_ink(item, None) for item in picture.items))


def _in_colour(picture: Picture, width: int, height: int) -> Any:
    """The picture in RGB, inks as a screen shows them."""
    import pypdfium2
    from PIL import Image

    document = pypdfium2.PdfDocument(pdf_of_picture(picture, for_screen=True))
    try:
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pypdfium2.raw.FPDFBitmap_BGR)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        pypdfium2.raw.FPDF_RenderPageBitmap(bitmap, document[0], 0, 0, width, height, 0, 0)
        data, stride = bytes(bitmap.buffer), bitmap.stride
        return Image.frombuffer("RGB", (width, height), data, "raw", "BGR", stride, 1)
    finally:
        document.close()


def _in_two_values(picture: Picture, width: int, height: int, dpi: int) -> Any:
    """The picture in black and white: lines on whole pixels, tints as dots."""
    grid = PixelGrid(width / picture.width, height / picture.height)
    fitted = replace(picture, items=tuple(grid.fitted(_in_black(picture).items)))
    return screened(_drawn(pdf_of_picture(fitted), width, height, smooth=False), dpi)


def _drawn(pdf: bytes, width: int, height: int, *, smooth: bool) -> Any:
    """The one page of a PDF over exactly so many pixels, in grey.

    Where it is not smooth a pixel has the grey of what covers more than half of it.
    """
    import pypdfium2
    import pypdfium2.raw as pdfium
    from PIL import Image

    document = pypdfium2.PdfDocument(pdf)
    try:
        page = document[0]
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pdfium.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        flags = pdfium.FPDF_GRAYSCALE
        if not smooth:
            flags |= pdfium.FPDF_RENDER_NO_SMOOTHTEXT | pdfium.FPDF_RENDER_NO_SMOOTHPATH
        pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, flags)
        stride = bitmap.stride
        return Image.frombuffer("L", (width, height), bytes(bitmap.buffer), "raw", "L", stride, 1)
    finally:
        document.close()
