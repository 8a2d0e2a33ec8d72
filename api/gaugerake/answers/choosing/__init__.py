"""What helps to choose: floors side by side, and the best hour to begin."""
