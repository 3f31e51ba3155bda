"""The site, built with MkDocs and its Material theme: nothing but options and events meets either of them here."""

from __future__ import annotations

from firstfill.publish.site.building import build, serve

__all__ = ["build", "serve"]
