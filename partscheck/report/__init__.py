"""Reports: text for a terminal, JSON for programs."""
