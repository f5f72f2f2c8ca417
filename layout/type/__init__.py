"""Words: fonts, markup, lines, paragraphs, prose, and the sentences of each language."""
