"""A finished file as plain facts: boxes, letters, paint, images, links, labels, keys."""
