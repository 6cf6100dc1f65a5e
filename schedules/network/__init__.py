"""The connection graph as an electrical network, solved: voltages, contacts and coils at rest, what a meter shows."""
