"""What is decided: pure functions from records to records. No call to clock, random or I/O."""
