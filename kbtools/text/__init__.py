"""Texts of authors: as safe HTML, what does not belong into them, and the name that was probably meant."""
