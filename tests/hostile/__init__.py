"""Attacks that must not hold: whatever a proposal holds, it is answered soon, in little memory, and in a sentence."""
