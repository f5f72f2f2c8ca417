"""A day of a newspaper, as a picture and as a fragment of a web page."""
