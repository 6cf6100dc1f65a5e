"""What a trainer shows and asks: every combination, the smallest deck of them, exercises, stories."""
