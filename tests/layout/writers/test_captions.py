"""What images say of themselves, read back by libraries that know the formats."""

from functools import partial
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

import pikepdf
import pytest
from PIL import Image, IptcImagePlugin

from layout.writers.captions import Caption, with_caption
from layout.writers.pdf import pdf_of_picture
from layout.writers.raster import png_of_picture, tiff_of_picture
from layout.writers.svg import svg_of_picture
from tests.support.columns import day_of, picture_of

CAPTION = Caption(
    "Slack Water, No. 218",
    "Each row holds the digits 1 to 9 – once. <&>",
    "Ida Märsh",
    "Saltmarsh Desk",
    "2027-03-01",
)


@pytest.fixture(scope="module")
def picture():
    return picture_of(day_of())


def told(xmp):
    """The properties of a packet, by their names in RDF."""
    tree = ElementTree.fromstring(xmp)
    found: dict[str, Any] = {}
    for element in tree.iter():
        name = element.tag.rpartition("}")[2]
        if element.text and element.text.strip() and name != "li":
            found[name] = element.text
        for item in element.findall(".//{http://www.w3.org/1999/02/22-rdf-syntax-ns#}li"):
            if name in ("title", "description", "creator"):
                found[name] = item.text
    return found


def check(found):
    assert found["title"] == CAPTION.title
    assert found["description"] == CAPTION.description
    assert found["creator"] == CAPTION.creator
    assert found["Credit"] == CAPTION.credit
    assert found["DateCreated"] == CAPTION.date
    assert not {"CreateDate", "ModifyDate", "MetadataDate"} & set(found)


@pytest.mark.parametrize("one_bit", [False, True])
def test_png_and_tiff_have_xmp_and_the_same_pixels(picture, one_bit):
    for ending, make in (("png", png_of_picture), ("tiff", tiff_of_picture)):
        plain = make(picture, 150, one_bit=one_bit)
        data = with_caption(plain, CAPTION, ending)
        with Image.open(BytesIO(data)) as image, Image.open(BytesIO(plain)) as before:
            tags: Any = image
            xmp = image.info["xmp"] if ending == "png" else tags.tag_v2[700]
            assert image.mode == before.mode
            assert image.info["dpi"] == before.info["dpi"]
            assert image.tobytes() == before.tobytes()
            if ending == "tiff":
                assert image.info["compression"] == before.info["compression"]
        check(told(xmp))


def test_tiff_has_iptc_records(picture):
    """IIM 4.2: title 2:05, date 2:55, by-line 2:80, credit 2:110, caption 2:120."""
    data = with_caption(tiff_of_picture(picture, 150), CAPTION, "tiff")
    with Image.open(BytesIO(data)) as image:
        found = IptcImagePlugin.getiptcinfo(image)
    assert found is not None
    found = {key: value for key, value in found.items() if isinstance(value, bytes)}
    assert found[2, 5].decode() == CAPTION.title
    assert found[2, 55] == b"20270301"
    assert found[2, 80].decode() == CAPTION.creator
    assert found[2, 110].decode() == CAPTION.credit
    assert found[2, 120].decode() == CAPTION.description


def test_pdf_says_it_in_its_metadata(picture):
    data = with_caption(pdf_of_picture(picture), CAPTION, "pdf")
    with pikepdf.open(BytesIO(data)) as pdf, pdf.open_metadata() as metadata:
        assert metadata["dc:title"] == CAPTION.title
        assert metadata["dc:description"] == CAPTION.description
        assert metadata["dc:creator"] == [CAPTION.creator]
        assert metadata["photoshop:Credit"] == CAPTION.credit
        assert metadata["photoshop:DateCreated"] == CAPTION.date


def test_svg_says_it_beside_the_drawing(picture):
    plain = svg_of_picture(picture)
    tree = ElementTree.fromstring(with_caption(plain, CAPTION, "svg"))
    (first, *others) = list(tree)
    assert first.tag == "{http://www.w3.org/2000/svg}metadata"
    check(told(ElementTree.tostring(first)))
    assert len(others) == len(list(ElementTree.fromstring(plain)))


MAKERS: dict[str, Any] = {
    "svg": svg_of_picture,
    "pdf": pdf_of_picture,
    "png": partial(png_of_picture, dpi=150),
    "tiff": partial(tiff_of_picture, dpi=150),
}


@pytest.mark.parametrize("ending", MAKERS)
def test_the_same_caption_gives_the_same_bytes(picture, ending):
    plain = MAKERS[ending](picture)
    assert with_caption(plain, CAPTION, ending) == with_caption(plain, CAPTION, ending)


def test_other_formats_stay_as_they_are():
    assert with_caption(b"words", CAPTION, "txt") == b"words"
