"""What was bought and how it is joined: one graph of points and conductors."""
