"""The generic parts: tables of published minimums, and how parts are made of them."""
