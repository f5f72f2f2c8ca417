"""Faces: a font at a size, with its leading, as style sheets give them."""

from dataclasses import dataclass, replace
from typing import Annotated, TypeAlias

from layout.lengths import Length
from layout.type.font_name import FontName

Size: TypeAlias = Annotated[float, Length(1.4, 60)]
"""The em or the leading of a face: from 4 to 170 points."""


@dataclass(frozen=True, slots=True)
class Face:
    """A font by name, its em and its leading in millimetres."""

    font: Annotated[FontName, "the font"]
    size: Annotated[Size, "the size of its letters: the em"]
    leading: Annotated[Size, "from one baseline to the next"]

    def scaled(self, share: float) -> "Face":
        """The same at a share of its size."""
        return replace(self, size=self.size * share, leading=self.leading * share)


@dataclass(frozen=True, slots=True)
class Voices:
    """The fonts of roman, italic and bold words at one size (the em) and leading, in millimetres.

    `italic` is what emphasis is set in; a style sheet that wants no italics names another font.
    """

    roman: Annotated[FontName, "the font of plain words"]
    italic: Annotated[FontName, "the font that emphasis is set in"]
    bold: Annotated[FontName, "the font of strong words"]
    size: Annotated[Size, "the size of their letters: the em"]
    leading: Annotated[Size, "from one baseline to the next"]

    @classmethod
    def of(cls, face: Face) -> "Voices":
        """One font for all voices."""
        return cls(face.font, face.font, face.font, face.size, face.leading)

    @property
    def face(self) -> Face:
        """The roman face."""
        return Face(self.roman, self.size, self.leading)
