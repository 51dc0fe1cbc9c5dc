"""Compares records of any kind by their fields, and finds the pairs worth comparing without comparing all."""
