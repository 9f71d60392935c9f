"""The sport of brackets, in pure Python: who meets whom, who goes on, who is placed."""
