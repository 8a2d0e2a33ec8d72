"""What each kind of layer needs."""
