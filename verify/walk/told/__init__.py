"""The path that is told: one step at a time, none that is not needed, each with its own reason."""
