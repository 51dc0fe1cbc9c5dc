"""Open formats: the knowledge base as anybody may take it away. One module each; `files` says where each stands."""
