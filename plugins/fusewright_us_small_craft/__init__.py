"""The pack `us_small_craft`: US federal law for small craft, and voluntary practice beside it."""
