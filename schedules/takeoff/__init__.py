"""What is bought by length: cut lists, sticks and reels, fittings."""
