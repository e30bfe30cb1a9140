"""Arrays in, arrays out. Nothing is estimated yet: every due date rests on the care rhythm."""
