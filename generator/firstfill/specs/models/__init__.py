"""The models of the facts, one subject a module."""
