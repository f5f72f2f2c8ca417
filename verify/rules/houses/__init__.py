"""Rules over groups of cells of the whole board, with nothing to draw or little."""
