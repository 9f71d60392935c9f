"""Ratings of a whole season; pure functions over arrays of bouts and matrices of wins."""
