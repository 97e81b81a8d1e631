"""What is checked against what: every published figure that a computation is held to, and by how
much ours differs. `python -m tests.checked` writes the page beside this file.
"""
