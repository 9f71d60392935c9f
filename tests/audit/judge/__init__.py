"""An independent reading of the rules, to hold a tournament document against."""
