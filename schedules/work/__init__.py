"""Delivery, trades and days."""
