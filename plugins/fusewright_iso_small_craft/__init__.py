"""The pack `iso_small_craft`: ISO 13297 and 10133 for small craft, and ISO 23625 for lithium."""
