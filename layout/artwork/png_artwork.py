"""A PNG as greys: on white paper where it lets something through."""

from io import BytesIO
from typing import TYPE_CHECKING, Any, Final

from layout.artwork.artwork import Artwork, CannotPlace
from layout.picture.items import Insert

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_SIDE: Final = 12_000
MOST_PIXELS: Final = 50_000_000
"""A page of A4 at 600 pixels an inch has 35 million."""

MILLIMETRES: Final = 25.4 / 300
"""The side of a pixel in the picture's own size."""

POINT: Final = 72 / 25.4


def png_artwork(data: bytes) -> Artwork:
    """The picture of a PNG file. Raises CannotPlace."""
    image, coloured = _opened(data)
    width, height = image.width * MILLIMETRES, image.height * MILLIMETRES
    page = _page_of(image, width * POINT, height * POINT)
    bits = 1 if image.mode == "1" else 8
    return Artwork(width, height, (Insert(0, 0, width, height, page),), image.width, bits, coloured)


def _opened(data: bytes) -> tuple["Image", bool]:
    """The image in black and white or in greys, and whether it had colours."""
    from PIL import Image

    try:
        with Image.open(BytesIO(data), formats=["PNG"]) as image:
            width, height = image.size
            if max(width, height) > MOST_SIDE or width * height > MOST_PIXELS:
                raise CannotPlace(
                    f"it has {width} x {height} pixels, expected at most {MOST_PIXELS // 10**6} "
                    f"million and {MOST_SIDE} on a side"
                )
            image.load()
            return in_greys(image)
    except CannotPlace:
        raise
    except Exception as error:  # a damaged file may be anything
        raise CannotPlace("it is no PNG, or is damaged") from error


def in_greys(image: "Image") -> tuple["Image", bool]:
    """An image in black and white or in greys, laid on white; and whether it had colours."""
    from PIL import Image

    if image.mode == "1":
        return image.copy(), False
    if image.mode.startswith("I"):  # 16 bits a pixel, of which the upper 8 are kept
        return image.point(lambda level: level / 256).convert("L"), False
    if image.has_transparency_data:
        image = image.convert("RGBA")
        paper = Image.new("RGBA", image.size, (255, 255, 255, 255))
        image = Image.alpha_composite(paper, image).convert("RGB")
    coloured = image.mode not in ("1", "L") and _has_colours(image.convert("RGB"))
    return image.convert("L"), coloured


def _has_colours(image: "Image") -> bool:
    """Whether any pixel of red, green and blue is far from grey."""
    from PIL import ImageChops

    red, green, blue = image.split()
    pairs = ((red, green), (green, blue))
    extremes = [ImageChops.difference(*pair).getextrema() for pair in pairs]
    return any(int(most) > 8 for _, most in extremes)  # type: ignore[arg-type]


def _page_of(image: "Image", width: float, height: float) -> bytes:
    """A PDF of one page that the image fills, in points."""
    import pikepdf
    from pikepdf import Array, Dictionary, Name

    with pikepdf.new() as pdf:
        resources = Dictionary(XObject=Dictionary(Picture=image_stream(pdf, image)))
        content = pdf.make_stream(f"q {width:.4f} 0 0 {height:.4f} 0 0 cm /Picture Do Q".encode())
        box = Array([0, 0, round(width, 4), round(height, 4)])
        page = Dictionary(Type=Name.Page, MediaBox=box, Resources=resources, Contents=content)
        pdf.pages.append(pikepdf.Page(page))
        file = BytesIO()
        pdf.save(file, deterministic_id=True)
    return file.getvalue()


def image_stream(pdf: Any, image: "Image") -> Any:
    """An image in black and white or in greys, as an object of a PDF."""
    import zlib

    from pikepdf import Name, Stream

    stream = Stream(pdf, zlib.compress(image.tobytes(), 9))
    stream.Type, stream.Subtype, stream.Filter = Name.XObject, Name.Image, Name.FlateDecode
    stream.Width, stream.Height = image.size
    stream.ColorSpace, stream.BitsPerComponent = Name.DeviceGray, 1 if image.mode == "1" else 8
    return stream
