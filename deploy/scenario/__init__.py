"""An invented championship: teams, people, a season, and how its bouts would go.

    chance        repeatable chance from one seed
    names         the words that places and people are made of
    field         who is entered where, and how strong he is (nobody else knows that)
    bouts         how a bout between two strengths ends
    season        the prior bouts
    tournament    all of it as a tournament file, and the results of its bouts
    small         the two small CSV files for somebody's own first tournament

Nothing here is real: places are made up, people are put together from lists of names. The same
seed gives the same championship, byte for byte.
"""
