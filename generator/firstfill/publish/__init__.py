"""From the sheet to what people hold in their hands: pages, files and the site. It places; it never computes."""

from __future__ import annotations

from firstfill.publish.files import FORMS, Form, file_name, sheet_files
from firstfill.publish.pages import Contents, Page, page_assets, site_pages, write_pages

__all__ = ["FORMS", "Contents", "Form", "Page", "file_name", "page_assets", "sheet_files", "site_pages", "write_pages"]
