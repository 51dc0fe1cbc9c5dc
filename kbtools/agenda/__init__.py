"""What a curator does next, most useful first: reviews, second readers, drafts, cases to sort, what contradicts."""
