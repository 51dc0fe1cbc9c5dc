"""What came back from outside links: judged, kept as a text, told by the file that has them."""
