"""What a person reads: words, numbers, tables and drawings for one reader."""
