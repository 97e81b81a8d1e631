"""Pure functions on SI floats, one equation each; every argument's unit stands in its docstring."""
