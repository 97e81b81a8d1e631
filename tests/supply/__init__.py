"""What Fusewright takes from others: how old it may be, under which licence, what it may touch."""
