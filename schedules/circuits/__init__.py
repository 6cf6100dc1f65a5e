"""Branch circuits by the code's rules, and this job's circuits by them."""
