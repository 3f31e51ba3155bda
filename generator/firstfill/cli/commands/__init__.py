"""One module a command, or a small group of them."""
