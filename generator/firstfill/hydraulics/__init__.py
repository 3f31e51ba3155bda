"""Physics: pure functions of coherent SI floats, standard library only, each with its published source."""
