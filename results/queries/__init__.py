"""Every read of results and points."""
