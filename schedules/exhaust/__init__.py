"""The exhaust duct and its fan."""
