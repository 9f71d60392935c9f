"""The pages of the head table and of the tables at the mats."""
