"""The printed package: what each person holds in hand on site."""
