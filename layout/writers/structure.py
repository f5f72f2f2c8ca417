"""The structure tree of a tagged file: what a screen reader goes through (ISO 32000-1, 14.7).

PDF/UA-1 (ISO 14289-1) asks for it: everything is an element of the tree or an artifact, figures
have words in their place, links lie in elements of their own and say where they lead.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from layout.writers.tagged_content import Element, Piece, TaggedContent

if TYPE_CHECKING:
    import pikepdf

UA: Final = "http://www.aiim.org/pdfua/ns/id/"
"""The name space of PDF/UA's mark in the metadata (ISO 14289-1, 5)."""


def add_structure(pdf: "pikepdf.Pdf", contents: Sequence[TaggedContent]) -> None:
    """Adds the tree for pages that are in the file, with their links as annotations."""
    from pikepdf import Array, Dictionary, Name

    root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    document = _element(pdf, "Document", root)
    tree = _Tree(pdf, document, len(contents))
    kids = Array()
    numbers: list[int | pikepdf.Object] = []
    for index, (page, content) in enumerate(zip(pdf.pages, contents, strict=True)):
        page.StructParents, page.Tabs = index, Name.S
        parents = Array()
        for element in content.elements:
            kids.append(tree.add(element, page, parents))
        numbers += [index, pdf.make_indirect(parents)]
    document.K = kids
    numbers += tree.of_links
    root.K = document
    root.ParentTree = pdf.make_indirect(Dictionary(Nums=Array(numbers)))
    root.ParentTreeNextKey = tree.next_key
    pdf.Root.StructTreeRoot = root
    pdf.Root.MarkInfo = Dictionary(Marked=True)
    _claim(pdf)


class _Tree:
    """Makes elements, and numbers the links after the pages."""

    def __init__(self, pdf: "pikepdf.Pdf", document: "pikepdf.Object", pages: int) -> None:
        self._pdf, self._document = pdf, document
        self.next_key = pages
        self.of_links: list[int | pikepdf.Object] = []

    def add(
        self, element: Element, page: "pikepdf.Page", parents: "pikepdf.Array"
    ) -> "pikepdf.Object":
        """The element of a passage; to `parents` that of each of its pieces is added."""
        from pikepdf import Array

        node = _element(self._pdf, element.kind, self._document)
        node.Pg = page.obj
        if element.kind == "Figure":
            node.Alt = element.alt
            node.A = _placed(element.box)
        kids = Array()
        for piece in element.pieces:
            if piece.link is None:
                kids.append(piece.mcid)
                parents.append(node)
            else:
                link = self._link(piece, page.Annots[piece.link], node)
                kids.append(link)
                parents.append(link)
        node.K = kids
        return node

    def _link(
        self, piece: Piece, annotation: "pikepdf.Object", parent: "pikepdf.Object"
    ) -> "pikepdf.Object":
        """An element with the link's words and its annotation, which says the same words."""
        from pikepdf import Array, Dictionary, Name

        node = _element(self._pdf, "Link", parent)
        node.Pg = parent.Pg
        annotation.Contents, annotation.StructParent = piece.words, self.next_key
        node.K = Array([piece.mcid, Dictionary(Type=Name.OBJR, Obj=annotation)])
        self.of_links += [self.next_key, node]
        self.next_key += 1
        return node


def _element(pdf: "pikepdf.Pdf", kind: str, parent: "pikepdf.Object") -> "pikepdf.Object":
    from pikepdf import Dictionary, Name

    return pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name(f"/{kind}"), P=parent))


def _placed(box: Sequence[float]) -> "pikepdf.Dictionary":
    """Where a figure stands on its page (ISO 32000-1, 14.8.5.4)."""
    from pikepdf import Array, Dictionary, Name

    return Dictionary(O=Name.Layout, Placement=Name.Block, BBox=Array(list(box)))


def _claim(pdf: "pikepdf.Pdf") -> None:
    """Says in the metadata that the file keeps to PDF/UA-1."""
    with pdf.open_metadata(set_pikepdf_as_editor=False) as told:
        told.register_xml_namespace(UA, "pdfuaid")
        told["pdfuaid:part"] = "1"
