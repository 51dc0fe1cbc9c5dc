"""What a change of the files does to the published advice: two knowledge bases, before and after, held side by side."""
