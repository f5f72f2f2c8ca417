"""Pictures from files of others, as items in greys: SVG, PDF and PNG."""
