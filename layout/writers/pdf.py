"""PDF bytes from a document or a single picture.

Black is DeviceGray, other inks are told by their plates, every font is an embedded subset of what
is shown, and the same input gives the same bytes: no dates are told but those that a press asks
for, and the file's ID is a hash of its content.
"""

import hashlib
import zlib
from collections.abc import Iterable, Iterator, Mapping
from io import BytesIO
from typing import TYPE_CHECKING, Final

from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Picture
from layout.type.roman import roman
from layout.writers.pdf_content import POINT, Content
from layout.writers.pdf_fonts import Subsets
from layout.writers.pdf_inks import Inks
from layout.writers.pdf_inserts import insert_forms
from layout.writers.pdf_x import Press, claim_x1a
from layout.writers.structure import add_structure
from layout.writers.tagged_content import TaggedContent

if TYPE_CHECKING:
    import pikepdf

PDF_VERSION: Final = "1.4"
TAGGED_VERSION: Final = "1.7"
"""The first has no transparency that presses stumble over; PDF/UA-1 rests on the second."""

PRODUCER: Final = "Reglet"


ROMAN_NUMBERS: Final = {roman(number): number for number in range(1, 500)}


def pdf_of_picture(picture: Picture, language: str = "en", *, for_screen: bool = False) -> bytes:
    """One page, exactly as large as the picture; `for_screen` with its inks as RGB."""
    leaf = Leaf(picture.width, picture.height, picture.items, label="1")
    title = picture.title or "Picture"
    document = Document((leaf,), Info(title, "", picture.description, language))
    return pdf_of_document(document, for_screen=for_screen)


def pdf_of_document(
    document: Document,
    press: Press | None = None,
    *,
    tagged: bool = False,
    for_screen: bool = False,
) -> bytes:
    """The whole document; for a press as PDF/X-1a:2003, without links and outline; `tagged` for
    readers who hear it, with a structure tree (PDF/UA-1); `for_screen` with its inks as RGB.

    Raises MissingGlyphError or MissingFontError for what can't be set, and ValueError for a link or
    an outline entry that leads nowhere.
    """
    import pikepdf

    with pikepdf.new() as pdf:
        inks = Inks(for_screen=for_screen)
        contents = _add_pages(pdf, document.leaves, inks, TaggedContent if tagged else Content)
        targets = _targets(pdf, contents)
        _tell(pdf, document.info)
        _label(pdf, (leaf.label for leaf in document.leaves))
        if press is not None:
            claim_x1a(pdf, press)
            return saved(pdf)
        for page, content in zip(pdf.pages, contents, strict=True):
            if content.links:
                annotations = map(pdf.make_indirect, _annotations(content, targets))
                page.Annots = pikepdf.Array(annotations)
        if document.outline:
            _add_outline(pdf, document.outline, targets)
        if tagged:
            add_structure(pdf, [each for each in contents if isinstance(each, TaggedContent)])
        return saved(pdf, tagged=tagged)


def _add_pages(
    pdf: "pikepdf.Pdf", leaves: Iterable[Leaf], inks: Inks, kind: type[Content]
) -> list[Content]:
    """Adds each leaf as a page, packed as soon as it is drawn, then the fonts and inks of all.

    Gives where their links and anchors are.
    """
    from pikepdf import Dictionary, Name, Stream

    subsets, contents = Subsets(), []
    fonts = pdf.make_indirect(Dictionary())
    resources = pdf.make_indirect(Dictionary(Font=fonts))
    for leaf in leaves:
        rim = leaf.rim * POINT
        content = kind(subsets, inks, rim, rim + leaf.height * POINT)
        packed = zlib.compress(content.draw(leaf.items))
        stream = Stream(pdf, packed, Filter=Name.FlateDecode)
        pdf.pages.append(_page(leaf, stream, resources))
        contents.append(content)
    _embed(pdf, subsets, fonts)
    inks.add_to(resources)
    inserts = {name: page for each in contents for name, page in each.inserts.items()}
    if inserts:
        resources.XObject = insert_forms(pdf, inserts)
    return contents


def _embed(pdf: "pikepdf.Pdf", subsets: Subsets, fonts: "pikepdf.Object") -> None:
    """Adds all that is shown of each font."""
    import pikepdf

    with pikepdf.open(BytesIO(subsets.file())) as made:
        for name, font in made.pages[0].Resources.Font.items():
            _rename(font)
            fonts[name] = pdf.copy_foreign(made.make_indirect(font))


def _rename(font: "pikepdf.Object") -> None:
    """Names a subset after what is in it, so that no two are mistaken for one another.

    ISO 32000-1, 9.6.4: six capitals and a plus sign before the name of the font.
    """
    from pikepdf import Name

    descriptor = font.FontDescriptor
    digest = hashlib.sha256(descriptor.FontFile2.read_bytes()).digest()
    tag = "".join(chr(ord("A") + byte % 26) for byte in digest[:6])
    font.BaseFont = descriptor.FontName = Name("/" + tag + str(font.BaseFont)[7:])
    del font.Name


def _page(leaf: Leaf, content: "pikepdf.Object", resources: "pikepdf.Object") -> "pikepdf.Page":
    """A page whose boxes nest: the trim inside the bleed, and that inside the medium."""
    from pikepdf import Dictionary, Name, Page

    rim, slug = leaf.rim * POINT, leaf.slug * POINT
    right, top = rim + leaf.width * POINT, rim + leaf.height * POINT
    return Page(
        Dictionary(
            Type=Name.Page,
            MediaBox=_box(0, 0, right + rim, top + rim),
            BleedBox=_box(slug, slug, right + rim - slug, top + rim - slug),
            TrimBox=_box(rim, rim, right, top),
            Resources=resources,
            Contents=content,
        )
    )


def _box(*edges: float) -> "pikepdf.Array":
    """Left, bottom, right and top in points, to a thirtieth of a micrometre."""
    from pikepdf import Array

    return Array([round(edge, 4) for edge in edges])


def _targets(pdf: "pikepdf.Pdf", contents: Iterable[Content]) -> dict[str, "pikepdf.Array"]:
    """Where each anchor stands: the page and the height, the reader's zoom left alone."""
    from pikepdf import Array, Name

    return {
        name: Array([page.obj, Name.XYZ, 0, top, None])
        for page, content in zip(pdf.pages, contents, strict=True)
        for name, top in content.anchors
    }


def _annotations(
    content: Content, targets: Mapping[str, "pikepdf.Array"]
) -> Iterator["pikepdf.Dictionary"]:
    """Links without a border."""
    from pikepdf import Array, Dictionary, Name

    for *rectangle, target in content.links:
        yield Dictionary(
            Type=Name.Annot,
            Subtype=Name.Link,
            Rect=_box(*rectangle),
            Border=Array([0, 0, 0]),
            Dest=_destination(target, targets),
        )


def _destination(target: str, targets: Mapping[str, "pikepdf.Array"]) -> "pikepdf.Array":
    if target not in targets:
        raise ValueError(f"a link leads to {target!r}, which no page holds")
    return targets[target]


def _tell(pdf: "pikepdf.Pdf", info: Info) -> None:
    """What a reader's program is told about the document, in both ways that there are."""
    from pikepdf import Dictionary

    with pdf.open_metadata(set_pikepdf_as_editor=False) as told:
        told["dc:title"] = info.title
        if info.author:
            told["dc:creator"] = [info.author]
        if info.subject:
            told["dc:description"] = info.subject
        told["dc:language"] = {info.language}
        told["xmp:CreatorTool"] = told["pdf:Producer"] = PRODUCER
    pdf.Root.Lang = info.language
    pdf.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)


def _label(pdf: "pikepdf.Pdf", labels: Iterable[str]) -> None:
    """The fewest ranges of page numbers that give every leaf its label."""
    from pikepdf import Array, Dictionary, Name

    ranges = Array()
    for page, style, start, prefix in label_ranges(labels):
        ranges.append(page)
        ranges.append(Dictionary(S=Name(style), St=start) if style else Dictionary(P=prefix))
    pdf.Root.PageLabels = Dictionary(Nums=ranges)


def label_ranges(labels: Iterable[str]) -> Iterator[tuple[int, str, int, str]]:
    """First page, numbering style, first number and prefix of each range of labels.

    A range of numbers has no prefix, and one without numbers no style (ISO 32000-1, table 159).
    """
    expected = ("", 0)
    for page, label in enumerate(labels):
        style, number = _numbering(label)
        if not style or (style, number) != expected:
            yield page, style, number, "" if style else label
        expected = (style, number + 1)


def _numbering(label: str) -> tuple[str, int]:
    """The style and number that a label is written in; no style for other words."""
    if label.isascii() and label.isdigit() and not label.startswith("0"):
        return "/D", int(label)
    number = ROMAN_NUMBERS.get(label)
    return ("", 0) if number is None else ("/r", number)


def _add_outline(
    pdf: "pikepdf.Pdf", entries: Iterable[OutlineEntry], targets: Mapping[str, "pikepdf.Array"]
) -> None:
    """The outline, unfolded, and shown when the file is opened."""
    from pikepdf import Name, OutlineItem

    with pdf.open_outline() as outline:
        levels = [outline.root]
        for entry in entries:
            del levels[entry.level + 1 :]
            item = OutlineItem(entry.title, _destination(entry.anchor, targets))
            levels[-1].append(item)
            levels.append(item.children)
    pdf.Root.PageMode = Name.UseOutlines


def saved(pdf: "pikepdf.Pdf", *, tagged: bool = False) -> bytes:
    """The file, whose ID is a hash of all that is in it.

    The elements of a tree are many and small, so that they are packed together.
    """
    from pikepdf import ObjectStreamMode

    data = BytesIO()
    pdf.save(
        data,
        force_version=TAGGED_VERSION if tagged else PDF_VERSION,
        object_stream_mode=ObjectStreamMode.generate if tagged else ObjectStreamMode.disable,
        deterministic_id=True,
    )
    return data.getvalue()
