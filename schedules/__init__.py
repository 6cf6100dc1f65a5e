"""The library: one kitchen's hood installation derived, checked and tabulated; no terminal code."""
