"""The installation as a circuit: states, interlocks, readings, faults and how to find them."""
