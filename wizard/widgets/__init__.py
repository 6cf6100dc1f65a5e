"""The parts that screens are made of. None of them computes: they show a snapshot and send messages."""
