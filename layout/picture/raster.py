"""PNG and TIFF bytes from a picture, at a resolution that the file tells.

Drawn from the picture's PDF by pdfium, so that every output shows the same vectors.
"""

from io import BytesIO
from typing import Any, Final, Literal

from layout.picture.cannot import CannotDraw
from layout.picture.items import Picture
from layout.picture.pdf import pdf_of_picture

MILLIMETRES_PER_INCH: Final = 25.4
LEAST_DPI: Final = 30
MOST_DPI: Final = 2400
MOST_PIXELS: Final = 400_000_000
"""A page of 13 by 19 inches at 1200 dpi has 356 million."""


class TooLarge(CannotDraw):
    """More pixels than can be drawn."""


def png_of_picture(picture: Picture, dpi: int) -> bytes:
    """A grey PNG; its pHYs chunk tells the resolution (ISO/IEC 15948)."""
    return _saved(picture, dpi, "PNG", optimize=False)


def tiff_of_picture(picture: Picture, dpi: int) -> bytes:
    """A grey TIFF, packed without loss; its tags tell the resolution (TIFF 6.0)."""
    return _saved(picture, dpi, "TIFF", compression="tiff_lzw")


def pixels(millimetres: float, dpi: int) -> int:
    """How many pixels a length takes, at least one."""
    return max(1, round(millimetres / MILLIMETRES_PER_INCH * dpi))


def _saved(picture: Picture, dpi: int, kind: Literal["PNG", "TIFF"], **options: Any) -> bytes:
    width, height = pixels(picture.width, dpi), pixels(picture.height, dpi)
    if width * height > MOST_PIXELS:
        raise TooLarge(f"{width} x {height} pixels are too many; ask for fewer dots per inch")
    image = _drawn(pdf_of_picture(picture), width, height)
    data = BytesIO()
    image.save(data, kind, dpi=(dpi, dpi), **options)
    return data.getvalue()


def _drawn(pdf: bytes, width: int, height: int) -> Any:
    """The one page of a PDF over exactly so many pixels, in grey."""
    import pypdfium2
    import pypdfium2.raw as pdfium
    from PIL import Image

    document = pypdfium2.PdfDocument(pdf)
    try:
        page = document[0]
        bitmap = pypdfium2.PdfBitmap.new_native(width, height, pdfium.FPDFBitmap_Gray)
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, width, height)
        flags = pdfium.FPDF_GRAYSCALE
        pdfium.FPDF_RenderPageBitmap(bitmap, page, 0, 0, width, height, 0, flags)
        stride = bitmap.stride
        return Image.frombuffer("L", (width, height), bytes(bitmap.buffer), "raw", "L", stride, 1)
    finally:
        document.close()
