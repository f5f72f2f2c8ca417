"""What a printer and a binder need beside the pages: covers, bar codes, imposed sheets, marks."""
