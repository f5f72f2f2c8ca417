"""Items in lighter greys."""

from dataclasses import replace

from layout.picture.items import Fill, Item, Stroke, Text


def faded(item: Item, part: float) -> Item:
    """The item with that part of its ink; white stays white."""
    if isinstance(item, Stroke | Fill | Text):
        return replace(item, grey=1 - (1 - item.grey) * part)
    return item
