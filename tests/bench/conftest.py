"""The benches are programs of their own: nothing here is a test, and nothing is collected."""

collect_ignore_glob = ["*"]
