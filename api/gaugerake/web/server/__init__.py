"""The app and the processes that serve it."""
