"""The pack `fundamentals`: what physics demands of any small DC system, whatever the local code."""
