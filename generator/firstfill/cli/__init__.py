"""The commands. Thin: they read the call, hand it down, and show what comes back.

Importing this package loads nothing but click: each command imports what it needs when it runs, so that
``firstfill --help`` answers at once.
"""

from firstfill.cli.program import main

__all__ = ["main"]
