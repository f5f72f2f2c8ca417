"""One drawer a kind of mark: facts in cells become items in layers."""
