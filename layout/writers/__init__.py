"""Pictures and documents as files: SVG, PDF, PNG, TIFF."""
