"""The kinds of parts and the other maps of a list: what each field means and how to measure it."""
