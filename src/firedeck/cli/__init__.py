"""The terminal: commands in, words and exit codes out.

    app          the list of commands; finding the one that was typed
    options      the options of a command, each fault one line
    failing      errors to lines and exit codes; UTF-8 on every system
    terminal     answers as text, worst first; one answer in full
    files        texts and documents from disk

Every other module is one command (or a pair) with ``arguments(parser)`` and ``run(options)``. A command
imports what it needs when it runs, so that ``--help`` is there at once.
"""

from firedeck.cli.app import main

__all__ = ["main"]
