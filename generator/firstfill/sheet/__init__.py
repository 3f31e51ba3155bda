"""The sheet: what is computed and what is written, put together into one document."""

from firstfill.sheet.composing import compose, with_counts
from firstfill.sheet.document import Sheet
from firstfill.sheet.reading import read_words
from firstfill.sheet.translation import is_translation
from firstfill.sheet.verdicts import sentence_for_check
from firstfill.sheet.words import Words

__all__ = ["Sheet", "Words", "compose", "is_translation", "read_words", "sentence_for_check", "with_counts"]
