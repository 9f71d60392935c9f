"""What entries and rule books refuse.

Refusal
├── RuleBookRefusal
│   ├── MissingSection   a whole table of the rule book is absent
│   ├── UnknownSection   a table that no rule book has
│   ├── MissingSetting   a key that the program needs is absent
│   ├── UnknownSetting   a key or dotted name that nobody reads
│   ├── BadSetting       the value is of the wrong kind
│   ├── NewerSnapshot    written by a later version of the program
│   └── UnknownRuleBook  no book of that name is installed
├── TakenName            the key or slug is used already
├── Locked               the weight is drawn; its entries stand
├── SettingsStand        a weight of the division is drawn; its settings stand
├── EnteredElsewhere     who is entered at one weight comes into another
├── StandsBy             who stands by is not in the field, and is not restored to it
├── NotGrouped           the division has fixed weights
├── StillWaiting         who waits to be grouped is not drawn
├── NothingToGroup       of those who wait nobody can be grouped
├── GroupedByPage        groups change on their own page, where limits are told
├── StillUsed            something hangs on it
├── CannotMerge          the two teams cannot become one
├── TeamClosed           the team was merged into another
├── TableRefusal         a roster or season file cannot be used at all
│   ├── EmptyTable       nothing under the headings, or nothing at all
│   ├── WrongFileType    neither CSV nor XLSX
│   ├── UnreadableTable  CSV or XLSX, but damaged
│   └── TableTooLarge    more bytes, rows or columns than are read
└── LastOwner            a tournament keeps at least one owner
"""

from seeding.journal.core.errors import Refusal


class RuleBookRefusal(Refusal):
    """A rule book, a snapshot of one or a change to it cannot be used."""

    code = "rule-book"


class MissingSection(RuleBookRefusal):
    code = "missing-section"
    template = "The rule book has no section [{name}]. Add it."


class UnknownSection(RuleBookRefusal):
    code = "unknown-section"
    template = "The rule book has a section [{name}] that nobody reads. There are: {allowed}."


class MissingSetting(RuleBookRefusal):
    code = "missing-setting"
    template = "The rule book has no {name}. Add it."


class UnknownSetting(RuleBookRefusal):
    code = "unknown-setting"
    template = "There is no setting {name}. There are: {allowed}."


class BadSetting(RuleBookRefusal):
    code = "bad-setting"
    template = "The setting {name} must be {wanted}; it is {value!r}."


class NewerSnapshot(RuleBookRefusal):
    code = "newer-snapshot"
    template = (
        "The rule book was written under schema {found}, this program knows up to {known}. "
        "Use a later version of the program."
    )


class UnknownRuleBook(RuleBookRefusal):
    code = "unknown-rule-book"
    template = "There is no rule book {name!r}. There are: {allowed}."


class TakenName(Refusal):
    code = "taken"
    template = "There is already a {what} “{name}”. Choose another."


class Locked(Refusal):
    code = "drawn"
    template = (
        "Weight {weight} is drawn, so its entries stand. "
        "Withdraw a wrestler at the head table, or take the draw back while nothing is wrestled."
    )


class SettingsStand(Refusal):
    code = "drawn"
    template = (
        "Weight {weight} is drawn, so the settings of its division stand. "
        "Take the draw back first, while nothing of it is wrestled."
    )


class EnteredElsewhere(Refusal):
    """Somebody who is entered at one weight is to come into another."""

    code = "entered-elsewhere"
    template = (
        "{name} is entered at {weight}, and a wrestler has one weight. "
        "Scratch him there first, or choose somebody else."
    )


class StandsBy(Refusal):
    code = "stands-by"
    template = (
        "{entry} stands by: who did not advance comes in as a wild card or as an alternate, "
        "on the qualifying page."
    )


class NotGrouped(Refusal):
    code = "not-grouped"
    template = (
        "The division “{division}” has fixed weights. "
        "Let it form groups after weigh-in first, before it has any weight."
    )


class StillWaiting(Refusal):
    code = "still-waiting"
    template = "{weight} is where wrestlers wait to be grouped. Form the groups and draw these."


class NothingToGroup(Refusal):
    code = "nothing-to-group"
    template = "Of those who wait in {division}, nobody can be grouped within the limits."


class GroupedByPage(Refusal):
    code = "grouped-by-page"
    template = (
        "{weight} is a group formed after weigh-in. Enter wrestlers at “To be grouped”, "
        "and move them on the page of the groups, which tells what limits are broken."
    )


class StillUsed(Refusal):
    code = "still-used"
    template = "{what} “{name}” still has {count} {users}. Move or remove them first."


class LastOwner(Refusal):
    code = "last-owner"
    template = "{name} is the only owner of this tournament. Name another owner first."


class TableRefusal(Refusal):
    code = "table"


class EmptyTable(TableRefusal):
    code = "empty-table"
    template = "The file {name} has {what}. Send a file with one row of headings and rows below it."


class WrongFileType(TableRefusal):
    code = "wrong-file-type"
    template = "The file {name} is {what}. Save it as CSV or as XLSX and send that."


class UnreadableTable(TableRefusal):
    code = "unreadable-table"
    template = "The file {name} cannot be read: {why}. Open it in a spreadsheet and save it anew."


class TableTooLarge(TableRefusal):
    code = "table-too-large"
    template = "The file {name} has {what}; at most {most} are read. Send it in smaller parts."


class CannotMerge(Refusal):
    code = "cannot-merge"
    template = "{team} cannot be merged into {into}: {why}."


class TeamClosed(Refusal):
    code = "team-closed"
    template = "{team} was merged into another team. Choose that one."
