"""Compares records by their fields, and finds the pairs that say the same without comparing all."""
