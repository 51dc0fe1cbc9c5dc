"""What tests share: small bases, references, servers and readers of pages."""
