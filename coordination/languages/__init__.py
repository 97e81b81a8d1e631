"""What is said to people, in English and in other languages; the lowest layer.

English stands once, where it is said: in the code, and for the papers in `en.toml`. A translation
is a file: `de.toml` here for the engine, and `languages/de.toml` in the package of a rule pack for
the pack's cards and sentences. Import the module that is wanted: `language` alone is light.
"""
