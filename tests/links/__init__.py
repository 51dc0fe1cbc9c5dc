"""What is made of answers from links."""
