"""One module for each command: ``HELP``, ``add_arguments(parser)`` and ``run(arguments)``."""
