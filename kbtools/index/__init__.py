"""What belongs to what: each question about a knowledge base, answered once."""
