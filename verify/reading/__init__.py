"""Text with places: nodes, problems, and the readers that turn nodes into values.

Knows neither YAML nor files, so that the rules can read their own marks.
"""
