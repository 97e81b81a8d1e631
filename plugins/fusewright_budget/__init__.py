"""What is asked of banks, chargers, alternators and shore inlets against what they may give."""
