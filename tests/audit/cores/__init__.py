"""Weights wrestled in the cores alone, and judged after every step: no database, no services.

    made     a weight, drawn by chance
    held     how it stands, by the cores and by the judge
    acts     what happens to it

Many times faster than a whole tournament, and wilder: a ruling on any bout at any time, one after
the other, and choices about whatever they touch.
"""
