"""What every test stands on: a real server, a real browser, the laws' generators."""
