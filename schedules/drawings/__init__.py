"""Drawings: blocks placed by Graphviz, conductors laid by our own router, every picture proved before it is written.

Import what you need from the module that holds it: `picture` for what goes in, `drawing` for `draw`.
"""
