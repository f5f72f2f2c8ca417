"""How things look: style sheets, read from YAML."""
