"""Door-specific commissioning sheets, from facts in YAML and words in Markdown.

The packages are the pipeline, in this order, and imports run one way only:
``errors``, ``quantities`` → ``specs`` → ``hydraulics`` → ``commissioning`` → ``sheet`` →
``figures`` / ``publish`` → ``cli``.
"""

__version__ = "0.1.0"
