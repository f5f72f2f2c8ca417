"""Pictures from files: what of them is drawn, where, and what is refused with what to do."""

from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from layout.artwork.artwork import CannotPlace
from layout.artwork.read_artwork import read_artwork
from layout.picture.items import Fill

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 96 48">{}</svg>'

REEDS = """<?xml version="1.0"?><!DOCTYPE svg>
<svg xmlns="http://www.w3.org/2000/svg" viewBox="-96 0 192 96">
 <defs>
  <clipPath id="c"><rect x="-96" y="0" width="96" height="96"/></clipPath>
  <g id="reed"><line y2="48" stroke="#ff0000" stroke-width="4"/></g>
 </defs>
 <rect x="-96" width="300" height="96" fill="white"/>
 <g clip-path="url(#c)"><circle cy="48" r="48" style="fill:#333"/></g>
 <use href="#reed" x="48"/><use href="#reed" transform="translate(72 0) scale(1 2)"/>
</svg>"""


def pdf_of(draw, turn=0, pages=1):
    file = BytesIO()
    canvas = Canvas(file, pagesize=(200, 100))
    for _ in range(pages):
        draw(canvas)
        canvas.showPage()
    canvas.save()
    with pikepdf.open(file) as pdf:
        pdf.pages[0].obj.Rotate = turn
        pdf.pages[0].obj.CropBox = pdf.pages[0].obj.TrimBox = pikepdf.Array([100, 0, 200, 100])
        out = BytesIO()
        pdf.save(out)
    return out.getvalue()


def png_of(image):
    file = BytesIO()
    image.save(file, "PNG")
    return file.getvalue()


def boxes(artwork):
    """Left, top, right and bottom of each area, in millimetres, and its grey."""
    for item in artwork.items:
        assert isinstance(item, Fill)
        ends = [each[-2:] for run in item.path for each in (run.start, *run.segments)]
        xs, ys = zip(*ends, strict=True)
        yield tuple(round(each, 1) for each in (min(xs), min(ys), max(xs), max(ys))), item.grey


def looks(artwork, across, down):
    """The grey of a point of the one page that is inserted, by its shares of width and height."""
    (insert,) = artwork.items
    image = pypdfium2.PdfDocument(insert.page)[0].render().to_pil().convert("L")
    return image.getpixel((int(across * image.width), int(down * image.height)))


def test_an_svg_becomes_areas_in_greys_at_their_places():
    artwork = read_artwork(REEDS.encode(), ".svg")
    assert (round(artwork.width, 2), round(artwork.height, 2)) == (50.8, 25.4)
    assert artwork.coloured
    assert list(boxes(artwork)) == [
        ((0.0, 0.0, 50.8, 25.4), 1.0),
        ((12.7, 0.0, 25.4, 25.4), 0.2),
        ((37.6, 0.0, 38.6, 12.7), 0.3),
        ((43.9, 0.0, 45.0, 25.4), 0.3),
    ]
    doubled = Fill(artwork.as_wide(101.6)[-1].path)
    assert max(x for run in doubled.path for x, _ in (run.start,)) < 91
    assert artwork.height_at(101.6) == pytest.approx(50.8)


def bomb(levels):
    inner = "".join(
        f'<g id="g{n}">' + f'<use href="#g{n + 1}"/>' * 10 + "</g>" for n in range(levels)
    )
    return SVG.format(
        f'<defs>{inner}<rect id="g{levels}" width="9" height="9"/></defs><use href="#g0"/>'
    )


@pytest.mark.parametrize(
    ("inner", "said"),
    [
        ("<text>Reeds</text>", "<text> is not drawn; turn its letters into outlines"),
        ('<image href="/etc/passwd"/>', "give the image as a PNG by itself"),
        ("<style>path{fill:red}</style>", "write looks as attributes"),
        ('<rect width="9" height="9" opacity="0.5"/>', "lets colours shine through"),
        ('<rect width="9" height="9" style="filter:url(#f)"/>', "filter is not drawn"),
        ('<rect width="9" height="9" fill="reedy"/>', 'the colour "reedy"'),
        ('<use href="#me" id="me"/>', "use one another"),
        ('<use href="#nobody"/>', "leads to nothing"),
        ("<script/>", "<script> is not drawn"),
        ("", "nothing is drawn"),
        ("<rect", "it is no SVG"),
    ],
)
def test_an_svg_that_cannot_be_printed_says_why(inner, said):
    with pytest.raises(CannotPlace) as refused:
        read_artwork(SVG.format(inner).encode(), ".svg")
    assert said in str(refused.value)


@pytest.mark.parametrize(
    "text",
    [bomb(9), '<!DOCTYPE svg [<!ENTITY a "aa">]>' + SVG.format("&a;"), "<svg/>", "\udcff", "<?x?>"],
)
def test_a_hostile_svg_is_refused_at_once(text):
    with pytest.raises(CannotPlace):
        read_artwork(text.encode("utf-8", "surrogateescape"), ".svg")


def paint(canvas):
    """Red on the left half of what is seen, a black stencil of letters, greys by inks."""
    canvas.setFillColorRGB(1, 0, 0)
    canvas.rect(100, 0, 50, 100, stroke=0, fill=1)
    canvas.setFillColorCMYK(0, 0, 0, 0.5)
    canvas.rect(150, 0, 50, 50, stroke=0, fill=1)
    canvas.drawImage(reader(Image.new("RGB", (4, 4), (0, 255, 0))), 150, 50, 50, 50)


def reader(image):
    from reportlab.lib.utils import ImageReader

    return ImageReader(image)


@pytest.mark.parametrize(("turn", "quarter"), [(0, 0), (90, 1), (180, 2), (270, 3)])
def test_a_pdf_keeps_its_place_its_turn_and_no_colour(turn, quarter):
    artwork = read_artwork(pdf_of(paint, turn), ".pdf")
    assert artwork.coloured
    assert artwork.width == pytest.approx(100 / 72 * 25.4)
    around = [(0.25, 0.25), (0.75, 0.25), (0.75, 0.75), (0.25, 0.75)]
    greys = [looks(artwork, *around[(at + quarter) % 4]) for at in range(4)]
    assert greys == pytest.approx([76, 150, 128, 76], abs=3)
    (insert,) = artwork.items
    with pikepdf.open(BytesIO(insert.page)) as pdf:
        form = pdf.pages[0].Resources.XObject.Picture
        assert not {b" rg", b" RG", b" k", b" K"} & set(form.read_bytes().split(b"\n"))
        (image,) = form.Resources.XObject.values()
        assert image.ColorSpace == "/DeviceGray"


def see_through(canvas):
    canvas.setFillAlpha(0.5)
    canvas.rect(100, 0, 50, 50, fill=1)


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (pdf_of(lambda canvas: canvas.drawString(120, 9, "Reeds")), "not embedded"),
        (pdf_of(see_through), "transparency"),
        (pdf_of(lambda canvas: canvas.linearGradient(0, 0, 9, 9, ("red", "blue"))), "gradient"),
        (pdf_of(paint, pages=2), "2 pages, expected one"),
        (b"%PDF-1.4", "no PDF, or is damaged"),
    ],
)
def test_a_pdf_that_cannot_be_printed_says_why(data, said):
    with pytest.raises(CannotPlace, match=said):
        read_artwork(data, ".pdf")


@pytest.mark.parametrize(
    ("image", "grey", "coloured"),
    [
        (Image.new("1", (30, 20), 0), 0, False),
        (Image.new("L", (30, 20), 99), 99, False),
        (Image.new("I;16", (30, 20), 99 * 256), 99, False),
        (Image.new("RGB", (30, 20), (255, 0, 0)), 76, True),
        (Image.new("RGBA", (30, 20), (0, 0, 0, 51)), 204, False),
        (Image.new("LA", (30, 20), (0, 0)), 255, False),
    ],
)
def test_a_png_is_grey_on_white_paper(image, grey, coloured):
    artwork = read_artwork(png_of(image), ".png")
    assert looks(artwork, 0.5, 0.5) == pytest.approx(grey, abs=1)
    assert (artwork.pixels, artwork.coloured) == (30, coloured)
    assert artwork.resolution_at(25.4) == 30
    assert artwork.height_at(30) == pytest.approx(20)


@pytest.mark.parametrize(
    "data",
    [b"", b"GIF89a", png_of(Image.new("L", (9, 9)))[:45], png_of(Image.new("1", (12_001, 1)))],
)
def test_a_png_that_is_none_or_too_large_is_refused(data):
    with pytest.raises(CannotPlace):
        read_artwork(data, ".png")
