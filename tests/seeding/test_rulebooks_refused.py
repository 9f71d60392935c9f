"""What is wrong in a file of criteria is named: the file, the key, and what is allowed there."""

import re

import pytest

from tests.seeding.test_rulebooks import changed, refused

LADDER, BALLOT, PIPELINE = "idaho-5a-2011", "minnesota-section-vote", "new-jersey-region-2015"
ADDITIVE, POINTS, OHIO = "pennsylvania-district", "nebraska-2008", "ohio-sectional-2017"
WHERE = "The file ours.toml is not taken: "
SHAPES = "pair-points, ladder, additive, weighted-pairs, ballot, pipeline"
MEASURED = (
    "win-percentage, wins, strong-record, quality-wins, rpi, rating, ranking, earlier-place, "
    "place-points, ballots, ballots-of-others"
)
CRITERIA = f"head-to-head, common-opponents, returning-placer, common-events, points, {MEASURED}"


@pytest.mark.parametrize(
    ("name", "old", "new", "message"),
    [
        (
            LADDER,
            'shape = "ladder"',
            'shape = "stairs"',
            f"The setting seeding.shape must be one of {SHAPES}; it is 'stairs'.",
        ),
        (
            LADDER,
            'circles = "next-criterion"',
            'circles = "half"',
            (
                "The setting seeding.circles must be one of next-criterion, weakest-link, group, "
                "fewest-violations, committee; it is 'half'."
            ),
        ),
        (
            LADDER,
            "restart = false",
            'restart = "no"',
            "The setting seeding.restart must be true or false; it is 'no'.",
        ),
        (LADDER, "restart = false", "", "The rule book has no seeding.restart. Add it."),
        (
            LADDER,
            'circles = "next-criterion"',
            'circles = "group"',
            "The setting seeding.circle_criteria must be a list of criteria; it is [].",
        ),
        (
            POINTS,
            'circles = "group"',
            'circles = "committee"',
            "The setting seeding.circle_criteria must be [] with these circles; it is ['points'].",
        ),
        (
            POINTS,
            'circle_criteria = ["points"]',
            'circle_criteria = ["height"]',
            (
                "The setting seeding.circle_criteria must be a list of tables or of head-to-head, "
                "common opponent, points; it is ['height']."
            ),
        ),
        (
            LADDER,
            'criterion = "head-to-head"',
            'criterion = "height"',
            f"The setting seeding.criteria.0.criterion must be one of {CRITERIA}; it is 'height'.",
        ),
        (
            LADDER,
            'name = "district champion"',
            'name = "overall record"',
            "The setting seeding.criteria must be a list in which overall record stands once; ",
        ),
        (
            LADDER,
            "minimum_bouts = 15",
            'minimum_bouts = "many"',
            (
                "The setting seeding.criteria.4.minimum_bouts must be a whole number from 1; "
                "it is 'many'."
            ),
        ),
        (
            LADDER,
            'rule = "majority"',
            'rule = "majority"\nheight = 3',
            (
                "There is no setting seeding.criteria.0.height. There are: "
                "seeding.criteria.0.bouts, seeding.criteria.0.criterion, seeding.criteria.0.name, "
                "seeding.criteria.0.rule."
            ),
        ),
        (
            LADDER,
            "days = 300",
            "days = 0",
            "The setting seeding.counting.days must be a whole number from 1; it is 0.",
        ),
        (
            LADDER,
            'line_up = "any"',
            'line_up = "best"',
            "The setting seeding.counting.line_up must be one of any, varsity; it is 'best'.",
        ),
        (
            LADDER,
            'own_wrestlers = "no-say"',
            'own_wrestlers = "no"',
            "The setting seeding.committee.own_wrestlers must be one of no-say, say; it is 'no'.",
        ),
        (
            LADDER,
            'final = "lot"',
            'final = "duel"',
            "The setting seeding.final must be one of lot, coin, vote, committee; it is 'duel'.",
        ),
        (
            LADDER,
            "count = 8",
            "count = {133 = 8}",
            "The rule book has no seeding.count.other. Add it.",
        ),
        (
            LADDER,
            "count = 8",
            "count = -1",
            "The setting seeding.count must be a whole number from 0; it is -1.",
        ),
        (
            BALLOT,
            'take = "sum"',
            'take = "median"',
            "The setting seeding.take must be one of mean, sum; it is 'median'.",
        ),
        (
            BALLOT,
            "drop_best = 1",
            "",
            "The rule book has no seeding.drop_best. Add it.",
        ),
        (
            BALLOT,
            'name = "ranks of others"',
            'name = "head-to-head"',
            "The setting seeding.ties must be a list in which head-to-head stands once; ",
        ),
        (
            BALLOT,
            'name = "ranks of others"',
            'name = "ranks of others"\nheight = 3',
            "There is no setting seeding.ties.1.height. There are: ",
        ),
        (
            ADDITIVE,
            'term = "linear"',
            'term = "bands"',
            "The rule book has no seeding.terms.1.bands. Add it.",
        ),
        (
            POINTS,
            '[10, 1], ["more", 1.5]',
            '["more", 1.5], [10, 1]',
            "The setting seeding.criteria.2.terms.2.bands.1.up_to must be a number; it is 'more'.",
        ),
        (
            POINTS,
            "[[5, 0.5], [10, 1]",
            "[[10, 0.5], [5, 1]",
            (
                "The setting seeding.criteria.2.terms.2.bands must be a list of pairs of a rising "
                'difference, the last perhaps "more", and points; it is '
            ),
        ),
        (
            POINTS,
            '[[seeding.criteria.terms]]\nname = "qualified last season"',
            '[[seeding.criteria.terms]]\nname = "win percentage"',
            (
                "The setting seeding.criteria.2.terms must be a list in which win percentage "
                "stands once; it is "
            ),
        ),
        (
            ADDITIVE,
            'criterion = "place-points"',
            'criterion = "head-to-head"',
            (
                f"The setting seeding.terms.1.of.criterion must be one of {MEASURED}; "
                "it is 'head-to-head'."
            ),
        ),
        (
            ADDITIVE,
            "factor = 0.5",
            "factor = 0",
            "The setting seeding.terms.1.of.tables.3.factor must be a number above 0; it is 0.",
        ),
        (
            ADDITIVE,
            "took_part = 0\n",
            "",
            "The rule book has no seeding.terms.1.of.tables.0.took_part. Add it.",
        ),
        (
            PIPELINE,
            'stage = "swap"',
            'stage = "shuffle"',
            (
                "The setting seeding.stages.3.stage must be one of filter, groups, order, swap, "
                "floor, team-mates-apart; it is 'shuffle'."
            ),
        ),
        (
            PIPELINE,
            'shape = "additive"',
            'shape = "pipeline"',
            (
                "The setting seeding.stages.2.shape must be one of pair-points, ladder, additive, "
                "weighted-pairs, ballot; it is 'pipeline'."
            ),
        ),
        (
            OHIO,
            'rest = "unseeded"',
            'rest = "home"',
            "The setting seeding.stages.0.rest must be one of behind, unseeded; it is 'home'.",
        ),
        (
            OHIO,
            'rest = "unseeded"',
            'rest = "behind"\nlater = true',
            "There is no setting seeding.stages.0.later. There are: seeding.stages.0.at_least, ",
        ),
        (
            OHIO,
            'events = ["holiday tournament", "conference tournament"]',
            "events = []",
            (
                "The setting seeding.committee.challenge_needs.1.events must be a list of names of "
                "tables of places, each once; it is []."
            ),
        ),
        (
            "kansas-2007",
            'rule = "percentage"',
            'rule = "beat-one-who-beat"',
            (
                "The setting seeding.criteria.0.own_bouts must be left-out with this rule; "
                "it is 'counted'."
            ),
        ),
        (
            "kansas-2007",
            "percentage = 0.600",
            "percentage = 60",
            (
                "The setting seeding.criteria.2.over.percentage must be a number from 0 to 1; "
                "it is 60."
            ),
        ),
        (
            "north-carolina-conference",
            "days = 300}",
            "weeks = 40}",
            "The rule book has no seeding.criteria.0.bouts.days. Add it.",
        ),
    ],
)
def test_what_is_wrong_is_named(name: str, old: str, new: str, message: str) -> None:
    refusal = refused(changed(name, old, new))
    assert str(refusal).startswith(WHERE + message)
    if message.endswith("."):
        said = str(refusal).removeprefix(WHERE + message)
        assert not said or re.fullmatch(r" \(number \d+ there(, “[^”]+”)?\)", said)


def test_the_table_of_a_list_is_named_as_people_count() -> None:
    refusal = refused(changed("kansas-2007", "percentage = 0.600", "percentage = 60"))
    assert str(refusal).endswith("it is 60. (number 3 there, “record against strong opponents”)")
