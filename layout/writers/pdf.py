"""PDF bytes from a document or a single picture.

Everything is DeviceGray, every font an embedded subset of what is shown, and the same input
gives the same bytes: dates are fixed, the file's ID is a hash of its content. No canvas is
used: reportlab's own lists an unembedded Helvetica and an empty transition on each page.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Final

from layout.picture.document import Document, Info, Leaf, OutlineEntry
from layout.picture.items import Picture
from layout.type.roman import roman
from layout.writers.pdf_content import POINT, Content, FontShelf

PDF_VERSION: Final = (1, 4)
PRODUCER: Final = "Reglet"


ROMAN_NUMBERS: Final = {roman(number): number for number in range(1, 500)}


def pdf_of_picture(picture: Picture, language: str = "en") -> bytes:
    """One page, exactly as large as the picture."""
    leaf = Leaf(picture.width, picture.height, picture.items, label="1")
    title = picture.title or "Picture"
    return pdf_of_document(Document((leaf,), Info(title, "", picture.description, language)))


def pdf_of_document(document: Document) -> bytes:
    """The whole document.

    Raises MissingGlyphError or MissingFontError for what can't be set, and ValueError for a link or
    an outline entry that leads nowhere.
    """
    from reportlab.pdfbase import pdfdoc

    pdf: Any = pdfdoc.PDFDocument(
        compression=1, invariant=1, pdfVersion=PDF_VERSION, lang=document.info.language
    )
    shelf = FontShelf(pdf)
    contents = [_content(leaf, shelf) for leaf in document.leaves]
    targets = _targets(contents)
    streams = [content.finish() for content in contents]
    for leaf, content, stream in zip(document.leaves, contents, streams, strict=True):
        pdf.addPage(_page(leaf, stream, _annotations(content, targets)))
    _tell(pdf, document.info)
    pdf.Catalog.PageLabels = _page_labels(leaf.label for leaf in document.leaves)
    if document.outline:
        _add_outline(pdf, document.outline, targets)
    pdf._ID = _identity(streams, document)
    data: bytes = pdf.GetPDFData(None)
    return data


def _content(leaf: Leaf, shelf: FontShelf) -> Content:
    content = Content(shelf, leaf.bleed * POINT, (leaf.bleed + leaf.height) * POINT)
    content.write(leaf.items)
    return content


def _targets(contents: Iterable[Content]) -> dict[str, tuple[int, float]]:
    """Where each anchor stands: page from 0, and height in points."""
    return {
        name: (page, top) for page, content in enumerate(contents) for name, top in content.anchors
    }


def _page(leaf: Leaf, stream: str, annotations: list[Any]) -> Any:
    """A page whose boxes nest: the trim inside the bleed, which is all of the medium."""
    from reportlab.pdfbase import pdfdoc

    bleed, width, height = leaf.bleed * POINT, leaf.width * POINT, leaf.height * POINT
    outer = [0, 0, width + 2 * bleed, height + 2 * bleed]
    page: Any = pdfdoc.PDFPage()
    page.MediaBox = pdfdoc.PDFArray(outer)
    page.BleedBox = pdfdoc.PDFArray(outer)
    page.TrimBox = pdfdoc.PDFArray([bleed, bleed, bleed + width, bleed + height])
    page.Annots = annotations
    page.Contents = pdfdoc.PDFStream(content=stream, filters=[pdfdoc.PDFZCompress])
    page.Resources = pdfdoc.PDFResourceDictionary()
    page.Resources.basicFonts()
    page.Resources.basicProcs()
    return page


def _annotations(content: Content, targets: Mapping[str, tuple[int, float]]) -> list[Any]:
    """Links without a border."""
    from reportlab.pdfbase import pdfdoc

    return [
        pdfdoc.PDFDictionary(
            {
                "Type": pdfdoc.PDFName("Annot"),
                "Subtype": pdfdoc.PDFName("Link"),
                "Rect": pdfdoc.PDFArray(rectangle),
                "Border": pdfdoc.PDFArray([0, 0, 0]),
                "Dest": _destination(target, targets),
            }
        )
        for *rectangle, target in content.links
    ]


def _destination(target: str, targets: Mapping[str, tuple[int, float]]) -> Any:
    """The page and height that an anchor names, the reader's zoom left alone."""
    from reportlab.pdfbase import pdfdoc

    if target not in targets:
        raise ValueError(f"a link leads to {target!r}, which no page holds")
    page, top = targets[target]
    reference = pdfdoc.PDFObjectReference(f"Page{page + 1}")
    return pdfdoc.PDFArray([reference, pdfdoc.PDFName("XYZ"), 0, top, "null"])


def _tell(pdf: Any, info: Info) -> None:
    """What a reader's program is told about the document."""
    from reportlab.pdfbase import pdfdoc

    pdf.info.title = info.title
    pdf.info.author = info.author
    pdf.info.subject = info.subject
    pdf.info.creator = pdf.info.producer = PRODUCER
    pdf.Catalog.ViewerPreferences = pdfdoc.PDFDictionary({"DisplayDocTitle": "true"})


def _page_labels(labels: Iterable[str]) -> Any:
    """The fewest ranges of page numbers that give every leaf its label."""
    from reportlab.pdfbase import pdfdoc

    found = pdfdoc.PDFPageLabels()
    for page, style, start, prefix in label_ranges(labels):
        found.addPageLabel(page, pdfdoc.PDFPageLabel(style, start, prefix))
    return found


def label_ranges(
    labels: Iterable[str],
) -> Iterator[tuple[int, str | None, int | None, str | None]]:
    """First page, numbering style, first number and prefix of each range of labels."""
    expected: tuple[str | None, int] = (None, 0)
    for page, label in enumerate(labels):
        style, number = _numbering(label)
        if style is None or (style, number) != expected:
            yield (page, None, None, label) if style is None else (page, style, number, None)
        expected = (style, number + 1)


def _numbering(label: str) -> tuple[str | None, int]:
    """The style and number that a label is written in; no style for other words."""
    if label.isascii() and label.isdigit() and not label.startswith("0"):
        return "ARABIC", int(label)
    number = ROMAN_NUMBERS.get(label)
    return (None, 0) if number is None else ("ROMAN_LOWER", number)


def _add_outline(
    pdf: Any, entries: Iterable[OutlineEntry], targets: Mapping[str, tuple[int, float]]
) -> None:
    """The outline as linked dictionaries (ISO 32000-1, 12.3.3)."""
    from reportlab.pdfbase import pdfdoc

    root: Any = pdfdoc.PDFDictionary({"Type": pdfdoc.PDFName("Outlines")})
    open_items: list[tuple[Any, Any, list[tuple[Any, Any]]]] = [(root, pdf.Reference(root), [])]
    for entry in entries:
        del open_items[entry.level + 1 :]
        parent, parent_reference, children = open_items[-1]
        item = pdfdoc.PDFDictionary(
            {
                "Title": pdfdoc.PDFString(entry.title),
                "Parent": parent_reference,
                "Dest": _destination(entry.anchor, targets),
            }
        )
        reference = pdf.Reference(item)
        if children:
            before, before_reference = children[-1]
            before["Next"], item["Prev"] = reference, before_reference
        else:
            parent["First"] = reference
        parent["Last"] = reference
        children.append((item, reference))
        parent["Count"] = len(children)
        open_items.append((item, reference, []))
    # The document prepares its outline on saving; this one is ready as it is.
    root.ready, root.prepare = 1, lambda document, canvas: None
    pdf.Catalog.Outlines = pdf.Outlines = root
    pdf.Catalog.PageMode = pdfdoc.PDFName("UseOutlines")


def _identity(streams: Iterable[str], document: Document) -> bytes:
    """The trailer's ID: a hash of what is printed and told, the same for the same content."""
    digest = hashlib.sha256(repr((document.info, document.outline)).encode())
    for stream in streams:
        digest.update(stream.encode("latin-1"))
    name = digest.hexdigest()[:32].upper()
    return f"\n[<{name}><{name}>]\n".encode("ascii")
