"""Pure functions on SI floats, one equation each; every argument's unit stands in its docstring.

A bracket holds a pint unit, `[text]` for a word, and `[unit, each]` for a sequence of values.
Temperatures are in degC, as everywhere. Nothing here knows a file, a part or a network.
"""
