"""The section `[seeding]` of a rule book: which list of criteria orders a weight, and how.

Every key below is required unless it says otherwise; an unknown key, value or name is refused
with its path and what is allowed. Numbers may be written as TOML numbers or as strings.

Section keys

| key | value |
|---|---|
| shape | "weighted-pairs" or "pair-points" |
| count | how many wrestlers of a weight are seeded (0 = none); the rest is drawn |
| undecided | weighted-pairs: what happens to the weight of a criterion that decides nothing: "dropped", "split" or "renormalised". pair-points: a pair that no criterion decides gives "half" a point each or "nothing" |
| order_by | weighted-pairs: one or both of "pairs-won", "sum-of-weights", first first. pair-points: ["points"] |
| circles | pair-points only: a head-to-head circle of three (A beat B, B beat C, C beat A): the bouts "stand", each pair gets "half" a point each, or the "next-criterion" decides the pair |
| ties | the second list, for wrestlers whose totals are equal: labels of criteria of the first list, or whole criteria (tables as below, without weight); [] = lot at once. After it comes the lot |
| criteria | array of tables, strongest first |
| counting | table: which kinds of result count |

`[seeding.counting]`: four lists of kinds, `win`, `loss`, `head_to_head`, `common_opponents`; kinds are
"decision", "major decision", "technical fall", "fall", "injury default", "forfeit", "medical forfeit",
"disqualification". `win` and `loss` feed records (win percentage, quality wins, RPI).

`[[seeding.criteria]]`: `name` (which criterion), `label` (what people read, unique in its list),
`weight` (weighted-pairs only, more than 0, any scale), and the settings of that criterion:

| name | settings |
|---|---|
| head-to-head | bouts; rule: "majority", "most-recent", "majority-then-recent" or "sweep" |
| common-opponents | bouts; rule: "more-wins", "percentage" or "beat-one-who-beat"; repeats: "every-bout" or "each-opponent-once"; minimum_opponents |
| win-percentage | bouts; minimum_bouts; equal: "more-wins" or "nobody"; missing |
| quality-wins | bouts; repeats; over: "ranked" (then also ranking, top), "field" (wins over wrestlers entered in this weight) or "winning" (then also percentage, minimum_bouts of the beaten) |
| rpi | bouts; parts: three numbers; minimum_bouts; missing |
| ranking | ranking: name of the ranking that is put in by hand or file; missing |
| earlier-place | event: name of the table of places; places_at: "this-weight" or "any-weight"; missing |
| returning-placer | event; places_at; groups: list of lists of places, best group first; equal inside a group; 0 = took part without placing |

`bouts`: "this-weight" or "any-weight". `missing`: how a wrestler without a number (too few bouts,
not ranked, not placed) stands against one who has one: "worse", or "nobody" (decides nothing).

Example

    [seeding]
    shape = "weighted-pairs"
    count = 33
    undecided = "dropped"
    order_by = ["pairs-won", "sum-of-weights"]
    ties = ["head-to-head", "win percentage"]

    [seeding.counting]
    win = ["decision", "major decision", "technical fall", "fall", "injury default",
           "medical forfeit", "disqualification"]
    loss = ["decision", "major decision", "technical fall", "fall", "injury default",
            "medical forfeit", "disqualification"]
    head_to_head = ["decision", "major decision", "technical fall", "fall", "injury default",
                    "disqualification"]
    common_opponents = ["decision", "major decision", "technical fall", "fall", "injury default",
                        "disqualification"]

    [[seeding.criteria]]
    name = "head-to-head"
    label = "head-to-head"
    weight = 25
    bouts = "any-weight"
    rule = "majority"

    [[seeding.criteria]]
    name = "quality-wins"
    label = "quality wins"
    weight = 20
    bouts = "this-weight"
    repeats = "every-bout"
    over = "field"

    [[seeding.criteria]]
    name = "ranking"
    label = "coaches' ranking"
    weight = 15
    ranking = "coaches"
    missing = "worse"

    [[seeding.criteria]]
    name = "common-opponents"
    label = "common opponents"
    weight = 10
    bouts = "this-weight"
    rule = "percentage"
    repeats = "every-bout"
    minimum_opponents = 1

    [[seeding.criteria]]
    name = "rpi"
    label = "RPI"
    weight = 10
    bouts = "this-weight"
    parts = [0.25, 0.50, 0.25]
    minimum_bouts = 15
    missing = "worse"

    [[seeding.criteria]]
    name = "earlier-place"
    label = "qualifying place"
    weight = 10
    event = "qualifying event"
    places_at = "this-weight"
    missing = "worse"

    [[seeding.criteria]]
    name = "win-percentage"
    label = "win percentage"
    weight = 10
    bouts = "this-weight"
    minimum_bouts = 1
    equal = "nobody"
    missing = "worse"

A list of the other shape differs in these keys:

    [seeding]
    shape = "pair-points"
    count = 8
    undecided = "half"
    order_by = ["points"]
    circles = "half"
    ties = ["head-to-head", "win percentage"]

    [[seeding.criteria]]
    name = "common-opponents"
    label = "common opponent"
    bouts = "any-weight"
    rule = "beat-one-who-beat"
    repeats = "each-opponent-once"
    minimum_opponents = 1

    [[seeding.criteria]]
    name = "returning-placer"
    label = "returning 2nd or 3rd"
    event = "state last season"
    places_at = "any-weight"
    groups = [[2, 3]]

    [[seeding.criteria]]
    name = "returning-placer"
    label = "returning qualifier"
    event = "state last season"
    places_at = "any-weight"
    groups = [[1, 2, 3, 4, 5, 6, 7, 8, 0]]
"""
